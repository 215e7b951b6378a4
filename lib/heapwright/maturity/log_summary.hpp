#pragma once
/// What a log shows a gardener: how hot it got and when, whether turning warmed it again, whether it has cooled for good.

#include <optional>
#include <string_view>
#include <vector>

#include "heapwright/maturity/log.hpp"
#include "heapwright/maturity/observations.hpp"
#include "heapwright/maturity/time_temperature.hpp"

namespace heapwright {

/// From here on heat-loving microbes do the work.
inline const TemperaturePoint heated = TemperaturePoint::from_celsius(40.0);
/// 160 °F. Above it most of what rots the pile dies; common practice. A conservation job sheet watches from 165 °F and cools at 185 °F.
inline const TemperaturePoint too_hot_above = TemperaturePoint::from_fahrenheit(160.0);

/// 180 °F. From here on a pile may come to smolder: just below the 185 °F at which a conservation job sheet has it cooled; judged.
inline const TemperaturePoint near_fire_from = TemperaturePoint::from_fahrenheit(180.0);

/// So long after it was near fire a pile counts as too hot, whatever it reads: what smolders may lie beside the thermometer; judged.
inline constexpr std::chrono::days time_to_watch_for_fire(3);

/// A pile that will heat has by then; common practice, no source.
inline constexpr std::chrono::days time_to_heat(5);

/// A pile first watched later than that after it was built may have heated unseen; judged.
inline constexpr std::chrono::days time_to_heat_and_cool(30);

/// What one thermometer showed.
struct PileReading {
  TemperaturePoint temperature;
  WrittenTime time;
  std::size_t probe = 0;
};

/// Readings at or above `heated`, one after the other.
struct HotSpell {
  WrittenTime from;
  WrittenTime to;
  PileReading hottest;
};

/// What a turning did in the week after it, or until it was turned again: from the lowest of the first day to the highest after that.
struct Reheat {
  WrittenTime turned;
  TemperaturePoint lowest;
  TemperaturePoint highest;
  TemperaturePoint coolest;  ///< of all that time
  TemperaturePoint latest;   ///< of it
  WrittenTime hot_until;     ///< the last reading at or above `heated` before the first below it; the turning itself where there is none
  bool measured = false;     ///< whether there is a reading after the turning
  bool turned_again = false;
  bool warmed = false;  ///< by reheat_step or more
};
inline const TemperatureDifference reheat_step = 5.0 * unit::kelvin;    ///< judged
inline const TemperatureDifference hardly_warmer = 2.0 * unit::kelvin;  ///< a rise by less than that is none; judged

/// A pile that warms again after a turning has by then; common practice, no source.
inline constexpr std::chrono::days time_to_warm_again(7);
/// A pile that is hot for so long after a turning did not just go on cooling; judged.
inline constexpr std::chrono::days time_hot_again(2);

/// What came of a turning.
enum class ReheatOutcome {
  not_measured_since,  ///< the log ends with it
  not_measured,        ///< in that time
  warmed,              ///< by reheat_step or more
  stayed_hot,          ///< never below `heated`
  stayed_hot_for_days,
  went_on_cooling,  ///< from a pile still warm when it was turned
  not_yet,          ///< it did not warm, but time_to_warm_again is not over
  hardly_warmed,    ///< by less than reheat_step
  did_not_warm,
};
/// @param last the latest reading of the log
ReheatOutcome outcome_of(const Reheat& reheat, const WrittenTime& last);

/// How long it was too hot.
struct TooHot {
  WrittenTime first;
  std::chrono::seconds length{};  ///< of all stretches, by readings next to each other; nothing of single ones
};

/// From here down a pile that was hotter is turned; common practice, no source.
inline const TemperaturePoint turned_below = TemperaturePoint::from_fahrenheit(110.0);

/// What a pile is doing.
enum class PileActivity {
  is_too_hot,       ///< above `too_hot`, or near fire in the last days
  working,          ///< at or above `heated`
  slowing,          ///< the same, but below `turned_below` after it was hotter in the same spell
  measure_again,    ///< it was hot a day before, and nothing was done to it: the last reading may be none of its middle
  warming,          ///< cool, but warmer from day to day
  has_not_heated,   ///< followed for long enough, and never warm
  too_early,        ///< never warm, but not followed for long enough
  turned_in_vain,   ///< cool: turned when it was hardly warm and watched for days, it did not warm
  turned_lately,    ///< cool, and turned too lately to tell whether it warms
  cooled_for_good,  ///< cool for a week, with no turning that warmed it again
  cooling           ///< cool, since when is less than a week
};
/// "has-not-heated"
std::string_view activity_word(PileActivity state);

/// What a hand says that a pile is doing.
enum class FeltActivity {
  working,         ///< hot
  slowing,         ///< warm
  has_not_heated,  ///< cold, and never warm though it was felt for long enough
  too_early,       ///< cold, and never warm, but not for long enough
  cooled,          ///< cold after it was warm
};

/// The last time that a hand was put in, after all that a thermometer showed.
struct FeltByHand {
  Date date;
  HandWarmth core;
  bool has_heated = false;   ///< by any reading, of a hand or a thermometer
  bool long_enough = false;  ///< since it was built, or first felt, for it to have heated

  /// What is cold is judged by what came before.
  FeltActivity state() const;
};

/// Each round of readings by its hottest thermometer.
struct LogSummary {
  WrittenTime first;
  WrittenTime last;
  int readings = 0;  ///< rounds
  PileReading peak;
  PileReading latest;
  std::vector<PileReading> set_aside{};  ///< that stand alone: no pile warms and cools so fast
  std::vector<HotSpell> hot_spells{};
  std::optional<WrittenTime> first_heated{};
  std::optional<TooHot> too_hot{};
  std::optional<PileReading> near_fire_at{};  ///< the latest reading at or above near_fire_from, even one that stands alone
  std::optional<WrittenTime> last_turned{};
  std::vector<Reheat> reheats{};            ///< of each turning with a reading in the day after it
  std::optional<WrittenTime> cool_since{};  ///< the first reading below `heated` after the last one at it, of a pile that had heated
  TemperatureDifference fell_by{};          ///< from the reading before to the latest, where nothing explains it; else 0
  bool warms = false;                       ///< whether the last day is the warmest of the last few, by reheat_step over the coolest
  std::optional<WrittenTime> gap_from{};    ///< where the longest gap between readings begins
  std::chrono::seconds longest_gap{};

  /// Whether it was near fire so lately that it is to be watched.
  bool was_near_fire_by(WrittenTime now) const { return near_fire_at && now.at() - near_fire_at->time.at() <= time_to_watch_for_fire; }
  /// By the latest reading, and where that is cool by what came before.
  PileActivity state() const;
};

/// The hottest thermometer of each round of readings: what all of them show at most an hour apart, each once.
std::vector<PileReading> hottest_readings(const TemperatureLog& log);

/// hottest_readings() less those that stand alone: odd_step or more above or below the ones before and after them, by the same thermometer
/// within two days, which are alike, with no work in between.
struct SoundReadings {
  std::vector<PileReading> sound;
  std::vector<PileReading> set_aside;
};
SoundReadings sound_readings(const TemperatureLog& log);
inline const TemperatureDifference odd_step = 20.0 * unit::kelvin;  ///< judged: a pile of a few hundred pounds takes days for that

/// What sound_readings() show in the order of time. A turning warmed the pile if the highest reading of the week after it is reheat_step or
/// more above the lowest of the day after it.
/// @param gap most between two readings for the time between them to count as too hot
/// @return nothing of a log without readings
std::optional<LogSummary> log_summary_of(const TemperatureLog& log, std::chrono::seconds gap = usual_gap);

}  // namespace heapwright
