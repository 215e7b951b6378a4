#include <catch2/catch.hpp>

#include "heapwright/guide/things.hpp"
#include "heapwright/mix/character.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/recipe/verdict.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

Recipe recipe_of(std::initializer_list<const char*> supplies) {
  Yard yard;
  for (const char* said : supplies) yard.supplies.push_back(read_said_supply(said, yard.tables.materials));
  tell_apart(yard.supplies);
  return first_recipe(yard, read_date("2026-11-07")).result;
}

}  // namespace

TEST_CASE("old compost gives a mix its nitrogen on paper only", "[recipe][what_rots]") {
  const Recipe recipe = recipe_of({"10 buckets of old compost", "10 bags of leaves"});
  REQUIRE(recipe.mix);
  REQUIRE(recipe.mix->what_rots);
  CHECK(recipe.mix->what_rots->hardly_rots == std::vector<std::string>{"old or half-finished compost"});
  // Of the two only the leaves rot, so their own C:N is left.
  const Properties leaves = *find_feedstock(built_in_materials(), "leaves-fall").properties();
  CHECK(recipe.mix->what_rots->carbon_to_nitrogen.value() == Approx(leaves.carbon.value() / leaves.nitrogen.value()).epsilon(1e-9));
}

TEST_CASE("old compost is no green, and what would be is counted without it", "[recipe][what_rots]") {
  const Recipe alone = recipe_of({"4 wheelbarrows of old compost", "20 bags of leaves"});
  CHECK(greens_lacking(alone) == GreensIn::none);
  REQUIRE(alone.counting_what_rots);
  CHECK_FALSE(alone.counting_what_rots->ways.empty());
  CHECK(greens_lacking(recipe_of({"4 wheelbarrows of old compost", "20 bags of leaves", "1 bucket of scraps"})) == GreensIn::too_few);
  CHECK_FALSE(greens_lacking(recipe_of({"4 wheelbarrows of old compost", "20 bags of leaves", "25 buckets of clippings"})));
  // Where the recipe is far off it says what it lacks by itself.
  const Recipe far = recipe_of({"40 wheelbarrows of wood chips", "1 bucket of clippings"});
  REQUIRE(verdict_of(far) == RecipeVerdict::far_off);
  REQUIRE(far.mix->what_rots);
  CHECK_FALSE(greens_lacking(far));
}

TEST_CASE("wood gives a mix its carbon on paper only", "[recipe][what_rots]") {
  const Recipe recipe = recipe_of({"wood chips", "10 buckets of clippings"});
  REQUIRE(recipe.mix);
  REQUIRE(recipe.mix->what_rots);
  CHECK(recipe.mix->what_rots->hardly_rots == std::vector<std::string>{"wood chips"});
  CHECK(recipe.mix->what_rots->carbon_to_nitrogen < *recipe.mix->carbon_to_nitrogen);
}

TEST_CASE("leaves and clippings rot as they are", "[recipe][what_rots]") {
  const Recipe recipe = recipe_of({"10 bags of leaves", "10 buckets of clippings"});
  REQUIRE(recipe.mix);
  CHECK_FALSE(recipe.mix->what_rots);
  CHECK(recipe.carbon_counted == CarbonCounted::all);
}

TEST_CASE("a recipe counts what rots where all the carbon cannot be balanced", "[recipe][what_rots]") {
  const Recipe recipe = recipe_of({"10 wheelbarrows of horse manure", "10 wheelbarrows of wood shavings", "leaves"});
  CHECK(recipe.carbon_counted == CarbonCounted::what_rots);
  CHECK(recipe.found_within == FoundWithin::hardly_off);
  CHECK(verdict_of(recipe) == RecipeVerdict::nearly_right);
  const AsBuilt pile = as_built(recipe);
  CHECK(pile.mix.carbon_to_nitrogen > carbon_to_nitrogen(40.0));
  CHECK(is_judged_by_what_rots(pile.mix, recipe.targets));
  CHECK(*judged_ratio(pile.mix, recipe.targets) < carbon_to_nitrogen(39.6));
  // The mix holds all its carbon; only the distance counts what rots.
  CHECK(pile.distance_from_aim <= hardly_off);
  CHECK(distance_from_aim(pile.mix, recipe.targets) == Approx(pile.distance_from_aim).epsilon(1e-9));
}

TEST_CASE("chips are mulch, not bedding", "[recipe][what_rots]") {
  const Recipe recipe = recipe_of({"10 wheelbarrows of wood chips", "20 buckets of clippings", "3 bags of leaves"});
  CHECK(recipe.carbon_counted == CarbonCounted::all);
  CHECK_FALSE(is_positive(as_built(recipe).amounts.front().volume));
}

TEST_CASE("a much larger pile that is hardly off its windows is the recipe", "[recipe]") {
  const Recipe recipe = recipe_of({"6 bags of leaves", "1 bale of straw", "2 wheelbarrows of horse manure", "3 buckets of clippings"});
  CHECK(recipe.found_within == FoundWithin::hardly_off);
  CHECK(recipe.status == RecipeStatus::nearest);
  CHECK(recipe.distance_from_aim <= hardly_off);
  CHECK(*as_built(recipe).mix.volume > 1.2 * unit::cubic_yard);
  const Recipe wetter = recipe_of({"1 bucket of leaves", "1 bale of straw", "1 wheelbarrow of horse manure"});
  CHECK(wetter.found_within == FoundWithin::acceptable);
  CHECK(is_acceptable(as_built(wetter).mix, wetter.targets));
  CHECK(recipe_of({"20 bags of leaves", "3 buckets of scraps"}).found_within == FoundWithin::targets);
}

TEST_CASE("windows at a distance", "[recipe]") {
  const Targets targets;
  const Targets same = windows_at(targets, 1.0);
  CHECK(same.carbon_to_nitrogen.high.value() == Approx(35.0));
  CHECK(same.moisture.low.value() == Approx(0.50));
  const Targets hardly = windows_at(targets, hardly_off);
  CHECK(hardly.carbon_to_nitrogen.low.value() == Approx(23.5));
  CHECK(hardly.carbon_to_nitrogen.high.value() == Approx(39.5));
  CHECK(hardly.moisture.high.value() == Approx(0.615));
  // LSU AgCenter 3838-D and Manitoba Agriculture: 20 to 40 and 40 to 65 % are acceptable.
  const Targets acceptable = acceptable_windows(targets);
  CHECK(acceptable.carbon_to_nitrogen.low.value() == Approx(20.0));
  CHECK(acceptable.carbon_to_nitrogen.high.value() == Approx(40.0));
  CHECK(acceptable.moisture.low.value() == Approx(0.40));
  CHECK(acceptable.moisture.high.value() == Approx(0.65));
}

}  // namespace heapwright
