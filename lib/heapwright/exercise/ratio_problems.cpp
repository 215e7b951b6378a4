// C:N of a mix, and leaves for clippings.

#include <cmath>

#include "heapwright/exercise/draw_problems.hpp"
#include "heapwright/exercise/tidy.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/formula.hpp"
#include "heapwright/mix/pair.hpp"
#include "heapwright/mix/targets.hpp"

namespace heapwright {
namespace {

constexpr double apart_by = 3.0;  // of a C:N: the usual wrong answer is no slip of rounding

// --- C:N of a mix ---

CarbonNitrogenRatio ratio_in(const Properties& properties) { return properties.carbon / properties.nitrogen; }

CarbonNitrogenRatio average_of_ratios(const std::vector<Ingredient>& ingredients) {
  CarbonNitrogenRatio total{};
  for (const Ingredient& ingredient : ingredients) total += ratio_in(ingredient.properties);
  return total / static_cast<double>(ingredients.size());
}

/// As if there were no water in them.
CarbonNitrogenRatio of_the_wet_weight(Blend blend) {
  for (Ingredient& ingredient : blend.ingredients) ingredient.properties.moisture = wet_basis(0.0);
  return *mix_of(blend).carbon_to_nitrogen;
}

RatioProblem ratio_problem(std::vector<Ingredient> ingredients, Level level) {
  const Blend blend{ingredients, {}};
  RatioProblem problem;
  problem.answer = *mix_of(blend).carbon_to_nitrogen;
  problem.mistaken = level == Level::third ? of_the_wet_weight(blend) : average_of_ratios(ingredients);
  problem.ingredients = std::move(ingredients);
  return problem;
}

/// A mix that may be made, whose C:N rounds clearly and is not met by the usual mistake.
bool is_fair(const RatioProblem& problem) {
  constexpr double lowest = 18.0;
  constexpr double highest = 60.0;
  const double answer = problem.answer.value();
  return answer >= lowest && answer <= highest && rounds_clearly(answer, 1.0) && std::abs(answer - problem.mistaken.value()) >= apart_by;
}

/// A few of a long list, in their order.
std::vector<Ingredient> some_of(const std::vector<Ingredient>& portions, Draw& draw) {
  constexpr std::size_t most = 60;
  std::vector<Ingredient> some = portions;
  draw.shuffle(some);
  if (some.size() > most) some.resize(most);
  return some;
}

/// Each pair, or triple, of some portions that is fair.
std::vector<RatioProblem> fair_mixes(const std::vector<std::vector<Ingredient>>& portions, Level level) {
  std::vector<RatioProblem> fair;
  std::vector<std::vector<Ingredient>> mixes{{}};
  for (const std::vector<Ingredient>& next : portions) {
    std::vector<std::vector<Ingredient>> longer;
    for (const std::vector<Ingredient>& mix : mixes) {
      for (const Ingredient& portion : next) {
        longer.push_back(mix);
        longer.back().push_back(portion);
      }
    }
    mixes = std::move(longer);
  }
  for (std::vector<Ingredient>& mix : mixes) {
    RatioProblem problem = ratio_problem(std::move(mix), level);
    if (is_fair(problem)) fair.push_back(std::move(problem));
  }
  return fair;
}

/// Carbon and nitrogen of each, given at the first level, else worked out from dry matter.
struct HeldByOne {
  Expression carbon;
  Expression nitrogen;
};

HeldByOne held_at_first(const Ingredient& of, const std::string& number, const WorkingUnits& units) {
  const MixPart part = mix_of({{of}, {}}).parts.front();
  const double one = units.mass.one.value();
  return {given("C" + number, "carbon in the " + of.name, part.carbon.value() / one, units.mass.symbol, given_on_the_sheet),
          given("N" + number, "nitrogen in the " + of.name, part.nitrogen.value() / one, units.mass.symbol, given_on_the_sheet)};
}

HeldByOne held_by_steps(Working& working, const Ingredient& of, const std::string& number, const WorkingUnits& units) {
  const Term m = given("m" + number, "weight of the " + of.name, units.mass.number(of.mass), units.mass.symbol, given_on_the_sheet);
  const Term M = given("M" + number, "moisture, as a fraction", of.properties.moisture.value(), "", given_on_the_sheet);
  const Term c = given("c" + number, "carbon of dry matter, as a fraction", of.properties.carbon.value(), "", given_on_the_sheet);
  const Term R = given("R" + number, "C:N", ratio_in(of.properties).value(), "", given_on_the_sheet);
  const Term D =
      working.step({"D" + number, "Dry matter of the " + of.name, "weight times what is not water", units.mass.symbol, by_definition},
                   m * (1.0 - Expression(M)));
  const Term C = working.step({"C" + number, "Carbon in it", "dry matter times carbon", units.mass.symbol, mix_handbook},
                              mix_formula::part_of_dry_matter(D, c));
  const Term N = working.step({"N" + number, "Nitrogen in it", "carbon over C:N", units.mass.symbol, by_definition}, C / R);
  return {C, N};
}

Working working_of_ratio(const RatioProblem& problem, Level level, const WorkingUnits& units) {
  Working working;
  std::vector<Expression> carbon;
  std::vector<Expression> nitrogen;
  for (std::size_t i = 0; i < problem.ingredients.size(); ++i) {
    const std::string number = std::to_string(i + 1);
    const HeldByOne held = level == Level::first ? held_at_first(problem.ingredients[i], number, units)
                                                 : held_by_steps(working, problem.ingredients[i], number, units);
    carbon.push_back(held.carbon);
    nitrogen.push_back(held.nitrogen);
  }
  working.step({"C:N", "C:N of the mix", "all carbon over all nitrogen", "", mix_handbook, 4},
               mix_formula::carbon_to_nitrogen(sum(carbon), sum(nitrogen)));
  return working;
}

}  // namespace

ExerciseProblem draw_ratio(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  std::vector<std::string> greens{"grass-clippings", "kitchen-scraps", "coffee-grounds"};
  draw.shuffle(greens);
  greens.resize(level == Level::third ? 2 : 1);
  std::vector<std::string> ids{draw.yes_or_no() ? "leaves-fall" : "straw"};
  ids.insert(ids.end(), greens.begin(), greens.end());
  std::vector<std::vector<Ingredient>> portions;
  for (const std::string& id : ids)
    portions.push_back(some_of(tidy_portions(known_row(*tables.materials.feedstocks, id), units.heaps, units.working->mass.one), draw));
  if (level == Level::third) {
    constexpr std::size_t most_of_three = 20;
    for (std::vector<Ingredient>& some : portions) some.resize(std::min(some.size(), most_of_three));
  }
  const RatioProblem problem = draw.one_of(fair_mixes(portions, level));
  return {problem, working_of_ratio(problem, level, *units.working)};
}

// --- leaves for clippings ---

namespace {

Properties with_ratio(Properties properties, CarbonNitrogenRatio ratio) {
  properties.nitrogen = properties.carbon / ratio;
  return properties;
}

Mass leaves_for(const LeavesProblem& problem, CarbonNitrogenRatio leaves_ratio) {
  return mass_for_carbon_to_nitrogen(problem.clippings.mass, problem.clippings.properties, with_ratio(problem.leaves, leaves_ratio),
                                     problem.goal);
}

/// As if they brought carbon alone.
Mass leaves_without_nitrogen(const LeavesProblem& problem) {
  const MixPart green = mix_of({{problem.clippings}, {}}).parts.front();
  const CarbonMass lacking = CarbonMass(problem.goal * green.nitrogen) - green.carbon;
  const DryMass dry = lacking / problem.leaves.carbon;
  return as_is_mass(dry, WaterMass(dry * to_dry_basis(problem.leaves.moisture)));
}

/// What a class may be asked of some clippings and leaves, where the answer is no absurd heap and rounds clearly.
std::optional<LeavesProblem> leaves_problem(const Ingredient& clippings, const Properties& leaves, Band<CarbonNitrogenRatio> ratios,
                                            const WorkingUnits& units) {
  constexpr double fewest = 8.0;
  constexpr double most_times = 3.0;  // what they are for
  LeavesProblem problem{clippings, leaves, ratios, Targets().carbon_to_nitrogen.aim, {}, {}};
  problem.answer = {leaves_for(problem, ratios.high), leaves_for(problem, ratios.low)};
  problem.mistaken = leaves_without_nitrogen(problem);
  const auto rounds = [&](Mass mass) { return rounds_clearly(units.mass.number(mass), 1.0); };
  const bool fair = units.mass.number(problem.answer.low) >= fewest && problem.answer.high <= most_times * clippings.mass &&
                    rounds(problem.answer.low) && rounds(problem.answer.high);
  return fair ? std::optional(problem) : std::nullopt;
}

/// C:N of leaves: well above the goal, one figure or a range.
std::vector<Band<CarbonNitrogenRatio>> ratios_of_leaves(const Feedstock& leaves, Level level) {
  constexpr double lowest = 40.0;
  constexpr double range = 20.0;
  std::vector<Band<CarbonNitrogenRatio>> bands;
  const Band<double> published = published_between(leaves.carbon_to_nitrogen);
  const double width = level == Level::third ? range : 0.0;
  for (const double low : multiples_of(5.0, {lowest, published.high - width}))
    bands.push_back({carbon_to_nitrogen(low), carbon_to_nitrogen(low + width)});
  return bands;
}

std::vector<LeavesProblem> fair_leaves(const Feedstock& clippings, const Feedstock& leaves, Level level, const SheetUnits& units) {
  constexpr double leafy_carbon = 0.45;
  std::vector<LeavesProblem> fair;
  for (const Ingredient& portion : tidy_portions(clippings, units.heaps, units.working->mass.one)) {
    for (const double moisture : multiples_of(10.0, published_between(leaves.moisture, 100.0))) {
      for (const Band<CarbonNitrogenRatio>& ratios : ratios_of_leaves(leaves, level)) {
        const Properties dry_leaves = with_ratio(
            {wet_basis(moisture / 100.0), carbon_dry_basis(leafy_carbon), {}, organic_dry_basis(1.0), organic_particle_density()},
            ratios.low);
        if (const auto problem = leaves_problem(portion, dry_leaves, ratios, *units.working)) fair.push_back(*problem);
      }
    }
  }
  return fair;
}

Working working_of_leaves(const LeavesProblem& problem, const WorkingUnits& units) {
  Working working;
  const std::string& unit = units.mass.symbol;
  const Properties& green = problem.clippings.properties;
  const Term m = given("m", "weight of the clippings", units.mass.number(problem.clippings.mass), unit, given_on_the_sheet);
  const Term M = given("M1", "moisture, as a fraction", green.moisture.value(), "", given_on_the_sheet);
  const Term c = given("c1", "carbon of dry matter, as a fraction", green.carbon.value(), "", given_on_the_sheet);
  const Term R = given("R1", "C:N", ratio_in(green).value(), "", given_on_the_sheet);
  const Term G = given("G", "the C:N wanted", problem.goal.value(), "", given_on_the_sheet);
  const Term D =
      working.step({"D", "Dry matter of the clippings", "weight times what is not water", unit, by_definition}, m * (1.0 - Expression(M)));
  const Term C = working.step({"C", "Carbon in it", "dry matter times carbon", unit, mix_handbook}, mix_formula::part_of_dry_matter(D, c));
  const Term N = working.step({"N", "Nitrogen in it", "carbon over C:N", unit, by_definition}, C / R);
  const Term S = working.step({"S", "Carbon that is lacking", "what that nitrogen wants, less that carbon", unit, mix_handbook}, G * N - C);
  const Term b = given("c2", "carbon of the leaves' dry matter, as a fraction", problem.leaves.carbon.value(), "", given_on_the_sheet);
  const Term L = given("M2", "moisture of the leaves, as a fraction", problem.leaves.moisture.value(), "", given_on_the_sheet);
  const bool range = problem.leaves_ratio.low < problem.leaves_ratio.high;
  const auto steps = [&](CarbonNitrogenRatio ratio, const std::string& number) {
    const Term r = given("R2" + number, "C:N of the leaves", ratio.value(), "", given_on_the_sheet);
    const Term s = working.step({"s" + number, "Carbon that 1 " + unit + " of dry leaves has to spare",
                                 "its carbon, less what its own nitrogen wants", unit, mix_handbook},
                                b - G * (b / r));
    const Term d =
        working.step({"d" + number, "Dry matter of the leaves", "what is lacking over what is to spare", unit, by_definition}, S / s);
    working.step({"a" + number, "Leaves", "dry matter over what is not water", unit, by_definition, 4}, d / (1.0 - Expression(L)));
  };
  steps(problem.leaves_ratio.high, range ? "a" : "");
  if (range) steps(problem.leaves_ratio.low, "b");
  return working;
}

}  // namespace

ExerciseProblem draw_leaves(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  const std::vector<Feedstock>& feedstocks = *tables.materials.feedstocks;
  const LeavesProblem problem =
      draw.one_of(fair_leaves(known_row(feedstocks, "grass-clippings"), known_row(feedstocks, "leaves-fall"), level, units));
  return {problem, working_of_leaves(problem, *units.working)};
}

}  // namespace heapwright
