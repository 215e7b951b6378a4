// Water in a handful, and water for a mix.

#include "heapwright/exercise/draw_problems.hpp"
#include "heapwright/exercise/tidy.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/formula.hpp"

namespace heapwright {
namespace {

// --- a handful ---

/// A handful by what the scale shows of it, and its moisture in percent.
struct Handful {
  Mass wet;
  Mass dry;
  double moisture;
};

/// The handfuls whose dry weight the scale shows to the last digit. Drier than a fifth the right and the usual wrong answer are too near.
std::vector<Handful> handfuls_of(const Feedstock& feedstock, const SheetUnits& units) {
  constexpr double driest = 20.0;
  std::vector<Handful> handfuls;
  for (const double moisture : multiples_of(5.0, published_between(feedstock.moisture, 100.0))) {
    for (const Mass& wet : units.handfuls) {
      const Mass dry = (1.0 - moisture / 100.0) * wet;
      if (moisture >= driest && is_even(dry / units.weighed_to, 1.0)) handfuls.push_back({wet, dry, moisture});
    }
  }
  return handfuls;
}

/// Of a second handful from the same heap: wetter, but not another stuff.
std::vector<Handful> wetter_than(const std::vector<Handful>& handfuls, const Handful& than) {
  constexpr double most = 25.0;
  std::vector<Handful> found;
  for (const Handful& one : handfuls) {
    if (one.moisture > than.moisture && one.moisture <= than.moisture + most) found.push_back(one);
  }
  return found;
}

/// Those that have a wetter one.
std::vector<Handful> with_a_wetter(const std::vector<Handful>& handfuls) {
  std::vector<Handful> found;
  for (const Handful& one : handfuls) {
    if (!wetter_than(handfuls, one).empty()) found.push_back(one);
  }
  return found;
}

Term weighing_step(Working& working, const std::string& symbol, const std::string& what, Mass shown, Mass bowl, const SheetUnits& units,
                   const std::string& number) {
  const WorkingUnit<Mass>& small = units.small;
  if (!is_positive(bowl)) return given(symbol + number, what, small.number(shown), small.symbol, given_on_the_sheet);
  const Term whole = given("g" + symbol + number, what + ", with the bowl", small.number(shown), small.symbol, given_on_the_sheet);
  const Term empty = given("b", "the bowl", small.number(bowl), small.symbol, given_on_the_sheet);
  return working.step({symbol + number, "The handful, " + what, "without the bowl", small.symbol, by_definition}, whole - empty);
}

Working working_of_handfuls(const MoistureProblem& problem, const SheetUnits& units) {
  Working working;
  for (std::size_t i = 0; i < problem.weighings.size(); ++i) {
    const std::string number = problem.weighings.size() > 1 ? std::to_string(i + 1) : "";
    const Term wet = weighing_step(working, "w", "wet", problem.weighings[i].wet, problem.bowl, units, number);
    const Term dry = weighing_step(working, "d", "dry", problem.weighings[i].dry, problem.bowl, units, number);
    working.step({"M" + number, "Moisture, in percent", "what it lost, of the wet weight", "%", by_definition}, (wet - dry) / wet * 100.0);
  }
  return working;
}

}  // namespace

ExerciseProblem draw_moisture(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  const std::vector<std::string> stuffs{"leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds"};
  const Feedstock& feedstock = known_row(*tables.materials.feedstocks, draw.one_of(stuffs));
  const std::vector<Handful> handfuls = handfuls_of(feedstock, units);
  const bool two = level == Level::third;
  std::vector<Handful> taken{draw.one_of(two ? with_a_wetter(handfuls) : handfuls)};
  if (two) taken.push_back(draw.one_of(wetter_than(handfuls, taken.front())));
  MoistureProblem problem;
  problem.of = feedstock.name;
  if (level != Level::first) problem.bowl = draw.one_of(units.bowls);
  for (const Handful& one : taken) problem.weighings.push_back({one.wet + problem.bowl, one.dry + problem.bowl});
  problem.answer = {Dried{taken.front().wet, taken.front().dry}.moisture(), Dried{taken.back().wet, taken.back().dry}.moisture()};
  problem.mistaken = {to_dry_basis(problem.answer.low), to_dry_basis(problem.answer.high)};
  return {problem, working_of_handfuls(problem, units)};
}

// --- water for a mix ---

namespace {

/// Dry matter and water of a mix, in the unit of a sheet.
struct MoistMix {
  double dry;
  double water;
};

/// Mixes drier than 45 %: by whole numbers of their weight and moisture, with an even number of dry matter, so that 60 % comes out whole
/// too.
std::vector<MoistMix> dry_mixes(const SheetUnits& units) {
  constexpr double least_wanted = 6.0;  // the usual wrong answer is half of it
  std::vector<MoistMix> mixes;
  for (const Mass& mass : units.heaps) {
    for (const double moisture : multiples_of(5.0, {20.0, 40.0})) {
      const double whole = units.working->mass.number(mass);
      const double water = whole * moisture / 100.0;
      const double dry = whole - water;
      if (is_even(water, 1.0) && is_even(dry, 2.0) && dry - water >= least_wanted) mixes.push_back({dry, water});
    }
  }
  return mixes;
}

Mix mix_so_moist(DryMass dry, WaterMass water) {
  Mix mix;
  mix.dry = dry;
  mix.water = water;
  mix.mass = as_is_mass(dry, water);
  mix.moisture = moisture_wet_basis(dry, water);
  return mix;
}

/// So many percent more of the weight it has now.
WaterMass points_of_the_weight(const Mix& mix, MoistureWetBasis goal) { return (goal - *mix.moisture) * mix.mass; }

/// Of a mix, as terms.
struct DryAndWater {
  Term dry;
  Term water;
};

DryAndWater dry_and_water(Working& working, const WaterProblem& problem, Level level, const WorkingUnits& units) {
  const std::string& unit = units.mass.symbol;
  const auto number = [&](DryMass dry, WaterMass water) { return units.mass.number(as_is_mass(dry, water)); };
  if (level == Level::first)
    return {given("D", "dry matter", number(problem.dry, {}), unit, given_on_the_sheet),
            given("W", "water in it", number({}, problem.water), unit, given_on_the_sheet)};
  const Term m = given("m", "weight of the mix", number(problem.dry, problem.water), unit, given_on_the_sheet);
  const Term M = given("M", "its moisture, as a fraction", moisture_wet_basis(problem.dry, problem.water).value(), "", given_on_the_sheet);
  const Term W = working.step({"W", "Water in it", "weight times moisture", unit, by_definition}, mix_formula::water(m, M));
  return {working.step({"D", "Dry matter", "weight less water", unit, by_definition}, m - W), W};
}

Working working_of_water(const WaterProblem& problem, Level level, const WorkingUnits& units) {
  Working working;
  const auto [dry, water] = dry_and_water(working, problem, level, units);
  const Term D = dry;
  const Term W = water;
  const bool range = problem.goal.low < problem.goal.high;
  const auto steps = [&](MoistureWetBasis goal, const std::string& number) {
    const Term G = given("G" + number, "the moisture wanted, as a fraction", goal.value(), "", given_on_the_sheet);
    working.step({"w" + number, "Water to add", "what the dry matter wants, less what is there", units.mass.symbol, mix_handbook},
                 D * G / (1.0 - Expression(G)) - W);
  };
  steps(problem.goal.low, range ? "1" : "");
  if (range) steps(problem.goal.high, "2");
  return working;
}

}  // namespace

ExerciseProblem draw_water(Draw& draw, Level level, const SheetUnits& units, const Tables&) {
  const MoistMix moist = draw.one_of(dry_mixes(units));
  const double one = units.working->mass.one.value();
  WaterProblem problem;
  problem.dry = moist.dry * one * unit::kg_dry;
  problem.water = moist.water * one * unit::kg_water;
  const MoistureWetBasis half = wet_basis(0.5);
  const MoistureWetBasis more = wet_basis(0.6);
  problem.goal = {half, half};
  if (level == Level::second && draw.yes_or_no()) problem.goal = {more, more};
  if (level == Level::third) problem.goal = {half, more};
  const Mix mix = mix_so_moist(problem.dry, problem.water);
  problem.answer = {water_to(mix, problem.goal.low), water_to(mix, problem.goal.high)};
  problem.mistaken = {points_of_the_weight(mix, problem.goal.low), points_of_the_weight(mix, problem.goal.high)};
  return {problem, working_of_water(problem, level, *units.working)};
}

}  // namespace heapwright
