// How long the parts of an answer take. Run by hand: cmake -DHEAPWRIGHT_BENCHMARKS=ON, then build/tests/heapwright-bench.
#define CATCH_CONFIG_MAIN
#define CATCH_CONFIG_ENABLE_BENCHMARKING
#include <catch2/catch.hpp>

#include "../reference/process_runs.hpp"
#include "heapwright/mix/ranges.hpp"
#include "heapwright/plan/plan.hpp"

using namespace heapwright;

namespace {

/// The passive home pile of the reference runs, 365 days in a forecast's steps.
double year_of_a_pile() {
  static const ProcessParameters best = built_in_ensemble().best;
  const runs::Run& run = runs::all().at("R1");
  Pile pile = run.pile(best);
  for (int at = 0; at < 365; ++at) {
    run.events(pile, best, at);
    pile.live_a_day(run.air(at), hourly_steps);
  }
  return pile.state().core.celsius();
}

}  // namespace

TEST_CASE("the parts of a plan") {
  const Materials materials = built_in_materials();
  const std::string file = std::string(HEAPWRIGHT_EXAMPLES_FOLDER) + "/quarter-acre.toml";
  const Yard yard = read_yard(file, materials);
  const Date day{std::chrono::year(2026), std::chrono::month(11), std::chrono::day(7)};
  const RecipeQuestion question = recipe_question(yard.supplies, yard.targets, yard.options, day, materials);
  Blend blend;
  for (const RecipeSupply& supply : question.supplies) {
    blend.ingredients.push_back(supply.ingredient);
    blend.ingredients.back().mass = *supply.available;
  }

  std::vector<Supply> supplies;
  Blend six;
  for (const char* id : {"leaves-fall", "grass-clippings", "kitchen-scraps", "coffee-grounds", "straw", "sawdust"}) {
    supplies.push_back(supply_of(materials, id));
    set_amount(supplies.back(), read_amount("4 buckets", materials));
    six.ingredients.push_back(supplies.back().ingredient(*supplies.back().mass(*supplies.back().amount)));
  }
  std::vector<Taken> taken;
  for (std::size_t i = 0; i < supplies.size(); ++i) taken.push_back({&supplies[i], six.ingredients[i].mass});
  const std::vector<Varied> figures = varied(six, taken, materials);
  INFO(figures.size() << " figures vary");
  CHECK(figures.size() >= 24);

  BENCHMARK("the tables read") { return built_in_materials(); };
  BENCHMARK("a yard file read") { return read_yard(file, materials); };
  BENCHMARK("a blend mixed") { return mix_of(blend); };
  BENCHMARK("a recipe solved") { return solve(question); };
  BENCHMARK("4096 draws of a mix of six") { return drawn_ranges(six, figures, yard.targets); };
  const Recipe recipe = first_recipe(yard, day).result;
  BENCHMARK("a forecast, forty-one sets") { return forecast_of(yard, recipe, day).result; };
  BENCHMARK("a pile's year, six shells") { return year_of_a_pile(); };
  BENCHMARK("a plan made") { return make_plan(yard, day).result; };
}
