#pragma once
/// Rules that ask for so long at so high a temperature, and whether a log meets them.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/maturity/log.hpp"
#include "heapwright/maturity/provenance.hpp"

namespace heapwright {

/// Hotter than some temperature for a while, somewhere within the long stretch.
struct Burst {
  TemperaturePoint above;               ///< exceeded, not met
  std::chrono::seconds length;          ///< unbroken
  std::chrono::seconds readings_apart;  ///< most between two readings that show it
};

/// As a rule words it: its temperatures count as met at the bound.
struct TimeTemperatureRule {
  std::string id;
  std::string name;
  TemperaturePoint at_least = TemperaturePoint::from_celsius(0.0);
  std::optional<TemperaturePoint> at_most;
  std::chrono::seconds length{};
  int turnings = 0;  ///< at least, within the stretch
  std::optional<Burst> burst;
  Provenance whose;
};

/// Why a rule is not met, or cannot be judged.
enum class RuleGap {
  never_warm,          ///< no two readings in a row that are warm enough
  too_hot,             ///< nor that are not too hot
  too_far_apart,       ///< warm enough, but with more than the gap between readings
  too_short,           ///< the longest stretch
  too_few_turnings,    ///< within it
  turnings_not_noted,  ///< the log has no column for them
  no_burst,            ///< never long enough above the higher temperature
  burst_not_shown,     ///< it was above it, but readings are too far apart to show for how long
};

/// What ended a stretch.
enum class StretchEnd { log_ends, too_cold, too_hot, no_reading };

/// From one reading to another.
struct Stretch {
  WrittenTime from;
  WrittenTime to;
  /// Between the two.
  std::chrono::seconds length() const { return to.at() - from.at(); }
};

/// How a log stands with a rule.
struct RuleResult {
  const TimeTemperatureRule* rule = nullptr;
  std::optional<bool> met;  ///< nothing where the log does not tell
  std::optional<RuleGap> gap;
  std::optional<Stretch> stretch;  ///< that meets it, else the longest
  int turnings = 0;                ///< within it
  std::chrono::seconds total{};    ///< of all stretches
  std::chrono::seconds longest{};  ///< of them
  StretchEnd end = StretchEnd::log_ends;
  int ended_by = -1;  ///< the thermometer that ended it; −1: none
  std::optional<TemperaturePoint> ended_at;
  std::optional<Stretch> over_a_missed_day;  ///< the stretch with a gap of missed_day, where that makes it longer; else nothing
};

/// Most between two readings of a thermometer that count as one stretch: one a day, with some hours' grace. Common practice, no source.
inline constexpr std::chrono::seconds usual_gap = std::chrono::hours(26);

/// A gap that bridges one missed day of daily readings, with some hours' grace.
inline constexpr std::chrono::seconds missed_day = std::chrono::hours(50);

/// Whether a log meets a rule: a stretch from reading to reading in which every thermometer is within at_least and at_most, both included,
/// all through, so that the coldest decides; no shorter than the rule's length, to the second; with its turnings, those on the first and
/// last moment included, and its burst. Where none meets it the longest stretch is given. Sources stand with the rules (criteria.toml).
/// @param gap most between two readings of one stretch; above 0
RuleResult judge(const TimeTemperatureRule& rule, const TemperatureLog& log, std::chrono::seconds gap);

}  // namespace heapwright
