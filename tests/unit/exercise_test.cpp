// Problem sheets: the same from the same seed, every answer worked out again from its givens, and by its own working.

#include "heapwright/exercise/exercise.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

#include "heapwright/exercise/draw.hpp"
#include "heapwright/exercise/tidy.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

const Tables& tables() {
  static const Tables all = built_in_tables();
  return all;
}

constexpr Level levels[] = {Level::first, Level::second, Level::third};

struct Sheet {
  const SheetUnits* units;
  Level level;
  std::uint32_t seed;
  Exercise exercise;
};

/// Made once: each kind of problem is looked for on all of them.
const std::vector<Sheet>& sheets() {
  static const std::vector<Sheet> all = [] {
    std::vector<Sheet> made;
    for (const SheetUnits* units : {&us_sheet_units(), &si_sheet_units()}) {
      for (const Level level : levels) {
        for (std::uint32_t seed = 0; seed < 12; ++seed) made.push_back({units, level, seed, make_exercise(seed, level, *units, tables())});
      }
    }
    return made;
  }();
  return all;
}

template <class Kind, class Check>
void for_each_of(Check check) {
  int found = 0;
  for (const auto& [units, level, seed, exercise] : sheets()) {
    for (const ExerciseProblem& problem : exercise.problems) {
      const Kind* kind = std::get_if<Kind>(&problem.of);
      if (kind == nullptr) continue;
      ++found;
      INFO("seed " << seed << ", level " << static_cast<int>(level));
      check(*kind, problem.working, *units, level);
    }
  }
  CHECK(found > 10);
}

/// What a working comes to in the end.
double last_of(const Working& working) { return working.steps().back().result->value; }

constexpr double as_printed = 2e-3;  // a working goes on from four or five printed figures

}  // namespace

TEST_CASE("draws are those of the generator by its published check value", "[exercise]") {
  boost::random::mt19937 engine;  // 5489
  engine.discard(9999);
  CHECK(engine() == 4123659995U);  // the C++ standard's, of the 10,000th
  Draw one(7);
  Draw same(7);
  std::set<int> drawn;
  for (int i = 0; i < 200; ++i) {
    const int number = one.between(3, 9);
    CHECK(number == same.between(3, 9));
    drawn.insert(number);
  }
  CHECK(drawn == std::set<int>{3, 4, 5, 6, 7, 8, 9});
  CHECK_THROWS_AS(one.one_of(std::vector<int>{}), DomainError);
}

TEST_CASE("a seed gives one sheet, and another seed another", "[exercise]") {
  const auto numbers = [](std::uint32_t seed) {
    std::vector<double> all;
    for (const ExerciseProblem& problem : make_exercise(seed, Level::second, us_sheet_units(), tables()).problems) {
      all.push_back(static_cast<double>(problem.of.index()));
      for (const Step& step : problem.working.steps()) all.push_back(step.result->value);
    }
    return all;
  };
  CHECK(numbers(7) == numbers(7));
  CHECK(numbers(7) != numbers(8));
}

TEST_CASE("what is even, what rounds clearly, and multiples between bounds", "[exercise]") {
  CHECK(is_even(0.3, 0.1));
  CHECK_FALSE(is_even(0.35, 0.1));
  CHECK(rounds_clearly(20.1, 1.0));
  CHECK_FALSE(rounds_clearly(20.5, 1.0));
  CHECK_FALSE(rounds_clearly(20.42, 1.0));
  CHECK(multiples_of(5.0, {26.8, 40.0}) == std::vector<double>{30.0, 35.0, 40.0});
  CHECK(multiples_of(5.0, {41.0, 44.0}).empty());
}

TEST_CASE("moisture of a handful", "[exercise]") {
  for_each_of<MoistureProblem>([](const MoistureProblem& problem, const Working& working, const SheetUnits&, Level) {
    const Dried& last = problem.weighings.back();
    const double wet = (last.wet - problem.bowl).value();
    const double dry = (last.dry - problem.bowl).value();
    CHECK_THAT(problem.answer.high.value(), WithinRel((wet - dry) / wet, 1e-12));
    CHECK_THAT(problem.mistaken.high.value(), WithinRel((wet - dry) / dry, 1e-12));
    CHECK_THAT(last_of(working), WithinRel(100.0 * (wet - dry) / wet, as_printed));
  });
}

TEST_CASE("water makes a mix as moist as wanted", "[exercise]") {
  for_each_of<WaterProblem>([](const WaterProblem& problem, const Working& working, const SheetUnits& units, Level) {
    for (const auto& [goal, water] : {std::pair(problem.goal.low, problem.answer.low), std::pair(problem.goal.high, problem.answer.high)})
      CHECK_THAT(moisture_wet_basis(problem.dry, problem.water + water).value(), WithinRel(goal.value(), 1e-12));
    CHECK_THAT(last_of(working), WithinRel(units.working->mass.number(as_is_mass(problem.answer.high)), as_printed));
  });
}

TEST_CASE("C:N of a mix is all carbon over all nitrogen", "[exercise]") {
  for_each_of<RatioProblem>([](const RatioProblem& problem, const Working& working, const SheetUnits&, Level level) {
    double carbon = 0.0;
    double nitrogen = 0.0;
    for (const Ingredient& one : problem.ingredients) {
      const double dry = one.mass.value() * (1.0 - one.properties.moisture.value());
      carbon += dry * one.properties.carbon.value();
      nitrogen += dry * one.properties.nitrogen.value();
    }
    CHECK(problem.ingredients.size() == (level == Level::third ? 3 : 2));
    CHECK_THAT(problem.answer.value(), WithinRel(carbon / nitrogen, 1e-12));
    CHECK_THAT(last_of(working), WithinRel(carbon / nitrogen, as_printed));
    CHECK(std::abs(problem.mistaken.value() - problem.answer.value()) >= 3.0);
  });
}

TEST_CASE("leaves bring clippings to the C:N wanted", "[exercise]") {
  for_each_of<LeavesProblem>([](const LeavesProblem& problem, const Working& working, const SheetUnits& units, Level) {
    const auto mixed = [&](Mass leaves, CarbonNitrogenRatio ratio) {
      Ingredient brown;
      brown.mass = leaves;
      brown.properties = problem.leaves;
      brown.properties.nitrogen = problem.leaves.carbon / ratio;
      return mix_of({{problem.clippings, brown}, {}}).carbon_to_nitrogen->value();
    };
    CHECK_THAT(mixed(problem.answer.high, problem.leaves_ratio.low), WithinRel(problem.goal.value(), 1e-9));
    CHECK_THAT(mixed(problem.answer.low, problem.leaves_ratio.high), WithinRel(problem.goal.value(), 1e-9));
    CHECK_THAT(last_of(working), WithinRel(units.working->mass.number(problem.answer.high), as_printed));
    CHECK(problem.mistaken < problem.answer.low);
    CHECK(is_positive(problem.mistaken));
  });
}

TEST_CASE("compost on a lawn is its area times the depth", "[exercise]") {
  for_each_of<VolumeProblem>([](const VolumeProblem& problem, const Working& working, const SheetUnits& units, Level level) {
    const Zone& lawn = problem.lawn;
    double area = lawn.area.value();
    if (lawn.whole) area = (lawn.whole->sides[0] * lawn.whole->sides[1]).value();
    for (const Piece& cut : lawn.cut_out) area -= (cut.sides[0] * cut.sides[1]).value();
    CHECK(lawn.cut_out.size() == (level == Level::third ? 1 : 0));
    CHECK_THAT(problem.answer.value(), WithinRel(area * problem.depth.value(), 1e-12));
    const WorkingUnit<Volume>& in = lawn.whole ? units.working->large : units.spread;
    CHECK_THAT(last_of(working), WithinRel(in.number(problem.answer), as_printed));
    if (level == Level::first) CHECK(last_of(working) == Approx(in.number(problem.answer)).epsilon(1e-9));  // no step rounds
    CHECK(problem.mistaken <= 12.0 * problem.answer);
  });
}

TEST_CASE("a log is read by its coldest thermometer", "[exercise]") {
  for_each_of<LogProblem>([](const LogProblem& problem, const Working& working, const SheetUnits&, Level level) {
    int longest = -1;
    int run = -1;
    for (const LogRow& row : problem.log.rows) {
      bool counts = true;
      for (const auto& reading : row.probes)
        counts = counts && *reading >= problem.rule.at_least && (!problem.rule.at_most || *reading <= *problem.rule.at_most);
      run = counts ? run + 1 : -1;
      longest = std::max(longest, run);
    }
    CHECK(problem.answer == std::chrono::hours(24 * longest));
    CHECK(problem.met == (problem.answer >= problem.rule.length));
    CHECK(problem.mistaken > problem.answer);
    if (level == Level::first) CHECK(problem.mistaken == std::chrono::hours(24 * (longest + 1)));
    CHECK_THAT(last_of(working), WithinAbs(longest, 1e-9));
  });
}

TEST_CASE("of several tests the least mature rules", "[exercise]") {
  for_each_of<TestsProblem>([](const TestsProblem& problem, const Working&, const SheetUnits&, Level level) {
    CHECK(problem.results.size() == static_cast<std::size_t>(level));
    if (level == Level::first) {
      CHECK(problem.answer == problem.results.front().rating);
      CHECK(problem.mistaken_kind != problem.results.front().test.kind);
      return;
    }
    const Rating of_two = std::min(problem.results[0].rating, problem.results[1].rating);
    const bool fails_screen = level == Level::third && problem.results[2].rating == Rating::immature;
    CHECK(problem.answer == (fails_screen ? Rating::immature : of_two));
    CHECK(problem.mistaken > problem.answer);
  });
}

TEST_CASE("nitrogen of compost is a share of its dry matter", "[exercise]") {
  for_each_of<NitrogenProblem>([](const NitrogenProblem& problem, const Working& working, const SheetUnits& units, Level level) {
    const double whole = (problem.area * problem.depth * problem.density).value();
    const double dry = whole * (1.0 - problem.moisture.value());
    CHECK_THAT(problem.answer.high.value(), WithinRel(dry * problem.content.high.value(), 1e-12));
    CHECK_THAT(problem.mistaken.low.value(), WithinRel(whole * problem.content.low.value(), 1e-12));
    CHECK((problem.content.low < problem.content.high) == (level == Level::third));
    CHECK_THAT(last_of(working), WithinRel(problem.answer.high.value() / units.working->mass.one.value(), 2.0 * as_printed));
  });
}
