#pragma once
/// What a heap will do and when it is ready, by the best set of parameters and by all of them: as wide as the model is known to be wrong.

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/process/course.hpp"

namespace heapwright {

/// A heap to be forecast.
struct HeapToBuild {
  Mix mix;
  double share = 1.0;  ///< of the mix that it is filled with at first
  PileShape shape;
  HeapCare care;
  Date built;
  double rate = 1.0;  ///< how fast it rots over what the sets say, as a log of it may show (rate.hpp)
};

/// The course of a heap by one set, as it starts in the air of its first day.
/// @param air the mean of each day, from the day it is built
Course course_of(const HeapToBuild& heap, const DailyAir& air, const Materials& materials, const ProcessEnsemble& ensemble,
                 const ProcessParameters& set, int least_days);

/// How wide a forecast is at the least, judged from where the model misses published trials (README.md): from 0.7 to 1.7 times as
/// long (0.7 of the days on which it works), the core by 10 °C either way, moisture by 0.08, C:N by 4, volatile solids and volume by 0.12
/// and 0.10 of what was put in.
struct ForecastWidth {
  double earlier = 0.7;
  double later = 1.7;
  double core_degc = 10.0;
  double volatile_solids = 0.12;
};
inline constexpr ForecastWidth forecast_width{};

inline constexpr int horizon = 3 * 365;  ///< days that a heap is followed

/// When a heap is ready, in days after it was built, its cure included. Early and late hold eight of ten sets and are no nearer to the
/// likely day than the forecast's width; absent where that is beyond the horizon.
struct ReadyWindow {
  std::optional<int> early;
  std::optional<int> likely;  ///< absent too where the start decides
  std::optional<int> late;
};

enum class ForecastStatus {
  mature,         ///< likely within the horizon
  turf_only,      ///< only as far as a lawn asks
  start_decides,  ///< built so cold that it heats or waits for spring by chance: a range and no likely day
  never,          ///< not even as far as a lawn asks
};
std::string_view status_word(ForecastStatus status);

/// The criterion that is met last.
enum class Criterion { respiration, carbon_to_nitrogen };
std::string_view criterion_word(Criterion criterion);

/// What is to be said of a forecast beside its figures; of a heap that is never ready the first of the reasons.
enum class ForecastNote {
  too_dry,              ///< it stands still for want of water
  too_wet,              ///< it has no air
  too_little_nitrogen,  ///< it is stable, but its C:N stays high
  too_cold,             ///< it hardly thaws
  too_slow,             ///< none of these
  cold_start,           ///< built near or below freezing
  hardly_heats,         ///< its core stays below 40 °C
  weed_seeds_live,      ///< below 55 °C
  few_greens,           ///< a C:N of 40 or more at the start, for which the model does not slow
  freezes,              ///< all through
  gets_wet,             ///< soaked through by its end
  dries,                ///< on the way
};
std::string_view note_word(ForecastNote note);

/// What was tried instead, by the best set: days after the heap was to be built, cure and all.
struct Instead {
  std::optional<int> turf_day;
  std::optional<int> mature_day;
};

/// What is left of what was put in, at the likely day, else at the end of what was followed.
struct Finished {
  double mass_loss = 0.0;  ///< shares of all put in
  double volume_loss = 0.0;
  double volatile_solids_loss = 0.0;
  double volatile_solids_loss_low = 0.0;
  double volatile_solids_loss_high = 0.0;
  double nitrogen_loss = 0.0;
  double carbon_to_nitrogen = 0.0;
  double moisture = 0.0;
};

struct DayOfForecast {
  PileState state;  ///< by the best set
  double air_degc = 0.0;
  double core_low_degc = 0.0;
  double core_high_degc = 0.0;
};

struct Forecast {
  Date built;
  std::vector<DayOfForecast> days;  ///< from day 0 to the likely mature day, cure and all, or to the horizon
  ReadyWindow turf;
  ReadyWindow mature;
  ForecastStatus status = ForecastStatus::never;
  std::optional<Criterion> binding;  ///< of maturity; of one that is never fit for turf, of that
  double peak_core_degc = 0.0;
  int peak_day = 0;
  Finished finished;
  double filled_in_all = 1.0;  ///< over what it was filled with at first
  WaterMass water_given;
  std::vector<ForecastNote> notes;
  std::optional<Instead> watered;          ///< if it is too dry or dries: water at every turning, or each fortnight
  std::optional<Instead> built_in_warmth;  ///< if it is built too cold: on
  std::optional<Date> warm_enough;         ///< this day
};

/// Called as sets are done, so many of so many.
using Progress = std::function<void(int done, int of)>;

/// @param air the mean of each day, horizon days and a year more, from the day it is built
/// @param ensemble with one member at least @throws DomainError without, and for a heap that is too small or holds nothing, as Pile does
Forecast forecast(const HeapToBuild& heap, const DailyAir& air, const Materials& materials, const ProcessEnsemble& ensemble,
                  const Progress& progress = {});

/// A day of a forecast in the calendar.
Date date_of(const Forecast& forecast, int day);

}  // namespace heapwright
