#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <set>

#include "heapwright/input/document.hpp"
#include "heapwright/maturity/rating.hpp"
#include "heapwright/maturity/turf.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;

namespace {

using Side = Bound::Side;
constexpr std::array<Side, 4> sides{Side::below, Side::at_most, Side::above, Side::at_least};

const Criteria& criteria() {
  static const Criteria table = built_in_criteria();
  return table;
}

const ReportLines& lines() {
  static const ReportLines table = built_in_report_lines();
  return table;
}

/// "test ammonium", "line lead", "unknown", or why it is refused.
std::string place_of(std::string_view name) {
  try {
    const NamedLine named = named_line(criteria(), lines(), name);
    return named.test != nullptr ? "test " + named.test->id : named.line != nullptr ? "line " + named.line->id : "unknown";
  } catch (const TextError& error) {
    return std::string(error.what()) + " | " + error.hint();
  }
}

StandingLine standing(std::string_view name, std::string_view value) {
  const LineOfReport line = line_of_report(named_line(criteria(), lines(), name), lines(), value);
  return standing_lines({std::get<ReportedLine>(line)}, lines()).front();
}

MaturityTest test_of(std::string_view test, std::string_view value) { return read_maturity_test(criteria(), test, value); }

}  // namespace

TEST_CASE("what a bound tells of another is what it tells of each number", "[report]") {
  constexpr int numbers = 80;  // in steps of a tenth from 0 to 8, around bounds of 2, 4 and 6
  for (const Side limit_side : sides) {
    for (const Side told_side : sides) {
      for (const double value : {2.0, 4.0, 6.0}) {
        const Bound limit{limit_side, 4.0};
        const Bound told{told_side, value};
        bool any_good = false;
        bool any_bad = false;
        for (int tenth = 0; tenth <= numbers; ++tenth) {
          const TestValue number = tenth / 10.0;
          if (!told.holds(number)) continue;
          (limit.holds(number) ? any_good : any_bad) = true;
        }
        CAPTURE(static_cast<int>(limit_side), static_cast<int>(told_side), value);
        const std::optional<bool> expected = any_good && any_bad ? std::nullopt : std::optional(any_good);
        CHECK(limit.holds(told.value, told_side) == expected);
        CHECK(limit.holds(told.value, std::nullopt) == limit.holds(told.value));
      }
    }
  }
}

TEST_CASE("a bound of no number tells nothing", "[report]") {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const Side limit_side : sides) {
    for (const Side told_side : sides) {
      CHECK_FALSE((Bound{limit_side, 4.0}.holds(nan, told_side)));
      CHECK_FALSE((Bound{limit_side, nan}.holds(4.0, told_side)));
      CHECK_FALSE((Bound{limit_side, 4.0}.holds(TestValue(nan / unit::gram), told_side)));
    }
  }
  for (const TestCriterion& test : criteria().tests) {
    for (const Scale& scale : test.scales) {
      const TestValue broken = std::visit([&](const auto& value) { return TestValue(nan * value); }, scale.mature.value);
      CAPTURE(test.id);
      CHECK_FALSE(rating_on(scale, MaturityTest{test.id, broken, "", std::nullopt, Side::below}).has_value());
    }
  }
}

TEST_CASE("values as they are told", "[report]") {
  const auto [text, told, value] = GENERATE(table<std::string, std::optional<Side>, std::string>({
      {"<5 mg/kg", Side::below, "5 mg/kg"},
      {" < 1", Side::below, " 1"},
      {"≤5", Side::at_most, "5"},
      {"<=5", Side::at_most, "5"},
      {"Less than 5", Side::below, "5"},
      {"up to 5", Side::at_most, "5"},
      {">1600", Side::above, "1600"},
      {">=2", Side::at_least, "2"},
      {"≥2", Side::at_least, "2"},
      {"AT LEAST 2", Side::at_least, "2"},
      {"12 degC", std::nullopt, "12 degC"},
      {"overall", std::nullopt, "overall"},
      {"", std::nullopt, ""},
  }));
  CAPTURE(text);
  const ToldValue found = told_value(text);
  CHECK(found.told == told);
  CHECK(std::string(found.value) == value);
}

TEST_CASE("a name is one line's alone, and no test's", "[report]") {
  std::set<std::string> names;
  const Materials materials = built_in_materials();
  const auto is_known = [&](const std::string& id) {
    return std::any_of(materials.sources->begin(), materials.sources->end(), [&](const Source& source) { return source.id == id; });
  };
  for (const ReportLine& line : lines().lines) {
    std::set<std::string> own{plain_name(line.id), plain_name(line.name)};
    for (const std::string& also : line.also) own.insert(plain_name(also));
    for (const std::string& name : own) {
      CAPTURE(line.id, name);
      CHECK(names.insert(name).second);
      CHECK(place_of(name) == "line " + line.id);
      CHECK(criteria().find_test(name) == nullptr);
    }
    CHECK(is_known(line.whose.source));
    if (line.limit) CHECK(is_known(line.limit->whose.source));
  }
}

TEST_CASE("names of laboratories' lines", "[report]") {
  const auto [name, place] = GENERATE(table<std::string, std::string>({
      {"ammonium", "test ammonium"},
      {"NH4-N", "test ammonium"},
      {"total nitrogen", "test nitrogen"},
      {"N", "test nitrogen"},
      {"particle size", "test particle-size"},
      {"Nitrate-N (NO3-N)", "line nitrate"},
      {"Total Lead", "line lead"},
      {"Lead, total", "line lead"},
      {"Nitrogen, total", "test nitrogen"},
      {"Pb", "line lead"},
      {"passing 2 mm", "line passing-a-sieve"},
      {"hard plastic > 4 mm", "line inerts"},
      {"FECAL COLIFORMS", "line fecal-coliform"},
      {"total coliform", "line total-coliform"},
      {"molybdenun", "unknown"},
      {"nitrat", "unknown"},
      {"Mq", "unknown"},
      {"gribble number", "unknown"},
  }));
  CAPTURE(name);
  CHECK(place_of(name) == place);
  for (const auto& [misspelt, meant] : std::vector<std::pair<std::string, std::string>>{{"amonium", "ammonium"},
                                                                                        {"vigr", "vigor"},
                                                                                        {"emergance", "emergence"},
                                                                                        {"organic mater", "organic-matter"},
                                                                                        {"moistrue", "moisture"}})
    CHECK_THAT(place_of(misspelt), Catch::Contains("did you mean \"" + meant + "\""));
}

TEST_CASE("microbes of a mass", "[report]") {
  const auto count = [](std::string_view text) { return std::get<MicrobeCount>(read_test_value(TestQuantity::microbe_count, text)); };
  CHECK(count("3 MPN/4g") / count("0.75 MPN/g") == Approx(1.0));
  CHECK(count("2.307e+04 MPN per g of total solids") / count("1 MPN/g TS") == Approx(23070.0));
  CHECK(in_usual_unit(TestQuantity::microbe_count, count("388 MPN/g dry")).number == Approx(388.0));
  for (const char* text :
       {"388", "388 CFU/g", "388 MPN/g as received", "388 MPN/g wet", "388 mg/kg", "-3 MPN/g", "nan MPN/g", "1e13 MPN/g"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(read_test_value(TestQuantity::microbe_count, text), TextError);
  }
}

TEST_CASE("a line stands where its limit says, at each side and at the edge", "[report]") {
  // 21 CFR 112.55(b), as quoted: fecal coliform below 1000 MPN per g, Salmonella below 3 MPN per 4 g.
  const auto [name, value, where] = GENERATE(table<std::string, std::string, LineStanding>({
      {"fecal coliform", "999 MPN/g", LineStanding::within_limit},
      {"fecal coliform", "1000 MPN/g", LineStanding::beyond_limit},
      {"fecal coliform", "1001 MPN/g", LineStanding::beyond_limit},
      {"fecal coliform", "1,001 MPN/g", LineStanding::beyond_limit},
      {"fecal coliform", "<999 MPN/g", LineStanding::within_limit},
      {"fecal coliform", "<1001 MPN/g", LineStanding::not_comparable},
      {"Salmonella", "2.9 MPN/4g", LineStanding::within_limit},
      {"Salmonella", "3 MPN/4g", LineStanding::beyond_limit},
      {"Salmonella", "not detected", LineStanding::not_comparable},
      {"lead", "1e6 mg/kg", LineStanding::no_limit},
      {"lead", "below detection", LineStanding::no_limit},
      {"lead", "5 kg", LineStanding::other_unit},
      {"maturity", "mature", LineStanding::no_limit},
      {"ammonium", "not detected", LineStanding::no_figure},
      {"gribble number", "12", LineStanding::not_known},
  }));
  CAPTURE(name, value);
  const StandingLine line = standing(name, value);
  CHECK(line.standing == where);
  CHECK(line.reported.written == value);
  CHECK(line.reported.name == name);
}

TEST_CASE("no number is no figure of a report", "[report]") {
  for (const char* name : {"lead", "ammonium", "gribble number", "maturity"}) {
    for (const char* value : {"nan", "NaN mg/kg", "inf", "-inf", "Infinity mg/kg", "<inf", "∞"}) {
      CAPTURE(name, value);
      CHECK_THROWS_AS(line_of_report(named_line(criteria(), lines(), name), lines(), value), TextError);
    }
  }
  CHECK(standing("color", "infrared").reported.written == "infrared");  // a word that begins alike
  CHECK_THROWS_AS(line_of_report(named_line(criteria(), lines(), "lead"), lines(), ""), TextError);
  CHECK_THROWS_AS(line_of_report(named_line(criteria(), lines(), "lead"), lines(), "a\nb"), TextError);
  CHECK_THROWS_AS(named_line(criteria(), lines(), ""), TextError);
}

TEST_CASE("a test of which a bound is told rates as what it is at least", "[report]") {
  const MaturityRating alone = rate({test_of("CO2", "<1 mgC/gOM/day"), test_of("emergence", ">80 %")}, criteria());
  CHECK(alone.rating == Rating::mature);
  CHECK(alone.stability.rating == Rating::very_mature);
  const MaturityRating better = rate({test_of("emergence", ">80 %"), test_of("vigor", "95 %")}, criteria());
  CHECK(better.maturity.rating == Rating::very_mature);  // which it may be as well
  CHECK_FALSE(better.maturity.tests_disagree);
  const MaturityRating untold = rate({test_of("emergence", ">50 %"), test_of("ammonium", "20 mg/kg")}, criteria());
  CHECK(untold.maturity.rating == Rating::very_mature);  // what does not say decides nothing
  CHECK_FALSE(untold.maturity.plants_decide);
  CHECK(rate({test_of("self-heating", "<8 degC")}, criteria()).tests.front().heating_class.empty());
}

TEST_CASE("turf takes a bound where all of it is on one side", "[report]") {
  const auto passes = [](std::string_view test, std::string_view value, const std::string& whose) {
    std::optional<bool> ok;
    for (const TurfResult& result : turf_results(rate({test_of(test, value)}, criteria()).tests, criteria())) {
      if (result.limit->specification == whose && result.property->id == test) ok = result.ok;
      CHECK(result.ok.has_value() == result.value.has_value());
    }
    return ok;
  };
  CHECK(passes("emergence", ">80 %", "Caltrans") == true);
  CHECK(passes("emergence", ">79 %", "Caltrans") == std::nullopt);
  CHECK(passes("emergence", "<80 %", "Caltrans") == false);
  CHECK(passes("salts-1to5", "<10 dS/m", "Minnesota") == true);
  CHECK(passes("salts-1to5", ">10 dS/m", "Minnesota") == false);
  CHECK(passes("moisture", "<25 %", "Caltrans") == false);
  CHECK(passes("moisture", "<40 %", "Caltrans") == std::nullopt);
}

TEST_CASE("lines of one's own", "[report]") {
  const auto with = [](const std::string& text) {
    Problems problems;
    const Document document = Document::from_text(text, "own.toml", problems);
    Table root = document.root();
    ReportLines own = lines();
    read_report_lines(root, own);
    root.finish();
    problems.throw_if_any();
    return own;
  };
  const std::string head = "[[report_line]]\nid = \"gribble\"\nname = \"gribble number\"\nquantity = ";
  const std::string tail = "what = \"an invented line\"\nsource = \"own\"\nevidence = \"judged\"\n";
  const ReportLines own = with(head + "\"share\"\n" + tail);
  REQUIRE(own.find("Gribble number") != nullptr);
  CHECK(reported_line("gribble", own.find("gribble"), "12 %").figure->number == 12.0);
  CHECK_FALSE(reported_line("gribble", own.find("gribble"), "12 mg/kg").figure);
  const std::string limit =
      "limit = { bound = \"below 5 MPN/g\", beyond = \"b\", for_whom = \"w\", source = \"own\", evidence = \"judged\" }\n";
  CHECK(with(head + "\"microbes\"\n" + limit + tail).find("gribble")->limit);
  CHECK_THROWS_WITH(with(head + "\"content\"\n" + limit + tail), Catch::Contains("of no count of microbes"));
  CHECK_THROWS_AS(with(head + "\"weight\"\n" + tail), InputError);
}
