// What a short log, or one of a heap that does nothing, tells of its rate: little, and the fit says so. Logs that tell much are among the
// long tests.

#include "heapwright/process/rate.hpp"

#include <catch2/catch.hpp>

#include "../unit/heaps.hpp"

using namespace heapwright;

namespace {

HeapToBuild household_heap(double moisture = 0.55) {
  return {heaps::household(moisture), 1.0, std::nullopt, HeapCare(), std::nullopt, std::chrono::year(2027) / 5 / 1};
}

std::vector<CoreOfDay> cores(const HeapToBuild& heap, const DailyWeather& weather, double rate, int length) {
  HeapToBuild true_heap = heap;
  true_heap.rate = rate;
  const Course course = HeapModel(true_heap, heaps::materials(), heaps::every_set()).course(heaps::every_set().best, weather, {length + 1});
  std::vector<CoreOfDay> cores;
  for (int day = 0; day < length; ++day) {
    const std::size_t at = static_cast<std::size_t>(day);
    cores.push_back({day, 0.5 * (course.days[at].core_degc + course.days[at + 1].core_degc)});
  }
  return cores;
}

std::optional<RateFit> fit_of(const HeapToBuild& heap, const DailyWeather& weather, const std::vector<CoreOfDay>& seen) {
  return fit_rate(heap, weather, heaps::materials(), heaps::every_set(), seen);
}

}  // namespace

TEST_CASE("a rate is found again in a log without noise", "[property][rate]") {
  const HeapToBuild heap = household_heap();
  const DailyWeather weather = heaps::steady(15.0, 60);
  const auto fit = fit_of(heap, weather, cores(heap, weather, 1.4, 20));
  REQUIRE(fit);
  CHECK(fit->factor == Approx(1.4).epsilon(0.01));
  CHECK(fit->tells);
  CHECK(fit->misses_by_degc < 0.2);
  CHECK(fit->missed_before_degc > 1.0);
}

TEST_CASE("a rate is fitted to the first year of a log", "[property][rate]") {
  const HeapToBuild heap = household_heap();
  const DailyWeather weather = heaps::steady(15.0, 500);
  std::vector<CoreOfDay> seen = cores(heap, weather, 1.4, 20);
  const auto of_days = fit_of(heap, weather, seen);
  for (int day = 367; day < 480; ++day) seen.push_back({day, 45.0});  // as it cannot be so late
  const auto of_all = fit_of(heap, weather, seen);
  REQUIRE((of_days && of_all));
  CHECK(of_all->factor == of_days->factor);
  CHECK(of_all->misses_by_degc == of_days->misses_by_degc);
}

TEST_CASE("a log of a few days fits nothing", "[property][rate]") {
  const HeapToBuild heap = household_heap();
  const DailyWeather weather = heaps::steady(15.0, 30);
  const auto seen = cores(heap, weather, 1.0, 20);
  CHECK_FALSE(fit_of(heap, weather, {}));
  CHECK_FALSE(fit_of(heap, weather, {seen.begin(), seen.begin() + 4}));  // of them the day it was built does not count
  CHECK_FALSE(fit_of(heap, weather, {{-5, 20.0}, {-4, 20.0}, {-3, 20.0}, {400, 20.0}, {401, 20.0}}));
  CHECK(fit_of(heap, weather, {seen.begin(), seen.begin() + 5}));
}

TEST_CASE("a heap that does not heat tells nothing of its rate", "[property][rate]") {
  const HeapToBuild heap = household_heap(0.20);
  const DailyWeather weather = heaps::steady(1.0, 60);
  std::vector<CoreOfDay> seen;
  for (int day = 1; day < 20; ++day) seen.push_back({day, 1.0 + (day % 3 == 0 ? 1.5 : -0.5)});
  const auto fit = fit_of(heap, weather, seen);
  REQUIRE(fit);
  CHECK_FALSE(fit->tells);
}

TEST_CASE("a rate at the end of what is tried tells no more than that", "[property][rate]") {
  const HeapToBuild heap = household_heap();
  const DailyWeather weather = heaps::steady(15.0, 60);
  std::vector<CoreOfDay> seen;  // of a heap that does nothing where it should heat
  for (int day = 1; day < 20; ++day) seen.push_back({day, 15.5 + (day % 3 == 0 ? 1.5 : -0.5)});
  const auto fit = fit_of(heap, weather, seen);
  REQUIRE(fit);
  CHECK(fit->factor < 0.25);
  CHECK_FALSE(fit->tells);
}

TEST_CASE("a heap is turned and watered as it was noted, then by habit", "[property][rate]") {
  HeapToBuild heap = household_heap();
  heap.care.turn_every = 10;
  const DailyWeather weather = heaps::steady(15.0, 60);
  const auto course = [&](const HeapToBuild& one) {
    return HeapModel(one, heaps::materials(), heaps::every_set()).course(heaps::every_set().best, weather, {40});
  };
  HeapToBuild as_by_habit = heap;
  as_by_habit.care.noted = {25, {10, 20}, {}};
  CHECK(course(as_by_habit).days[40].core_degc == course(heap).days[40].core_degc);
  HeapToBuild not_turned = heap;
  not_turned.care.noted = {25, {}, {}};
  CHECK(course(not_turned).days[12].core_degc != course(heap).days[12].core_degc);
  HeapToBuild watered = heap;
  watered.care.noted = {25, {10, 20}, {10}};
  CHECK(course(watered).water_given.value() > 0.0);
}
