#include <catch2/catch.hpp>

#include "heapwright/guide/things.hpp"
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
  REQUIRE(recipe.what_rots);
  CHECK(recipe.what_rots->hardly_rots == std::vector<std::string>{"old or half-finished compost"});
  // Of the two only the leaves rot, so their own C:N is left.
  const Properties leaves = *find_feedstock(built_in_materials(), "leaves-fall").properties();
  CHECK(recipe.what_rots->carbon_to_nitrogen.value() == Approx(leaves.carbon.value() / leaves.nitrogen.value()).epsilon(1e-9));
}

TEST_CASE("old compost is no green, and what would be is counted without it", "[recipe][what_rots]") {
  const Recipe alone = recipe_of({"4 wheelbarrows of old compost", "20 bags of leaves"});
  CHECK(greens_lacking(alone) == GreensIn::none);
  REQUIRE(alone.counting_what_rots);
  CHECK_FALSE(alone.counting_what_rots->ways.empty());
  CHECK(greens_lacking(recipe_of({"4 wheelbarrows of old compost", "20 bags of leaves", "1 bucket of scraps"})) == GreensIn::too_few);
  CHECK_FALSE(greens_lacking(recipe_of({"4 wheelbarrows of old compost", "20 bags of leaves", "25 buckets of clippings"})));
}

TEST_CASE("wood gives a mix its carbon on paper only", "[recipe][what_rots]") {
  const Recipe recipe = recipe_of({"wood chips", "10 buckets of clippings"});
  REQUIRE(recipe.what_rots);
  CHECK(recipe.what_rots->hardly_rots == std::vector<std::string>{"wood chips"});
  CHECK(recipe.what_rots->carbon_to_nitrogen < *recipe.mix->carbon_to_nitrogen);
}

TEST_CASE("leaves and clippings rot as they are", "[recipe][what_rots]") {
  CHECK_FALSE(recipe_of({"10 bags of leaves", "10 buckets of clippings"}).what_rots);
}

}  // namespace heapwright
