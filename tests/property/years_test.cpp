// What must hold of the year of any supplies: nothing comes of nothing, and a year that begins in another month is the same year.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "heapwright/season/year.hpp"

using namespace heapwright;

namespace {

// Eight stages of a linear programme, each kept within 1e-7 of its optimum; rows hold to 1e-8.
constexpr double stages = 1e-5;

YearQuestion question_of(unsigned seed) {
  std::mt19937_64 random(seed);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  const auto supply = [](const char* id, double moisture, double ratio, double density, Keeping keeping) {
    YearSupply of;
    of.ingredient.id = of.ingredient.name = id;
    of.ingredient.properties.moisture = wet_basis(moisture);
    of.ingredient.properties.carbon = carbon_dry_basis(0.45);
    of.ingredient.properties.nitrogen = nitrogen_dry_basis(0.45 / ratio);
    of.ingredient.properties.particle_density = particle_density(1400.0);
    of.ingredient.density = bulk_density(density);
    of.keeping = keeping;
    return of;
  };
  YearQuestion question;
  YearSupply leaves = supply("leaves", 0.3, between(40.0, 60.0), 100.0, Keeping::dry);
  leaves.comes[9] = leaves.comes[10] = between(20.0, 150.0) * unit::kg;
  YearSupply clippings = supply("clippings", 0.8, between(14.0, 20.0), 200.0, Keeping::fresh);
  for (std::size_t m = 3; m <= 9; ++m) clippings.comes[m] = between(10.0, 60.0) * unit::kg;
  YearSupply scraps = supply("scraps", 0.72, 16.0, 450.0, Keeping::waits);
  scraps.comes.fill(between(5.0, 40.0) * unit::kg);
  scraps.weight = 3.0;
  question.supplies = {leaves, clippings, scraps};
  if (between(0.0, 1.0) < 0.4) question.supplies.push_back(supply("straw", 0.12, 80.0, 60.0, Keeping::bought));
  if (between(0.0, 1.0) < 0.4) question.store = between(0.3, 3.0) * unit::m3;
  return question;
}

void check_same(const Year& one, const Year& other, double times) {
  const double scale = one.all_fresh * times;
  CHECK(times * one.waste == Approx(other.waste).margin(stages * scale));
  CHECK(times * one.all_fresh == Approx(other.all_fresh).epsilon(1e-12));
  CHECK(times * one.bought.value() == Approx(other.bought.value()).epsilon(stages).margin(1e-6));
  CHECK(one.waits == other.waits);
}

constexpr unsigned tries = 12;

}  // namespace

TEST_CASE("what comes, is had and is bought in a year is used or left", "[season][property]") {
  const YearQuestion of = question_of(GENERATE(range(100U, 100U + tries)));
  const Year year = balance_year(of);
  double waste = 0.0, stored = 0.0;
  for (std::size_t i = 0; i < of.supplies.size(); ++i) {
    const YearSupply& supply = of.supplies[i];
    CAPTURE(supply.ingredient.id);
    double in = 0.0, out = 0.0;
    for (std::size_t m = 0; m < months_in_a_year; ++m) {
      const MonthOfSupply& now = year.months[m].supplies[i];
      CHECK(now.comes == supply.comes[m]);
      in += (now.comes + now.bought).value();
      out += (now.used + now.left).value();
      if (supply.keeping == Keeping::fresh) CHECK(now.kept == Mass());
      if (supply.keeping != Keeping::bought) CHECK(now.bought == Mass());
      if (supply.keeping == Keeping::fresh || supply.keeping == Keeping::waits)
        waste += supply.weight * dry_mass(now.left, supply.ingredient.properties.moisture).value();
      // What waits does so for a month: no more of it is kept than came.
      if (supply.keeping == Keeping::waits) CHECK(now.kept.value() <= now.comes.value() * (1.0 + stages));
    }
    CHECK(in == Approx(out).epsilon(stages).margin(1e-6));
  }
  for (const MonthOfYear& month : year.months) {
    double kept = 0.0;
    for (std::size_t i = 0; i < of.supplies.size(); ++i) {
      if (of.supplies[i].keeping == Keeping::dry) kept += (month.supplies[i].kept / *of.supplies[i].ingredient.density).value();
    }
    stored = std::max(stored, kept);
    CHECK(month.water.value() >= 0.0);
  }
  CHECK(waste == Approx(year.waste).epsilon(stages).margin(stages * year.all_fresh));
  CHECK(year.waste <= year.all_fresh * (1.0 + stages));
  CHECK(stored == Approx(year.store.value()).epsilon(stages).margin(1e-6));
  if (of.store) CHECK(year.store <= (1.0 + stages) * *of.store);
}

TEST_CASE("a year that is counted from another month on is the same year", "[season][property]") {
  const YearQuestion of = question_of(GENERATE(range(200U, 200U + tries)));
  YearQuestion later = of;
  const auto by = GENERATE(1, 5);
  for (YearSupply& supply : later.supplies) std::rotate(supply.comes.begin(), supply.comes.begin() + by, supply.comes.end());
  const Year one = balance_year(of);
  const Year other = balance_year(later);
  check_same(one, other, 1.0);
  CHECK(one.store.value() == Approx(other.store.value()).epsilon(stages).margin(1e-6));
}

TEST_CASE("a year of twice as much, with twice the room, is the same year, twice", "[season][property]") {
  const YearQuestion of = question_of(GENERATE(range(300U, 300U + tries)));
  YearQuestion more = of;
  for (YearSupply& supply : more.supplies) {
    for (Mass& mass : supply.comes) mass *= 2.0;
  }
  if (more.store) *more.store *= 2.0;
  check_same(balance_year(of), balance_year(more), 2.0);
}

TEST_CASE("the order in which a year's supplies are listed does not matter", "[season][property]") {
  const YearQuestion of = question_of(GENERATE(range(400U, 400U + tries)));
  YearQuestion turned = of;
  std::reverse(turned.supplies.begin(), turned.supplies.end());
  check_same(balance_year(of), balance_year(turned), 1.0);
}

TEST_CASE("the air that is wanted is in each month's mix, and wanting more wastes no less", "[season][property]") {
  YearQuestion of = question_of(GENERATE(range(600U, 600U + tries)));
  double before = 0.0, least = 0.0;
  // Loose leaves and clippings are mostly air: only from about 85 % on does it keep anything out.
  for (const double air : {0.35, 0.84, 0.87, 0.90}) {
    of.targets.least_air = AirSpace::of(air);
    const Year year = balance_year(of);
    CAPTURE(air);
    for (const MonthOfYear& month : year.months) {
      Blend blend{{}, month.water};
      for (std::size_t i = 0; i < of.supplies.size(); ++i) {
        blend.ingredients.push_back(of.supplies[i].ingredient);
        blend.ingredients.back().mass = month.supplies[i].used;
      }
      const Mix mix = mix_of(blend);
      if (mix.mass > 0.1 * unit::kg) CHECK(mix.air_space->value() >= air - stages);
    }
    // That something waits is allowed or not for all of a year: as much as it may save, 5 %, may be lost again.
    CHECK(year.waste >= before - 0.05 * year.all_fresh - stages * year.all_fresh);
    if (air == 0.35) least = year.waste;
    before = year.waste;
  }
  CHECK(before > least + 0.05 * balance_year(of).all_fresh);
}

TEST_CASE("wider windows, more leaves, or straw to be had never waste more", "[season][property]") {
  const YearQuestion of = question_of(GENERATE(range(500U, 500U + tries)));
  const double usual = balance_year(of).waste;
  const double most = usual * (1.0 + 1e-6) + 1e-6 * balance_year(of).all_fresh;
  YearQuestion wider = of;
  wider.distance = 1.3;
  // Where some waits the store is for less of it: what waits has no more than 5 % to gain.
  const double of_waiting = 0.05 * balance_year(of).all_fresh;
  CHECK(balance_year(wider).waste <= most + of_waiting);
  YearQuestion leafier = of;
  for (Mass& mass : leafier.supplies[0].comes) mass *= 1.4;
  CHECK(balance_year(leafier).waste <= most + of_waiting);
  YearQuestion roomier = of;
  roomier.store.reset();
  CHECK(balance_year(roomier).waste <= most + of_waiting);
}
