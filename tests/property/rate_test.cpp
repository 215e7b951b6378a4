// What a short log, or one of a pile that does nothing, tells of its rate: little, and the fit says so. Logs that tell much are among the
// long tests.

#include "heapwright/process/rate.hpp"

#include <catch2/catch.hpp>

#include "../unit/piles.hpp"
#include "heapwright/process/pile_to_build.hpp"

using namespace heapwright;

namespace {

PileToBuild household_pile(double moisture = 0.55) {
  return {piles::household(moisture), 1.0, std::nullopt, PileCare(), std::nullopt, std::chrono::year(2027) / 5 / 1};
}

CoreOfDay core_of(int day, double celsius) { return {day, TemperaturePoint::from_celsius(celsius)}; }

std::vector<CoreOfDay> cores(const PileToBuild& pile, const DailyWeather& weather, double rate, int length) {
  PileToBuild true_pile = pile;
  true_pile.rate = rate;
  const Trajectory trajectory =
      PileModel(true_pile, piles::materials(), piles::every_set()).trajectory(piles::every_set().best, weather, {length + 1});
  std::vector<CoreOfDay> cores;
  for (int day = 0; day < length; ++day) {
    const std::size_t at = static_cast<std::size_t>(day);
    cores.push_back(core_of(day, 0.5 * (trajectory.days[at].core.celsius() + trajectory.days[at + 1].core.celsius())));
  }
  return cores;
}

std::optional<RateFit> fit_of(const PileToBuild& pile, const DailyWeather& weather, const std::vector<CoreOfDay>& seen) {
  return fit_rate(pile, weather, piles::materials(), piles::every_set(), seen);
}

}  // namespace

TEST_CASE("a rate is found again in a log without noise", "[property][rate]") {
  const PileToBuild pile = household_pile();
  const DailyWeather weather = piles::steady(15.0, 60);
  const auto fit = fit_of(pile, weather, cores(pile, weather, 1.4, 20));
  REQUIRE(fit);
  CHECK(fit->factor == Approx(1.4).epsilon(0.01));
  CHECK(fit->tells);
  CHECK(fit->misses_by < 0.2 * unit::kelvin);
  CHECK(fit->missed_before > 1.0 * unit::kelvin);
}

TEST_CASE("a rate is fitted to the first year of a log", "[property][rate]") {
  const PileToBuild pile = household_pile();
  const DailyWeather weather = piles::steady(15.0, 500);
  std::vector<CoreOfDay> seen = cores(pile, weather, 1.4, 20);
  const auto of_days = fit_of(pile, weather, seen);
  for (int day = 367; day < 480; ++day) seen.push_back(core_of(day, 45.0));  // as it cannot be so late
  const auto of_all = fit_of(pile, weather, seen);
  REQUIRE((of_days && of_all));
  CHECK(of_all->factor == of_days->factor);
  CHECK(of_all->misses_by == of_days->misses_by);
}

TEST_CASE("a log of a few days fits nothing", "[property][rate]") {
  const PileToBuild pile = household_pile();
  const DailyWeather weather = piles::steady(15.0, 30);
  const auto seen = cores(pile, weather, 1.0, 20);
  CHECK_FALSE(fit_of(pile, weather, {}));
  CHECK_FALSE(fit_of(pile, weather, {seen.begin(), seen.begin() + 4}));  // of them the day it was built does not count
  CHECK_FALSE(fit_of(pile, weather, {core_of(-5, 20.0), core_of(-4, 20.0), core_of(-3, 20.0), core_of(400, 20.0), core_of(401, 20.0)}));
  CHECK(fit_of(pile, weather, {seen.begin(), seen.begin() + 5}));
}

TEST_CASE("a pile that does not heat tells nothing of its rate", "[property][rate]") {
  const PileToBuild pile = household_pile(0.20);
  const DailyWeather weather = piles::steady(1.0, 60);
  std::vector<CoreOfDay> seen;
  for (int day = 1; day < 20; ++day) seen.push_back(core_of(day, 1.0 + (day % 3 == 0 ? 1.5 : -0.5)));
  const auto fit = fit_of(pile, weather, seen);
  REQUIRE(fit);
  CHECK_FALSE(fit->tells);
}

TEST_CASE("a rate at the end of what is tried tells no more than that", "[property][rate]") {
  const PileToBuild pile = household_pile();
  const DailyWeather weather = piles::steady(15.0, 60);
  std::vector<CoreOfDay> seen;  // of a pile that does nothing where it should heat
  for (int day = 1; day < 20; ++day) seen.push_back(core_of(day, 15.5 + (day % 3 == 0 ? 1.5 : -0.5)));
  const auto fit = fit_of(pile, weather, seen);
  REQUIRE(fit);
  CHECK(fit->factor < 0.25);
  CHECK_FALSE(fit->tells);
}

TEST_CASE("a pile is turned and watered as it was noted, then by habit", "[property][rate]") {
  PileToBuild pile = household_pile();
  pile.care.turn_every = 10;
  const DailyWeather weather = piles::steady(15.0, 60);
  const auto trajectory = [&](const PileToBuild& one) {
    return PileModel(one, piles::materials(), piles::every_set()).trajectory(piles::every_set().best, weather, {40});
  };
  PileToBuild as_by_habit = pile;
  as_by_habit.care.noted = {25, {10, 20}, {}};
  CHECK(trajectory(as_by_habit).days[40].core == trajectory(pile).days[40].core);
  PileToBuild not_turned = pile;
  not_turned.care.noted = {25, {}, {}};
  CHECK(trajectory(not_turned).days[12].core != trajectory(pile).days[12].core);
  PileToBuild watered = pile;
  watered.care.noted = {25, {10, 20}, {10}};
  CHECK(trajectory(watered).water_given.value() > 0.0);
}
