// Recipes: the formulation's own check figures, statuses, what holds a recipe back, and what must hold for every answer.
// The comparison with another solver is tests/oracle. All properties here are picks inside published ranges, not published rows.

#include "heapwright/recipe/recipe.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "heapwright/materials/materials.hpp"
#include "heapwright/recipe/help.hpp"
#include "heapwright/recipe/why_left.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

RecipeSupply supply(const std::string& id, FeedstockClass of_class, double moisture, double carbon, double ratio, double density,
                    std::optional<double> kg = std::nullopt) {
  const Properties properties{wet_basis(moisture), carbon_dry_basis(carbon), nitrogen_dry_basis(carbon / ratio),
                              organic_dry_basis(std::min(1.0, 1.8 * carbon)), particle_density(1400.0)};
  RecipeSupply supply;
  supply.ingredient = {{properties, bulk_density(density), Mass()}, id, id, ""};
  supply.feedstock_class = of_class;
  if (kg) supply.available = *kg * unit::kg;
  if (!kg) supply.use = Use::unlimited;
  return supply;
}

RecipeSupply leaves(std::optional<double> kg = std::nullopt) {
  return supply("leaves", FeedstockClass::keeper, 0.30, 0.48, 50.0, 100.0, kg);
}
RecipeSupply clippings(std::optional<double> kg = std::nullopt) {
  return supply("clippings", FeedstockClass::clippings, 0.80, 0.44, 17.0, 200.0, kg);
}
RecipeSupply scraps(std::optional<double> kg = std::nullopt) {
  return supply("scraps", FeedstockClass::must_go, 0.72, 0.46, 16.0, 450.0, kg);
}

RecipeSupply fixed(RecipeSupply supply) {
  supply.use = Use::all;
  return supply;
}

Recipe recipe_of(std::vector<RecipeSupply> supplies, const RecipeOptions& options = {}) {
  return solve({std::move(supplies), {}, options});
}

std::vector<std::string> limits_of(const Recipe& recipe) {
  std::vector<std::string> words;
  for (const HeldBack& held : recipe.held_back_by) words.emplace_back(limit_word(held.limit));
  return words;
}

}  // namespace

TEST_CASE("leaves for ten kilograms of clippings: the goals conflict, and minimax halves the miss") {
  // Properties from memory of Cornell Composting, C/N Ratio. 6.52 kg, C:N 36.3, 60.4 %, t = 1.084 by an independent reference solution.
  const Recipe recipe = recipe_of({fixed(supply("grass", FeedstockClass::clippings, 0.77, 0.45, 18.75, 200.0, 10.0)),
                                   supply("leaves", FeedstockClass::keeper, 0.35, 0.50, 0.50 / 0.0075, 100.0)});
  CHECK(recipe.status == RecipeStatus::nearest);
  CHECK_THAT(recipe.amounts[1].mass.value(), WithinAbs(6.52, 0.005));
  CHECK_THAT(recipe.mix->carbon_to_nitrogen->value(), WithinAbs(36.3, 0.05));
  CHECK_THAT(recipe.mix->moisture->value(), WithinAbs(0.604, 0.0005));
  CHECK_THAT(recipe.distance_from_aim, WithinAbs(1.084, 0.0005));
}

TEST_CASE("a thousand litres of leaves and twenty of clippings make a pile of fifty") {
  // 50.4 L, C:N 33.4, t = 0.679 by an independent reference solution.
  const Recipe recipe = recipe_of({leaves(100.0), clippings(4.0)});
  CHECK(recipe.status == RecipeStatus::on_target);
  CHECK_THAT(recipe.mix->volume->value(), WithinAbs(0.0504, 0.00005));
  CHECK_THAT(recipe.mix->carbon_to_nitrogen->value(), WithinAbs(33.4, 0.05));
  CHECK_THAT(recipe.distance_from_aim, WithinAbs(0.679, 0.0005));
  CHECK(limits_of(recipe) == std::vector<std::string>{"carbon_to_nitrogen"});
  REQUIRE(recipe.everything_in);
  CHECK(recipe.everything_in->mix.carbon_to_nitrogen->value() > 45.0);
}

TEST_CASE("each status has its case") {
  CHECK(recipe_of({}).status == RecipeStatus::nothing_on_hand);
  CHECK(recipe_of({leaves(), clippings()}).status == RecipeStatus::no_size);
  CHECK(recipe_of({leaves(50.0), clippings(50.0)}).status == RecipeStatus::on_target);
  CHECK(recipe_of({leaves(50.0)}).status == RecipeStatus::nearest);

  RecipeOptions options;
  options.fill = read_volume("10 m3");
  const Recipe short_of_fill = recipe_of({leaves(50.0), clippings(50.0)}, options);
  CHECK(short_of_fill.status == RecipeStatus::not_enough);
  CHECK_THAT((*short_of_fill.missing + *short_of_fill.mix->volume).value(), WithinRel(10.0, 1e-9));

  options.fill.reset();
  options.capacity = read_volume("100 L");
  CHECK(recipe_of({fixed(leaves(50.0))}, options).status == RecipeStatus::limits_clash);
  CHECK(recipe_of({leaves(), clippings()}, options).status == RecipeStatus::on_target);
}

TEST_CASE("a pile settled to less than its solids and water has no air, and is the nearest there is") {
  RecipeOptions options;
  options.settling = ShareOfLooseVolume::of(0.01);
  const Recipe recipe = recipe_of({leaves(50.0), clippings(50.0)}, options);
  CHECK(recipe.status == RecipeStatus::nearest);
  CHECK(recipe.distance_from_aim > 2.0);
  const auto names_air = [](const HeldBack& held) { return held.limit == Limit::air_space; };
  CHECK(std::any_of(recipe.held_back_by.begin(), recipe.held_back_by.end(), names_air));
}

TEST_CASE("a nitrogen source alone gives no size") {
  RecipeSupply urea = supply("urea", FeedstockClass::supplement, 0.0, 0.20, 0.2 / 0.46, 700.0, 10.0);
  CHECK(recipe_of({urea}).status == RecipeStatus::no_size);
  CHECK(recipe_of({urea, leaves()}).status == RecipeStatus::no_size);
}

TEST_CASE("what holds a recipe back") {
  SECTION("leaves only: the nitrogen") {
    const Recipe recipe = recipe_of({leaves(100.0)});
    CHECK(limits_of(recipe) == std::vector<std::string>{"carbon_to_nitrogen"});
  }
  SECTION("clippings only: both windows") {
    const Recipe recipe = recipe_of({clippings(100.0)});
    CHECK(limits_of(recipe) == std::vector<std::string>{"carbon_to_nitrogen", "moisture"});
  }
  SECTION("wet but balanced: the moisture alone") {
    const Recipe recipe = recipe_of({supply("sodden", FeedstockClass::keeper, 0.75, 0.45, 30.0, 300.0, 100.0)});
    CHECK(limits_of(recipe) == std::vector<std::string>{"moisture"});
  }
  SECTION("more than the bin holds: the room") {
    RecipeOptions options;
    options.capacity = read_volume("100 L");
    const Recipe recipe = recipe_of({leaves(50.0), clippings(60.0)}, options);
    CHECK(recipe.status == RecipeStatus::on_target);
    CHECK(limits_of(recipe) == std::vector<std::string>{"capacity"});
  }
  SECTION("a small share of something: the share") {
    RecipeSupply few = scraps(50.0);
    few.most_of_volume = ShareOfLooseVolume::of(0.02);
    const Recipe recipe = recipe_of({leaves(100.0), clippings(60.0), few});
    CHECK(limits_of(recipe).front() == "share");
  }
  SECTION("no water for dry leaves: the water") {
    RecipeOptions options;
    options.most_water = 0.0 * unit::kg_water;
    const Recipe recipe = recipe_of({supply("dry", FeedstockClass::keeper, 0.10, 0.45, 30.0, 100.0, 100.0)}, options);
    CHECK(recipe.status == RecipeStatus::nearest);
    CHECK(limits_of(recipe).back() == "water");
  }
  SECTION("too little for the pile wanted: what there is no more of") {
    RecipeOptions options;
    options.fill = read_volume("10 m3");
    const Recipe recipe = recipe_of({leaves(50.0), clippings(50.0)}, options);
    CHECK(recipe.held_back_by.front().limit == Limit::amount);
  }
  SECTION("all of it used: nothing") {
    CHECK(recipe_of({supply("a", FeedstockClass::keeper, 0.50, 0.45, 32.0, 150.0, 100.0),
                     supply("b", FeedstockClass::clippings, 0.60, 0.45, 28.0, 300.0, 100.0)})
              .held_back_by.empty());
  }
}

TEST_CASE("goals do what they say") {
  RecipeSupply straw = supply("straw", FeedstockClass::keeper, 0.12, 0.45, 80.0, 60.0);
  straw.bought = true;
  straw.price = 0.5 * unit::money / unit::kg;
  RecipeOptions options;
  options.fill = read_volume("2 m3");
  const std::vector<RecipeSupply> supplies{leaves(60.0), clippings(300.0), straw};
  options.goal = Goal::cheapest;
  const Recipe cheapest = recipe_of(supplies, options);
  options.goal = Goal::use_most;
  const Recipe use_most = recipe_of(supplies, options);
  options.goal = Goal::least_water;
  const Recipe driest = recipe_of(supplies, options);
  CHECK(cheapest.cost <= use_most.cost * (1.0 + 1e-6));
  CHECK(driest.water_to_add.value() <= use_most.water_to_add.value() + 1e-6);
  CHECK(cheapest.distance_from_aim <= 1.0 + 1e-6);
}

TEST_CASE("must-go first: scraps are not left out for fluffier clippings") {
  RecipeOptions options;
  options.capacity = read_volume("300 L");
  const Recipe recipe = recipe_of({clippings(400.0), scraps(10.0), leaves(400.0)}, options);
  CHECK_THAT(recipe.amounts[1].mass.value(), WithinRel(10.0, 1e-6));
}

TEST_CASE("a full bin is off the edge of the range, though more scraps would go in there") {
  RecipeOptions options;
  const Recipe roomy = recipe_of({scraps(200.0), leaves(60.0)}, options);
  CHECK_THAT(roomy.distance_from_aim, WithinAbs(1.0, 1e-5));  // short of leaves: as many scraps as go
  options.capacity = 0.2 * unit::m3;
  const Recipe full = recipe_of({scraps(200.0), leaves(500.0)}, options);
  REQUIRE(full.status == RecipeStatus::on_target);
  CHECK_THAT(full.mix->volume->value(), WithinRel(0.2, 1e-5));
  CHECK(full.distance_from_aim <= 0.6 + 1e-5);  // README, use-most
}

TEST_CASE("degenerate and tight problems end and balance") {
  const int kind = GENERATE(range(0, 1000));
  std::mt19937 random(static_cast<unsigned>(kind));  // other supplies each time
  std::uniform_real_distribution<double> any(0.0, 1.0);
  const auto within = [&](double low, double high) { return low + (high - low) * any(random); };
  std::vector<RecipeSupply> supplies;
  const int count = 1 + static_cast<int>(within(0.0, 7.99));
  for (int i = 0; i < count; ++i) {
    const auto of_class = static_cast<FeedstockClass>(static_cast<int>(within(0.0, 3.99)));
    RecipeSupply next = supply("s" + std::to_string(i), of_class, within(0.02, 0.9), within(0.2, 0.58), within(8.0, 400.0),
                               within(40.0, 600.0), within(0.001, 500.0));
    if (any(random) < 0.2) next.most_of_volume = ShareOfLooseVolume::of(1.0 / count);
    if (any(random) < 0.15) next.use = Use::all;
    if (any(random) < 0.15) next.bought = true;
    if (next.bought) next.price = static_cast<int>(within(0.0, 3.0)) * unit::money / unit::kg;
    if (any(random) < 0.1) {
      next.use = Use::unlimited;
      next.available.reset();
    }
    if (any(random) < 0.1) next.feedstock_class = FeedstockClass::mineral;
    if (any(random) < 0.1) next = supplies.empty() ? next : supplies.back();
    supplies.push_back(next);
  }
  RecipeOptions options;
  if (kind % 3 == 0) options.fill = within(0.001, 3.0) * unit::m3;
  if (kind % 3 == 1) options.capacity = within(0.001, 3.0) * unit::m3;
  if (kind % 5 == 0) options.most_water = 0.0 * unit::kg_water;
  options.goal = static_cast<Goal>(kind % 4);
  CAPTURE(kind, count);
  const Recipe recipe = recipe_of(supplies, options);
  if (!recipe.mix) return;
  double mass = recipe.water_to_add.value();
  for (const RecipeAmount& amount : recipe.amounts) mass += amount.mass.value();
  CHECK_THAT(recipe.mix->mass.value(), WithinRel(mass, 1e-12));
  CHECK_THAT(as_is_mass(recipe.mix->dry, recipe.mix->water).value(), WithinRel(mass, 1e-12));
  if (recipe.status == RecipeStatus::on_target) CHECK(recipe.distance_from_aim <= 1.0 + 1e-5);
  if (recipe.status == RecipeStatus::nearest) CHECK(recipe.distance_from_aim > 1.0);
  if (options.capacity) CHECK(recipe.mix->volume->value() <= options.capacity->value() * (1.0 + 1e-5));
}

TEST_CASE("what is limited sets the size, and what is not only brings it right") {
  SECTION("scraps with as many leaves as wanted") {
    const Recipe recipe = recipe_of({scraps(20.0), leaves()});
    REQUIRE(recipe.status == RecipeStatus::on_target);
    CHECK_THAT(recipe.amounts[0].mass.value(), WithinRel(20.0, 1e-6));  // used up
    // C:N 33, t = 0.6: C = 33 N with 20 kg of scraps of 5.6 kg dry matter, in leaves of 0.7 kg and C:N 50: by hand
    const double surplus = 33.0 * 20.0 * 0.28 * 0.46 / 16.0 - 20.0 * 0.28 * 0.46;
    const double of_a_kilogram = 0.7 * 0.48 * (1.0 - 33.0 / 50.0);
    CHECK(recipe.amounts[1].mass.value() <= surplus / of_a_kilogram);
    // At the green end, C:N 27, it wants the fewest leaves.
    const double least = (27.0 / 16.0 - 1.0) * 20.0 * 0.28 * 0.46 / (0.7 * 0.48 * (1.0 - 27.0 / 50.0));
    CHECK_THAT(recipe.amounts[1].mass.value(), WithinRel(least, 1e-5));
  }
  SECTION("sawdust, where neither clippings nor leaves set it right without drowning it") {
    const RecipeSupply sawdust = supply("sawdust", FeedstockClass::keeper, 0.40, 0.50, 440.0, 240.0, 46.0);
    const Recipe recipe = recipe_of({sawdust, clippings(), leaves()});
    CHECK_THAT(recipe.amounts[0].mass.value(), WithinRel(46.0, 1e-6));
    const double dry = 0.6 * 46.0;
    CHECK(0.2 * recipe.amounts[1].mass.value() + 0.7 * recipe.amounts[2].mass.value() <= 4.0 * dry * (1.0 + 1e-6));
  }
  SECTION("straw, which leaves only dilute") {
    const RecipeSupply straw = supply("straw", FeedstockClass::keeper, 0.12, 0.45, 80.0, 60.0, 60.0);
    const Recipe recipe = recipe_of({straw, leaves()});
    CHECK(recipe.status == RecipeStatus::nearest);
    CHECK(0.7 * recipe.amounts[1].mass.value() <= 0.88 * 60.0 * (1.0 + 1e-6));  // no more of them than of it
  }
  SECTION("scraps that may be a twentieth of it at most") {
    RecipeSupply few = fixed(scraps(20.0));
    few.most_of_volume = ShareOfLooseVolume::of(0.05);
    const Recipe recipe = recipe_of({few, leaves()});
    CHECK(recipe.status == RecipeStatus::nearest);
    // Nineteen times the volume of leaves is far beyond the usual limit, and no more than that.
    CHECK_THAT(recipe.amounts[1].mass.value(), WithinRel(19.0 * 20.0 / 450.0 * 100.0, 1e-5));
  }
  SECTION("urea without a limit is used as if it were bought") {
    const Recipe recipe = recipe_of({leaves(100.0), supply("urea", FeedstockClass::supplement, 0.0, 0.20, 0.2 / 0.46, 700.0)});
    REQUIRE(recipe.status == RecipeStatus::on_target);
    CHECK_THAT(recipe.amounts[0].mass.value(), WithinRel(100.0, 1e-6));
    CHECK(recipe.amounts[1].mass.value() < 0.99);  // which brings all of them to 30:1 (recipe formulation, section 4); to 33 takes less
  }
}

TEST_CASE("what is said to set the size does") {
  const auto of = [](const std::vector<RecipeSupply>& supplies, const RecipeOptions& options) {
    return size_set_by({supplies, {}, options}, recipe_of(supplies, options));
  };
  using Places = std::vector<std::size_t>;
  CHECK(of({scraps(20.0), leaves()}, {}).used_up == Places{0});
  CHECK(of({scraps(20.0), leaves(500.0)}, {}).used_up == Places{0});
  CHECK(of({fixed(scraps(20.0)), leaves()}, {}).from == SizeFrom::fixed);
  RecipeOptions options;
  options.capacity = 0.05 * unit::m3;
  CHECK(of({scraps(20.0), leaves()}, options).from == SizeFrom::capacity);
  RecipeOptions dry;
  dry.most_water = 5.0 * unit::kg_water;
  const SizeSetBy by_water = of({supply("litter", FeedstockClass::keeper, 0.10, 0.40, 30.0, 100.0, 100.0)}, dry);
  CHECK(by_water.from == SizeFrom::water);
  CHECK(by_water.used_up.empty());
  RecipeSupply straw = supply("straw", FeedstockClass::keeper, 0.12, 0.45, 80.0, 60.0);
  straw.bought = true;
  straw.price = 1.0 * unit::money / unit::kg;
  RecipeOptions cheap;
  cheap.goal = Goal::cheapest;
  CHECK(of({scraps(20.0), straw}, cheap).from == SizeFrom::goal);
  straw.available = 1.0 * unit::kg;  // all that can be bought
  CHECK(of({scraps(200.0), straw}, {}).used_up == Places{1});
}

TEST_CASE("each goal is followed by using most at its optimum") {
  RecipeOptions options;
  options.goal = GENERATE(Goal::cheapest, Goal::least_bought, Goal::least_water);
  RecipeSupply straw = supply("straw", FeedstockClass::keeper, 0.12, 0.45, 80.0, 60.0, 100.0);
  straw.bought = true;
  straw.price = 1.0 * unit::money / unit::kg;
  const Recipe recipe = recipe_of({leaves(100.0), clippings(60.0), scraps(20.0), straw}, options);
  REQUIRE(recipe.status == RecipeStatus::on_target);
  CHECK_THAT(recipe.amounts[2].mass.value(), WithinRel(20.0, 1e-6));  // scraps go first, all of them
  CHECK(recipe.amounts[1].mass.value() > 20.0);                       // and more than the least pile of them takes
  if (options.goal == Goal::cheapest) CHECK(recipe.cost == Cost());
}

TEST_CASE("clippings too wet for what they go with are left to wilt, by as much water as it takes") {
  // 10 kg dry of clippings and 10.36 of leaves: C:N 26, moisture 69 %.
  const RecipeQuestion question{{leaves(14.8), clippings(50.0)}, {}, {}};
  const std::vector<Help> ways = what_would_help(question, solve(question), {});
  const auto help = std::find_if(ways.begin(), ways.end(), [](const Help& one) { return one.wilting.has_value(); });
  REQUIRE(help != ways.end());
  CHECK(help->wilting->id == "clippings");
  CHECK(help->mix.moisture->value() == Approx(0.60).margin(1e-4));  // the edge of the window, just inside
  const double lost = (0.30 * 14.8 + 0.80 * 50.0) - 1.5 * (0.70 * 14.8 + 0.20 * 50.0);
  CHECK(help->wilting->water_lost.value() == Approx(lost).margin(0.01));
  CHECK(help->mix.mass.value() == Approx(64.8 - lost).margin(0.01));
  CHECK(help->wilting->to.value() == Approx((40.0 - lost) / (50.0 - lost)).margin(1e-3));
}

TEST_CASE("what comes fresh is told with how long it keeps") {
  RecipeSupply week = scraps(10.0);
  week.keeps = 7.0 * unit::day;
  const Recipe recipe = recipe_of({leaves(40.0), week});
  REQUIRE(recipe.amounts.size() == 2);
  CHECK_FALSE(recipe.amounts[0].keeps);
  CHECK(recipe.amounts[1].keeps == 7.0 * unit::day);
}

TEST_CASE("a trace beside a ton") {
  // Once no method of the solver did these: figures of lb in kg.
  const double lb = 0.45359237;
  const RecipeSupply shavings = supply("shavings", FeedstockClass::keeper, 0.20, 0.50, 440.0, 120.0, 235.0 * lb);
  const RecipeSupply litter = supply("litter", FeedstockClass::must_go, 0.37, 0.40, 14.0, 475.0, 2.05 * lb);
  const RecipeSupply urea = supply("urea", FeedstockClass::supplement, 0.0, 0.20, 0.2 / 0.46, 700.0, 0.0651 * lb);
  const Recipe recipe = recipe_of({shavings, leaves(0.73 * lb), litter, urea});
  REQUIRE(recipe.mix);
  CHECK_THAT(recipe.amounts[2].mass.value(), WithinRel(2.05 * lb, 1e-6));  // the litter goes first, all of it
}

TEST_CASE("why some of a supply is left: what a pile with all of it would be", "[recipe]") {
  const auto reasons = [](std::vector<RecipeSupply> supplies, const RecipeOptions& options = {}) {
    const RecipeQuestion question{std::move(supplies), {}, options};
    const Recipe recipe = solve(question);
    REQUIRE(recipe.mix);
    return why_left(question, recipe);
  };
  // C:N 25 to 35 and moisture 50 to 60 %; a ton of one thing makes a pile that is nearly all that thing.
  CHECK(reasons({leaves(1000.0), clippings(10.0)}).front() == WhyLeft::too_brown);
  CHECK(reasons({leaves(10.0), clippings(1000.0)}).back() == WhyLeft::too_green);
  const RecipeSupply pulp = supply("pulp", FeedstockClass::keeper, 0.92, 0.45, 30.0, 400.0, 1000.0);
  CHECK(reasons({leaves(10.0), pulp}).back() == WhyLeft::too_wet);

  RecipeSupply few_leaves = leaves(100.0);
  few_leaves.most_of_volume = ShareOfLooseVolume::of(0.3);
  const RecipeSupply bedding = supply("bedding", FeedstockClass::keeper, 0.55, 0.45, 30.0, 200.0, 100.0);
  CHECK(reasons({few_leaves, bedding}).front() == WhyLeft::its_share);

  RecipeOptions little_water;
  little_water.most_water = 1.0 * unit::kg_water;
  const RecipeSupply hay = supply("hay", FeedstockClass::keeper, 0.10, 0.45, 30.0, 100.0, 1000.0);
  CHECK(reasons({hay, clippings(10.0)}, little_water).front() == WhyLeft::no_water);
}
