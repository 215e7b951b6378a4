// The heap model on random heaps: nothing gets lost, nothing leaves its bounds; and what heaps are known to do with size, season and water.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "../reference/process_runs.hpp"
#include "heapwright/process/course.hpp"

using namespace heapwright;

namespace {

const ProcessParameters& best() {
  static const ProcessParameters set = built_in_ensemble().best;
  return set;
}

const std::vector<runs::Part>& mixed() {
  static const std::vector<runs::Part> parts{{RottingMaterial::leaves, 0.6}, {RottingMaterial::grass, 0.2}, {RottingMaterial::food, 0.2}};
  return parts;
}

HeapContents heap_of(double volume, double moisture, const std::vector<runs::Part>& parts) {
  const double wet = 300.0 * volume;
  return runs::contents(best(), parts, wet * (1.0 - moisture), wet * moisture);
}

Course run(double volume, double moisture, const std::vector<TemperaturePoint>& air, const HeapCare& care,
           const std::vector<runs::Part>& parts = mixed()) {
  const HeapContents contents = heap_of(volume, moisture, parts);
  const PileShape shape{volume * unit::m3, runs::heap_surface(volume) * unit::m2};
  return run_course(Pile(best(), contents, shape, air.front()), contents, care, air, 0, production_steps);
}

std::vector<TemperaturePoint> steady(double celsius, int days) {
  return std::vector<TemperaturePoint>(static_cast<std::size_t>(days), TemperaturePoint::from_celsius(celsius));
}

std::vector<TemperaturePoint> seasons(int first_day, int days) {
  std::vector<TemperaturePoint> air;
  for (int day = 0; day < days; ++day) air.push_back(TemperaturePoint::from_celsius(runs::season(first_day, day + 0.5)));
  return air;
}

HeapCare turned(int every, double wet_to, double rain_mm) {
  HeapCare care;
  care.turn_every = every;
  care.wet_to = wet_basis(wet_to);
  care.rain_a_day = rain_mm / 1000.0 * unit::m;
  return care;
}

double peak(const Course& course) {
  double hottest = -100.0;
  for (const PileState& day : course.days) hottest = std::max(hottest, day.core_degc);
  return hottest;
}

}  // namespace

TEST_CASE("two hundred random heaps lose nothing and stay in bounds", "[process][property]") {
  std::mt19937_64 random(20261125);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  double worst = 0.0;
  bool in_bounds = true;
  for (int heap = 0; heap < 200; ++heap) {
    const double volume = 0.03 * std::pow(1000.0, between(0.0, 1.0));
    const double leaves = between(0.0, 1.0);
    const std::vector<runs::Part> parts{
        {RottingMaterial::leaves, leaves}, {RottingMaterial::grass, (1.0 - leaves) * 0.5}, {RottingMaterial::food, (1.0 - leaves) * 0.5}};
    const double mean = between(-15.0, 25.0);
    const double swing = between(0.0, 12.0);
    std::vector<TemperaturePoint> air;
    for (int day = 0; day < static_cast<int>(between(60.0, 250.0)); ++day)
      air.push_back(TemperaturePoint::from_celsius(mean + swing * std::sin(day / 58.0 + heap)));
    HeapCare care;
    if (between(0.0, 1.0) < 0.6) care.turn_every = static_cast<int>(between(1.0, 30.0));
    if (between(0.0, 1.0) < 0.5) care.wet_to = wet_basis(between(0.4, 0.65));
    if (between(0.0, 1.0) < 0.5) care.rain_a_day = between(0.0, 0.005) * unit::m;
    if (between(0.0, 1.0) < 0.3) care.feeding = Feeding{between(0.05, 1.0), 7, 8, 20.0};
    const Course course = run(volume, between(0.2, 0.75), air, care, parts);
    worst = std::max({worst, std::abs(course.closure.carbon), std::abs(course.closure.water), std::abs(course.closure.energy)});
    double lost = 0.0;
    for (const PileState& day : course.days) {
      in_bounds = in_bounds && day.core_degc > -60.0 && day.core_degc < 80.0 && day.moisture > 0.0 && day.moisture < 1.0 &&
                  day.core_oxygen >= 0.0 && day.core_oxygen <= 0.205 + 1e-12 && day.nitrogen_loss >= 0.0 && day.nitrogen_loss <= 0.65 &&
                  day.respiration_worst >= 0.0 && (care.feeding || day.volatile_solids_loss >= lost);
      lost = day.volatile_solids_loss;
    }
  }
  CHECK(worst < 1e-10);
  CHECK(in_bounds);
}

TEST_CASE("a bigger heap is hotter, a moister one too, a warmer season sooner ready", "[process][property]") {
  double cooler = 0.0;
  for (const double volume : {0.1, 0.2, 0.4, 0.8, 1.6, 3.2, 6.4, 12.8}) {
    const double hottest = peak(run(volume, 0.5, steady(15.0, 60), {}));
    CAPTURE(volume);
    CHECK(hottest > cooler);
    cooler = hottest;
  }
  cooler = 0.0;
  for (const double moisture : {0.20, 0.25, 0.30, 0.35, 0.40, 0.50, 0.60}) {
    const double hottest = peak(run(0.8, moisture, steady(15.0, 60), {}));
    CHECK(hottest > cooler);
    cooler = hottest;
  }
  int later = 100000;
  for (const double air : {5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0}) {
    const Course course = run(0.8, 0.5, steady(air, 1095), turned(14, 0.52, 1.0));
    CAPTURE(air);
    REQUIRE(course.mature_day);
    CHECK(*course.mature_day < later);
    later = *course.mature_day;
  }
  CHECK_FALSE(run(0.8, 0.5, steady(0.0, 1095), turned(14, 0.52, 1.0)).mature_day);
}

TEST_CASE("more leaves take longer, and so does a winter", "[process][property]") {
  int sooner = 0;
  for (const double leaves : {0.4, 0.6, 0.8, 1.0}) {
    const double rest = 0.5 * (1.0 - leaves);
    const Course course = run(0.8, 0.55, seasons(110, 1095), turned(14, 0.55, 1.0),
                              {{RottingMaterial::leaves, leaves}, {RottingMaterial::grass, rest}, {RottingMaterial::food, rest}});
    CAPTURE(leaves);
    REQUIRE(course.mature_day);
    CHECK(*course.mature_day >= sooner);
    sooner = *course.mature_day;
  }
  const Course spring = run(0.8, 0.5, seasons(110, 1095), turned(14, 0.52, 1.0));
  const Course winter = run(0.8, 0.5, seasons(15, 1095), turned(14, 0.52, 1.0));
  REQUIRE((spring.mature_day && winter.mature_day));
  CHECK(*winter.mature_day > *spring.mature_day + 30);
}

TEST_CASE("dry under a roof a heap never gets done", "[process][property]") {
  const Course course = run(0.8, 0.3, seasons(110, 1095), {});
  CHECK_FALSE(course.turf_day);
  CHECK(course.days.back().moisture < dry_moisture);
}

TEST_CASE("what does not rot comes to the air's temperature", "[process][property]") {
  // From 50 °C in air of 20 °C: 20.2 °C on day 5, and 18.9 °C on day 200, drying as a wet cloth does (the program of the reference runs).
  ProcessParameters p = best();
  p.kF = p.kS = 0.0;
  const HeapContents contents = heap_of(0.8, 0.5, mixed());
  Pile pile(p, contents, {0.8 * unit::m3, runs::heap_surface(0.8) * unit::m2}, TemperaturePoint::from_celsius(50.0));
  for (int day = 0; day < 5; ++day) pile.live_a_day(TemperaturePoint::from_celsius(20.0), production_steps);
  CHECK(pile.state().core_degc == Approx(20.2).margin(0.4));
  for (int day = 5; day < 200; ++day) pile.live_a_day(TemperaturePoint::from_celsius(20.0), production_steps);
  CHECK(pile.state().core_degc == Approx(18.9).margin(0.4));
}
