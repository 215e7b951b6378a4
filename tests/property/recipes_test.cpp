// What must hold of the recipe of any supplies: what goes in is what is mixed, nothing is used that is not there, and who asks the same in
// other words gets the same.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "heapwright/mix/targets.hpp"
#include "heapwright/recipe/recipe.hpp"

using namespace heapwright;

namespace {

// The stages keep each other's optimum within 1e-7 (recipe/README.md), of which there are up to a dozen.
constexpr double stages = 1e-5;
// What balances does so in a few sums of doubles.
constexpr double sums = 1e-9;

class Questions {
 public:
  explicit Questions(unsigned seed) : random_(seed) {}

  RecipeQuestion next() {
    RecipeQuestion question;
    const int count = 2 + static_cast<int>(between(0.0, 3.0));
    for (int i = 0; i < count; ++i) question.supplies.push_back(supply(i));
    if (between(0.0, 1.0) < 0.3) question.options.capacity = between(0.2, 2.0) * unit::m3;
    if (between(0.0, 1.0) < 0.3) question.options.settling = ShareOfLooseVolume::of(between(0.6, 1.0));
    if (between(0.0, 1.0) < 0.2) question.options.most_water = between(0.0, 100.0) * unit::kg_water;
    return question;
  }
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

 private:
  /// Browns and greens by turns, so that most questions have an answer.
  RecipeSupply supply(int number) {
    const bool brown = number % 2 == 0;
    const double carbon = between(0.38, 0.52);
    const double ratio = brown ? between(40.0, 90.0) : between(11.0, 22.0);
    const double organic = std::min(0.98, 1.8 * carbon);
    RecipeSupply supply;
    supply.ingredient.properties = {wet_basis(brown ? between(0.1, 0.4) : between(0.6, 0.85)), carbon_dry_basis(carbon),
                                    nitrogen_dry_basis(carbon / ratio), organic_dry_basis(organic), particle_density(1500.0)};
    supply.ingredient.density = bulk_density(brown ? between(50.0, 130.0) : between(180.0, 500.0));
    supply.ingredient.id = supply.ingredient.name = "thing " + std::to_string(number);
    supply.feedstock_class = brown ? FeedstockClass::keeper : number == 1 ? FeedstockClass::must_go : FeedstockClass::clippings;
    supply.available = between(5.0, 120.0) * unit::kg;
    return supply;
  }
  std::mt19937_64 random_;
};

constexpr int tries = 40;

double mass_of(const Recipe& recipe, const std::string& id) {
  for (const RecipeAmount& amount : recipe.amounts) {
    if (amount.id == id) return amount.mass.value();
  }
  return 0.0;
}

}  // namespace

TEST_CASE("what a recipe takes is what its mix is made of, and what it leaves is the rest", "[recipe][property]") {
  Questions questions(20261201);
  int with_a_mix = 0;
  for (int i = 0; i < tries; ++i) {
    const RecipeQuestion question = questions.next();
    const Recipe recipe = solve(question);
    CAPTURE(i, status_word(recipe.status));
    if (!recipe.mix) continue;
    ++with_a_mix;
    double kg = recipe.water_to_add.value();
    for (const RecipeAmount& amount : recipe.amounts) {
      kg += amount.mass.value();
      const RecipeSupply& of = *std::find_if(question.supplies.begin(), question.supplies.end(),
                                             [&](const RecipeSupply& supply) { return supply.ingredient.id == amount.id; });
      CHECK(amount.mass.value() >= 0.0);
      CHECK(amount.mass.value() <= of.available->value() * (1.0 + stages));
      CHECK(amount.volume.value() == Approx((amount.mass / *of.ingredient.density).value()).epsilon(sums));
      if (amount.mass_left) CHECK((amount.mass + *amount.mass_left).value() == Approx(of.available->value()).epsilon(stages));
    }
    CHECK(kg == Approx(recipe.mix->mass.value()).epsilon(sums));
    CHECK(recipe.water_to_add.value() >= 0.0);
    if (question.options.most_water) CHECK(recipe.water_to_add <= (1.0 + stages) * *question.options.most_water + 1e-6 * unit::kg_water);
    if (question.options.capacity) CHECK(*recipe.mix->volume <= (1.0 + stages) * *question.options.capacity);
    // On target is within the windows, and what is within them is on target.
    const double distance = distance_from_aim(*recipe.mix, question.targets);
    CHECK(distance == Approx(recipe.distance_from_aim).margin(stages));
    CHECK((recipe.status == RecipeStatus::on_target) == (distance <= 1.0 + stages));
  }
  CHECK(with_a_mix > tries * 3 / 4);
}

TEST_CASE("the order in which supplies are listed does not matter", "[recipe][property]") {
  Questions questions(20261202);
  for (int i = 0; i < tries; ++i) {
    RecipeQuestion question = questions.next();
    const Recipe recipe = solve(question);
    std::reverse(question.supplies.begin(), question.supplies.end());
    const Recipe turned = solve(question);
    CAPTURE(i);
    CHECK(recipe.status == turned.status);
    CHECK(recipe.distance_from_aim == Approx(turned.distance_from_aim).epsilon(stages).margin(stages));
    if (!recipe.mix || !turned.mix) continue;
    CHECK(recipe.mix->mass.value() == Approx(turned.mix->mass.value()).epsilon(stages));
    CHECK(*recipe.mix->carbon_to_nitrogen / *turned.mix->carbon_to_nitrogen == Approx(1.0).epsilon(stages));
  }
}

TEST_CASE("twice of all there is, in twice the room, is the same recipe, twice", "[recipe][property]") {
  Questions questions(20261203);
  const double times = GENERATE(2.0, 0.1);
  for (int i = 0; i < tries / 2; ++i) {
    RecipeQuestion question = questions.next();
    const Recipe recipe = solve(question);
    for (RecipeSupply& supply : question.supplies) *supply.available *= times;
    if (question.options.capacity) *question.options.capacity *= times;
    if (question.options.most_water) *question.options.most_water *= times;
    const Recipe more = solve(question);
    CAPTURE(i, times);
    CHECK(recipe.status == more.status);
    CHECK(recipe.distance_from_aim == Approx(more.distance_from_aim).epsilon(stages).margin(stages));
    if (!recipe.mix || !more.mix) continue;
    CHECK(times * recipe.mix->mass.value() == Approx(more.mix->mass.value()).epsilon(stages));
    CHECK(times * recipe.water_to_add.value() == Approx(more.water_to_add.value()).epsilon(stages).margin(stages * more.mix->mass.value()));
    for (const RecipeAmount& amount : recipe.amounts)
      CHECK(times * amount.mass.value() == Approx(mass_of(more, amount.id)).epsilon(stages).margin(stages * more.mix->mass.value()));
  }
}

TEST_CASE("more at hand, more room or more water never takes a recipe off its targets", "[recipe][property]") {
  Questions questions(20261204);
  int on_target = 0;
  for (int i = 0; i < tries; ++i) {
    const RecipeQuestion question = questions.next();
    if (solve(question).status != RecipeStatus::on_target) continue;
    ++on_target;
    CAPTURE(i);
    // Two parts in a hundred of all there is go in at least, so that of very much more of one thing no pile may be made of the rest.
    RecipeQuestion more = question;
    *more.supplies[static_cast<std::size_t>(i) % more.supplies.size()].available *= 1.5;
    CHECK(solve(more).status == RecipeStatus::on_target);
    RecipeQuestion roomier = question;
    if (roomier.options.capacity) *roomier.options.capacity *= 1.5;
    if (roomier.options.most_water) *roomier.options.most_water *= 1.5;
    CHECK(solve(roomier).status == RecipeStatus::on_target);
    RecipeQuestion wider = question;
    wider.targets.carbon_to_nitrogen.low = carbon_to_nitrogen(23.0);
    wider.targets.carbon_to_nitrogen.high = carbon_to_nitrogen(38.0);
    wider.targets.least_air = AirSpace::of(0.30);
    CHECK(solve(wider).status == RecipeStatus::on_target);
  }
  CHECK(on_target > tries / 4);
}

TEST_CASE("what a pile takes of scraps grows with the browns that there are", "[recipe][property]") {
  Questions questions(20261205);
  for (int i = 0; i < tries / 4; ++i) {
    RecipeQuestion question;
    question.supplies = questions.next().supplies;
    question.supplies.resize(2);
    double before = 0.0;
    for (const double kg : {10.0, 20.0, 40.0, 80.0}) {
      question.supplies[0].available = kg * unit::kg;
      const Recipe recipe = solve(question);
      CAPTURE(i, kg, before);
      if (recipe.status != RecipeStatus::on_target) continue;
      const double scraps = mass_of(recipe, question.supplies[1].ingredient.id);
      CHECK(scraps >= before * (1.0 - stages));
      before = scraps;
    }
  }
}

TEST_CASE("a dearer thing costs no less, and the cheapest recipe is no dearer than that of any other goal", "[recipe][property]") {
  Questions questions(20261206);
  for (int i = 0; i < tries / 2; ++i) {
    RecipeQuestion question = questions.next();
    question.supplies[0].bought = true;
    question.supplies[0].price = questions.between(0.1, 2.0) * unit::money / unit::kg;
    const Recipe usual = solve(question);
    question.options.goal = Goal::cheapest;
    const Recipe cheapest = solve(question);
    question.supplies[0].price *= 3.0;
    const Recipe dearer = solve(question);
    CAPTURE(i);
    if (usual.status != RecipeStatus::on_target || cheapest.status != RecipeStatus::on_target) continue;
    // A recipe may cost no more than its stage's optimum by the slack of that stage, a hundredth of which counts at least.
    const double slack = stages * std::max(cheapest.cost.value(), 1.0);
    CHECK(cheapest.cost.value() <= usual.cost.value() + slack);
    CHECK(dearer.cost.value() >= cheapest.cost.value() - slack);
    CHECK(cheapest.cost.value() == Approx((question.supplies[0].price * cheapest.amounts[0].mass).value() / 3.0).margin(slack));
  }
}
