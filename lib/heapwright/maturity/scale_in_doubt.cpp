#include "heapwright/maturity/scale_in_doubt.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::days;

// Judged, all of them.
const TemperaturePoint no_pile_from = TemperaturePoint::from_celsius(90.0);
const TemperaturePoint hot_in_celsius = TemperaturePoint::from_fahrenheit(40.0);    // a number that is hot in the other scale
const TemperaturePoint never_warm_below = TemperaturePoint::from_fahrenheit(85.0);  // the highest number that a pile has in the other
const TemperaturePoint frozen_below = TemperaturePoint::from_fahrenheit(28.0);
const TemperaturePoint thawed_and_warm = TemperaturePoint::from_fahrenheit(50.0);
constexpr days few(4);
constexpr days long_enough(7);

bool are_all(const TemperatureLog& log, TemperatureScale scale) {
  return !log.scales.empty() && std::all_of(log.scales.begin(), log.scales.end(), [&](TemperatureScale one) { return one == scale; });
}

/// The first reading of a column in °C that no pile gets to.
std::optional<ScaleInDoubt> too_hot_for_celsius(const TemperatureLog& log) {
  for (const LogRow& row : log.rows) {
    for (std::size_t probe = 0; probe < log.scales.size(); ++probe) {
      const std::optional<TemperaturePoint>& reading = row.probes[probe];
      if (log.scales[probe] == TemperatureScale::celsius && reading && *reading >= no_pile_from)
        return ScaleInDoubt{TemperatureScale::celsius, {*reading, row.time, probe}};
    }
  }
  return std::nullopt;
}

std::optional<ScaleInDoubt> felt_hot(const std::vector<PileReading>& readings, const std::vector<CoreReading>& by_hand) {
  for (const CoreReading& felt : by_hand) {
    const HandWarmth* hand = std::get_if<HandWarmth>(&felt.core);
    if (hand == nullptr || *hand != HandWarmth::hot || !felt.date) continue;
    const auto same_day = std::find_if(readings.begin(), readings.end(), [&](const PileReading& one) {
      return Date(one.time.day()) == *felt.date && one.temperature >= hot_in_celsius;
    });
    if (same_day != readings.end()) return ScaleInDoubt{TemperatureScale::fahrenheit, *same_day, true};
  }
  return std::nullopt;
}

/// From frozen to warm within days, by readings in between.
std::optional<ScaleInDoubt> warms_from_ice(const std::vector<PileReading>& readings) {
  std::optional<PileReading> frozen;
  bool in_between = false;
  for (const PileReading& reading : readings) {
    if (reading.temperature < frozen_below) {
      frozen = reading;
      in_between = false;
    } else if (reading.temperature < thawed_and_warm) {
      in_between = true;
    } else if (frozen && in_between && reading.time.at() - frozen->time.at() <= few) {
      return ScaleInDoubt{TemperatureScale::fahrenheit, reading, false, frozen};
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<ScaleInDoubt> scale_in_doubt(const TemperatureLog& log, const std::vector<CoreReading>& by_hand) {
  if (const auto doubt = too_hot_for_celsius(log)) return doubt;
  if (!are_all(log, TemperatureScale::fahrenheit)) return std::nullopt;
  const std::vector<PileReading> readings = hottest_readings(log);
  const auto is_warm = [](const PileReading& one) { return one.temperature > never_warm_below; };
  if (readings.empty() || std::any_of(readings.begin(), readings.end(), is_warm)) return std::nullopt;
  if (const auto doubt = felt_hot(readings, by_hand)) return doubt;
  const bool is_long = readings.back().time.at() - readings.front().time.at() >= long_enough;
  return is_long ? warms_from_ice(readings) : std::nullopt;
}

}  // namespace heapwright
