// Random piles as they are kept, fed too: nothing gets lost, nothing leaves its bounds.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "../reference/process_runs.hpp"
#include "heapwright/process/trajectory.hpp"

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

PileContents pile_of(double volume, double moisture, const std::vector<runs::Part>& parts) {
  const double wet = 300.0 * volume;
  return runs::contents(best(), parts, wet * (1.0 - moisture), wet * moisture);
}

Trajectory run(double volume, double moisture, const DailyWeather& weather, const PileCare& care,
               const std::vector<runs::Part>& parts = mixed()) {
  const PileContents contents = pile_of(volume, moisture, parts);
  const SettledShape shape{volume * unit::m3, runs::pile_surface(volume) * unit::m2, runs::pile_plan(volume) * unit::m2};
  return run_trajectory(Pile(best(), contents, shape, weather.front().air), contents, care, weather, {}, hourly_steps);
}

DailyWeather seasons(int first_day, int days) {
  DailyWeather weather;
  for (int day = 0; day < days; ++day) weather.push_back({TemperaturePoint::from_celsius(runs::season(first_day, day + 0.5))});
  return weather;
}

}  // namespace

TEST_CASE("two hundred random piles, kept and fed, lose nothing and stay in bounds", "[process][property]") {
  std::mt19937_64 random(20261125);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  double worst = 0.0;
  bool in_bounds = true;
  for (int pile = 0; pile < 200; ++pile) {
    const double volume = 0.03 * std::pow(1000.0, between(0.0, 1.0));
    const double leaves = between(0.0, 1.0);
    const std::vector<runs::Part> parts{
        {RottingMaterial::leaves, leaves}, {RottingMaterial::grass, (1.0 - leaves) * 0.5}, {RottingMaterial::food, (1.0 - leaves) * 0.5}};
    const double mean = between(-15.0, 25.0);
    const double swing = between(0.0, 12.0);
    const Length rain = between(0.0, 0.02) * unit::m;
    const double humidity = between(0.2, 1.0);
    DailyWeather weather;
    for (int day = 0; day < static_cast<int>(between(60.0, 250.0)); ++day)
      weather.push_back({TemperaturePoint::from_celsius(mean + swing * std::sin(day / 58.0 + pile)), rain, humidity});
    PileCare care;
    if (between(0.0, 1.0) < 0.6) care.turn_every = static_cast<int>(between(1.0, 30.0));
    if (between(0.0, 1.0) < 0.5) care.wet_to = wet_basis(between(0.4, 0.65));
    if (between(0.0, 1.0) < 0.5) care.share_of_rain = between(0.0, 1.0);
    if (between(0.0, 1.0) < 0.3) care.feeding = Feeding{between(0.05, 1.0), 7, 8, 20.0};
    const Trajectory trajectory = run(volume, between(0.2, 0.75), weather, care, parts);
    worst = std::max({worst, std::abs(trajectory.closure.carbon), std::abs(trajectory.closure.water), std::abs(trajectory.closure.energy)});
    double lost = 0.0;
    for (const PileState& day : trajectory.days) {
      in_bounds = in_bounds && day.core.celsius() > -60.0 && day.core.celsius() < 80.0 && is_positive(day.moisture) &&
                  day.moisture < wet_basis(1.0) && day.core_oxygen >= 0.0 && day.core_oxygen <= 0.205 + 1e-12 && day.nitrogen_loss >= 0.0 &&
                  day.nitrogen_loss <= 0.65 && day.respiration_worst.value() >= 0.0 && day.rotted_worst >= -1e-12 &&
                  day.rotted_worst <= 1.0 && (!trajectory.mature_day || trajectory.turf_day.value_or(99999) <= *trajectory.mature_day) &&
                  (care.feeding || day.volatile_solids_loss >= lost);
      lost = day.volatile_solids_loss;
    }
  }
  CHECK(worst < 1e-10);
  CHECK(worst > 0.0);  // sums of doubles never close by themselves: it was worked out
  CHECK(in_bounds);
}

TEST_CASE("dry under a roof a pile never gets done", "[process][property]") {
  const Trajectory trajectory = run(0.8, 0.3, seasons(110, 1095), {});
  CHECK_FALSE(trajectory.turf_day);
  CHECK(trajectory.days.back().moisture < dry_moisture);
}
