#pragma once
/// What a log shows a gardener: how hot it got and when, whether turning warmed it again, whether it has cooled for good.

#include <optional>
#include <vector>

#include "heapwright/maturity/log.hpp"
#include "heapwright/maturity/time_temperature.hpp"

namespace heapwright {

/// From here on heat-loving microbes do the work.
inline const TemperaturePoint heated = TemperaturePoint::from_celsius(40.0);
/// 160 °F. Above it most of what rots the heap dies; common practice. A conservation job sheet watches from 165 °F and cools at 185 °F.
inline const TemperaturePoint too_hot = TemperaturePoint::from_fahrenheit(160.0);

/// 180 °F. From here on a heap may come to smoulder: just below the 185 °F at which a conservation job sheet has it cooled; judged.
inline const TemperaturePoint near_fire = TemperaturePoint::from_fahrenheit(180.0);

/// A heap that will heat has by then; common practice, no source.
inline constexpr std::chrono::days time_to_heat(5);

/// A heap first watched later than that after it was built may have heated unseen; judged.
inline constexpr std::chrono::days time_to_heat_and_cool(30);

struct HeapReading {
  TemperaturePoint temperature;
  WrittenTime time;
  std::size_t probe = 0;
};

/// What a turning did: from the lowest of the day after it to the highest of the week after it.
struct Reheat {
  WrittenTime turned;
  TemperaturePoint lowest;
  TemperaturePoint highest;
  TemperaturePoint latest;  ///< of that week
  bool warmed = false;      ///< by reheat_step or more
};
inline const TemperatureDifference reheat_step = 5.0 * unit::kelvin;  ///< judged

struct TooHot {
  WrittenTime first;
  std::chrono::seconds length{};  ///< of all stretches, by readings next to each other; nothing of single ones
};

/// Each round of readings by its hottest thermometer.
struct Watched {
  WrittenTime first;
  WrittenTime last;
  int readings = 0;  ///< rounds
  HeapReading peak;
  std::optional<WrittenTime> first_heated;
  std::optional<TooHot> too_hot;
  std::vector<Reheat> reheats;            ///< of each turning with a reading in the day after it
  std::optional<WrittenTime> cool_since;  ///< the first reading below `heated` after the last one at it, of a heap that had heated
  HeapReading latest;
  std::optional<WrittenTime> gap_from;  ///< where the longest gap between readings begins
  std::chrono::seconds longest_gap{};

  /// Followed for long enough, and never warm.
  bool has_not_heated() const { return !first_heated && last.at() - first.at() >= time_to_heat; }
  /// A week below `heated` with no turning that warmed it again.
  bool cooled_for_good() const { return cool_since && last.at() - cool_since->at() >= std::chrono::days(7); }
  /// Turned when it was hardly warm, and watched for days, it did not warm.
  bool turned_in_vain() const {
    return cool_since && !reheats.empty() && reheats.back().highest < heated + reheat_step && !reheats.back().warmed &&
           last.at() - reheats.back().turned.at() >= time_to_heat;
  }
};

/// The hottest thermometer of each round of readings: what all of them show at most an hour apart, each once.
std::vector<HeapReading> hottest_readings(const TemperatureLog& log);

/// @param gap most between two readings of one stretch
/// @return nothing of a log without readings
std::optional<Watched> watched(const TemperatureLog& log, std::chrono::seconds gap = usual_gap);

}  // namespace heapwright
