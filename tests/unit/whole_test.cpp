// Whole containers, in cases that can be computed by hand.

#include "heapwright/recipe/whole.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// All buckets hold 10 L.
constexpr double bucket_m3 = 0.010;
const WaterMass litre = 1.0 * unit::kg_water;

/// Dry matter of 40 % carbon; a bucket weighs a hundredth of the density.
RecipeSupply supply(const std::string& id, FeedstockClass of_class, double moisture, double ratio, double density,
                    std::optional<double> buckets) {
  const Properties properties{wet_basis(moisture), carbon_dry_basis(0.40), nitrogen_dry_basis(0.40 / ratio), organic_dry_basis(0.72),
                              particle_density(1500.0)};
  RecipeSupply supply;
  supply.ingredient = {{properties, bulk_density(density), Mass()}, id, id, ""};
  supply.feedstock_class = of_class;
  supply.counted_in = ContainerCount{"bucket", buckets.value_or(1.0), bucket_m3 * unit::m3};
  supply.counted_mass = buckets.value_or(1.0) * bucket_m3 * density * unit::kg;
  if (buckets) supply.available = supply.counted_mass;
  if (!buckets) supply.use = Use::unlimited;
  return supply;
}

RecipeSupply balanced(std::optional<double> buckets) { return supply("balanced", FeedstockClass::keeper, 0.55, 30.0, 200.0, buckets); }
RecipeSupply browns(std::optional<double> buckets) { return supply("browns", FeedstockClass::keeper, 0.55, 60.0, 200.0, buckets); }
RecipeSupply greens(std::optional<double> buckets) { return supply("greens", FeedstockClass::clippings, 0.55, 20.0, 200.0, buckets); }

struct Whole {
  Recipe recipe;
  WholeContainers whole;
};

Whole answer(const RecipeQuestion& question) {
  Recipe recipe = solve(question);
  REQUIRE(recipe.mix);
  WholeContainers whole = *in_whole_containers(question, recipe, {litre, {"bucket", 1.0, bucket_m3 * unit::m3}});
  return {std::move(recipe), std::move(whole)};
}

double count(const WholeContainers& whole, std::size_t supply) { return whole.amounts.at(supply).containers->count; }

}  // namespace

TEST_CASE("one supply that is right by itself goes in whole, all of it") {
  const Whole of_one = answer({{balanced(7.3)}, {}, {}});
  CHECK(of_one.recipe.status == RecipeStatus::on_target);
  CHECK(of_one.whole.inside);
  CHECK_THAT(count(of_one.whole, 0), WithinRel(7.3, 1e-9));  // all of it need not be halves
  CHECK_THAT(of_one.whole.mix.carbon_to_nitrogen->value(), WithinRel(30.0, 1e-12));
  CHECK(of_one.whole.water_to_add.value() == 0.0);
}

TEST_CASE("one supply that a room holds 6.3 buckets of goes in by half buckets, the room kept") {
  RecipeQuestion question{{balanced(40.0)}, {}, {}};
  question.options.capacity = 6.3 * bucket_m3 * unit::m3;
  const Whole of_room = answer(question);
  CHECK(of_room.whole.inside);
  // 6.5 is as near as 6 is to 6.3 (0.2 against 0.3), and does not fit.
  CHECK_THAT(count(of_room.whole, 0), WithinRel(6.0, 1e-12));
  question.options.capacity = 20.6 * bucket_m3 * unit::m3;
  CHECK_THAT(count(answer(question).whole, 0), WithinRel(20.0, 1e-12));  // from ten on whole ones
}

TEST_CASE("an optimum on whole buckets stays there") {
  // 3 buckets of each: dry matter alike, so nitrogen is 0.40/60 + 0.40/20, and C:N 2/(1/60 + 1/20) = 30.
  RecipeQuestion question{{browns(9.0), greens(3.0)}, {}, {}};
  question.supplies[0].use = Use::all;
  question.supplies[0].available = 3.0 * bucket_m3 * 200.0 * unit::kg;
  const Whole at_aim = answer(question);
  CHECK_THAT(at_aim.recipe.distance_from_aim, WithinAbs(0.0, 1e-6));
  CHECK(at_aim.whole.inside);
  CHECK_THAT(count(at_aim.whole, 0), WithinRel(3.0, 1e-9));
  CHECK_THAT(count(at_aim.whole, 1), WithinRel(3.0, 1e-9));
  CHECK_THAT(at_aim.whole.distance_from_aim, WithinAbs(0.0, 1e-9));
  CHECK_THAT(at_aim.whole.mix.carbon_to_nitrogen->value(), WithinRel(30.0, 1e-12));
}

TEST_CASE("a recipe between halves goes to the nearer half bucket") {
  // Browns of 60:1 and greens of 20:1, alike in weight and dry matter: b buckets with g come to (b + g)/(b/60 + g/20). Of four of greens
  // the recipe uses browns as far as 33:1, where it still is comfortable: 5.7778.
  const Whole of_greens = answer({{browns(40.0), greens(4.0)}, {}, {}});
  const double wanted = 4.0 * (1.0 / 20.0 - 1.0 / 33.0) / (1.0 / 33.0 - 1.0 / 60.0);
  CHECK_THAT(wanted, WithinAbs(5.7778, 1e-4));
  CHECK_THAT(of_greens.recipe.amounts[0].containers->count, WithinRel(wanted, 1e-5));
  CHECK_THAT(count(of_greens.whole, 1), WithinRel(4.0, 1e-9));
  CHECK_THAT(count(of_greens.whole, 0), WithinRel(6.0, 1e-12));  // 33.3:1
  CHECK(of_greens.whole.inside);
}

TEST_CASE("a recipe on its window's edge goes to the whole bucket inside it") {
  // To one bucket of greens the least that may be bought of browns is 0.4286, 25:1. None is nearer (20:1), one is inside (30:1).
  RecipeQuestion question{{browns(std::nullopt), greens(1.0)}, {}, {}};
  question.supplies[0].bought = true;
  question.supplies[0].use = Use::up_to;
  question.supplies[1].use = Use::all;
  question.options.goal = Goal::least_bought;
  const Whole least = answer(question);
  CHECK_THAT(least.recipe.distance_from_aim, WithinAbs(1.0, 1e-6));
  CHECK_THAT(least.recipe.amounts[0].containers->count, WithinAbs(0.4286, 1e-4));
  CHECK(least.whole.inside);
  CHECK_THAT(count(least.whole, 0), WithinRel(1.0, 1e-12));
}

TEST_CASE("what is hardly outside the windows is not inside") {
  // To 2.4 buckets of greens the least of browns is 1.0286, 25:1. One is much the nearest and comes to 24.88:1, outside; one and a half is
  // inside.
  RecipeQuestion question{{supply("browns", FeedstockClass::supplement, 0.55, 60.0, 200.0, 20.0), greens(2.4)}, {}, {}};
  question.supplies[1].use = Use::all;
  question.options.goal = Goal::least_bought;
  const Whole least = answer(question);
  CHECK_THAT(least.recipe.amounts[0].containers->count, WithinAbs(1.0286, 1e-4));
  CHECK(least.recipe.status == RecipeStatus::on_target);
  CHECK(least.whole.inside);
  CHECK_THAT(count(least.whole, 0), WithinRel(1.5, 1e-12));
}

/// Greens of 20:1 want 0.419 to 0.438 times as much of browns of 60:1 for 24.9 to 25.1:1.
RecipeQuestion narrow(double brown_buckets, double green_buckets) {
  RecipeQuestion question{{browns(brown_buckets), greens(green_buckets)}, {}, {}};
  question.supplies[1].use = Use::all;
  question.targets.carbon_to_nitrogen = {carbon_to_nitrogen(24.9), carbon_to_nitrogen(25.0), carbon_to_nitrogen(25.1)};
  return question;
}

TEST_CASE("where no whole measures are inside it says so") {
  // Twelve and a half buckets of greens want 5.24 to 5.48 of browns. There are 5.5, so five, all 5.5 or fewer.
  const Whole impossible = answer(narrow(5.5, 12.5));
  CHECK(impossible.recipe.status == RecipeStatus::on_target);
  CHECK_FALSE(impossible.whole.inside);
  CHECK(impossible.whole.distance_from_aim > 1.0);
}

TEST_CASE("where no whole measures are inside, less than two buckets is weighed") {
  // Two and a half buckets of greens want 1.047 to 1.096 of browns. There are 1.1.
  const Whole weighed = answer(narrow(1.1, 2.5));
  CHECK(weighed.whole.inside);
  CHECK_FALSE(weighed.whole.amounts[0].containers);
}

TEST_CASE("a recipe that no amounts bring inside has whole containers that say so") {
  const Whole off = answer({{greens(3.2)}, {}, {}});
  CHECK(off.recipe.status == RecipeStatus::nearest);
  CHECK_FALSE(off.whole.inside);
  CHECK_THAT(off.whole.mix.carbon_to_nitrogen->value(), WithinRel(20.0, 1e-12));
}

TEST_CASE("a fixed amount stays as it is, to the last gram") {
  RecipeQuestion question{{greens(3.17), browns(20.0)}, {}, {}};
  question.supplies[0].use = Use::all;
  const Whole fixed = answer(question);
  CHECK(fixed.whole.inside);
  CHECK(fixed.whole.amounts[0].mass == *question.supplies[0].available);
  const double halves = 2.0 * count(fixed.whole, 1);
  CHECK_THAT(halves, WithinAbs(std::round(halves), 1e-12));
}

TEST_CASE("what is bought is bought by the whole container") {
  // For 2.7 buckets of greens, fixed, 30:1 wants 2.7 of browns: two and a half would be nearest, and nobody sells half a bucket.
  RecipeQuestion question{{greens(2.7), browns(std::nullopt)}, {}, {}};
  question.supplies[0].use = Use::all;
  question.supplies[1].use = Use::up_to;
  question.supplies[1].bought = true;
  question.supplies[1].price = 0.5 * unit::money / unit::kg;
  const Whole bought = answer(question);
  CHECK(bought.whole.inside);
  const double buckets = count(bought.whole, 1);
  CHECK_THAT(buckets, WithinAbs(std::round(buckets), 1e-12));
  CHECK_THAT(bought.whole.cost.value(), WithinRel(0.5 * bought.whole.amounts[1].mass.value(), 1e-12));
}

TEST_CASE("a weight is told to the second figure") {
  RecipeQuestion question{{balanced(40.0)}, {}, {}};  // 80 kg
  question.supplies[0].counted_in.reset();
  question.supplies[0].counted_by_mass = true;
  question.options.capacity = 0.1673 * unit::m3;  // 33.46 kg
  CHECK_THAT(answer(question).whole.amounts[0].mass.value(), WithinRel(33.0, 1e-12));
}

TEST_CASE("water comes in whole measures about the aim, and of the goal least-water in the fewest") {
  // Ten kilograms at 45 %: 5.5 kg dry want 6.7222 of water for 55 % and 5.5 for 50 %; there are 4.5.
  RecipeQuestion question{{supply("dry", FeedstockClass::keeper, 0.45, 30.0, 200.0, 5.0)}, {}, {}};
  CHECK_THAT(answer(question).whole.water_to_add.value(), WithinAbs(2.0, 1e-12));
  question.options.goal = Goal::least_water;
  CHECK_THAT(answer(question).whole.water_to_add.value(), WithinAbs(1.0, 1e-12));  // on the edge of 50 %
  question.options.goal = Goal::use_most;
  question.options.most_water = 1.9 * unit::kg_water;
  CHECK_THAT(answer(question).whole.water_to_add.value(), WithinAbs(1.0, 1e-12));
}
