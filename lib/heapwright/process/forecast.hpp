#pragma once
/// What a pile will do and when it is ready, by the best set of parameters and by all of them: as wide as the model is known to be wrong,
/// and in two branches where it may or may not get hot.

#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "heapwright/process/compost_left.hpp"
#include "heapwright/process/heating.hpp"

namespace heapwright {

struct PileToBuild;
struct ProcessEnsemble;

/// How wide a forecast is at the least, judged from where the model misses published trials (README.md): the core by 10 °C either way,
/// volatile solids lost by 0.12, C:N by 4. Days of readiness as ready_window() has them.
struct ForecastWidth {
  TemperatureDifference core = 10.0 * unit::kelvin;
  double volatile_solids = 0.12;
  CarbonNitrogenRatio carbon_to_nitrogen = 4.0 * (unit::kg_carbon / unit::kg_nitrogen);
  TemperatureDifference too_hot = 6.0 * unit::kelvin;  ///< more below, of bins and tumblers of up to small_vessel, which come out too hot
};
inline constexpr ForecastWidth forecast_width{};
inline const Volume small_vessel = 0.2 * unit::m3;
/// Of the air, by day and night: from here on a pile starts at once. Judged.
inline const TemperaturePoint warm_enough = TemperaturePoint::from_celsius(10.0);
inline const Volume big_pile = 10.0 * unit::m3;  ///< beyond this the model's piles cool and dry too soon

/// How far it gets in three years.
enum class ForecastStatus {
  mature,     ///< likely within the horizon
  turf_only,  ///< only as far as a lawn asks
  never,      ///< not even that
};
/// "ready-for-turf", for other programs.
std::string_view status_word(ForecastStatus status);

/// The criterion that is met last.
enum class Criterion { respiration, carbon_to_nitrogen, rotted };
std::string_view criterion_word(Criterion criterion);

/// What is to be said of a forecast beside its figures; of a pile that is never ready the first of the reasons.
enum class ForecastNote {
  too_dry,                  ///< it stands still for want of water
  too_wet,                  ///< it has no air
  too_little_nitrogen,      ///< it is stable, but its C:N stays high
  too_woody,                ///< it is stable and its C:N low, since wood hardly rots, but little of it has
  too_cold,                 ///< it hardly thaws
  too_slow,                 ///< none of these
  cold_start,               ///< built in frost: what is frozen the model leaves frozen until the air thaws it
  core_of_those_that_heat,  ///< it may or may not heat, and the likelier is shown
  core_of_those_that_do_not,
  hardly_heats,     ///< its core does not get hot before it is ready
  weed_seeds_live,  ///< below 55 °C
  few_greens,       ///< a C:N of 40 or more at the start, for which the model does not slow
  freezes,          ///< all through
  gets_wet,         ///< soaked through by its end
  dries,            ///< on the way
  in_small_vessel,  ///< its temperatures come out too high
  too_big,          ///< it stays hot for longer than is shown
  windrow,          ///< temperatures of windrows were not tested
};
std::string_view note_word(ForecastNote note);

/// What was tried instead, by the best set: days after the pile was to be built, cure and all.
struct Instead {
  std::optional<int> turf_day;
  std::optional<int> mature_day;
};

/// What is left of what was put in, at the likely day, else at the end of what was followed.
struct Finished {
  bool is_ready = false;      ///< for turf at least
  MoistureWetBasis moisture;  ///< at which its mass is given: that of use, or its own where it stands drier
  Mass mass;                  ///< of all of it, unscreened
  double mass_loss = 0.0;     ///< shares of all put in; below 0 where what went in dry takes up water
  double volume_loss = 0.0;
  double volatile_solids_loss = 0.0;
  double volatile_solids_loss_low = 0.0;
  double volatile_solids_loss_high = 0.0;
  double nitrogen_loss = 0.0;
  CarbonNitrogenRatio carbon_to_nitrogen;
  CompostYield screened;   ///< of all that this pile gets
  CompostLeft left;        ///< likely, screened
  OrganicMass organic_in;  ///< of all put in
  DryMass ash;             ///< likewise: all of it stays
  OrganicMass coarse;      ///< wood of what is left that stays on the screen
};

/// A day, and between what its core lies.
struct DayOfForecast {
  PileState state;  ///< by the best set; of a pile that may or may not heat, what most of the likelier have
  TemperaturePoint air = TemperaturePoint::from_celsius(0.0);
  TemperaturePoint core_low = TemperaturePoint::from_celsius(0.0);
  TemperaturePoint core_high = TemperaturePoint::from_celsius(0.0);
};

/// What a pile will do. Days count from the one it is built on.
struct Forecast {
  Date built;
  Volume volume;                    ///< as it lies at first, by the best set
  std::vector<DayOfForecast> days;  ///< from day 0 to the likely mature day, cure and all, or to where it was followed to
  HeatsOrNot heats;
  ReadyWindow turf;    ///< none of it where it may or may not heat: its branches have theirs
  ReadyWindow mature;  ///< likewise
  ForecastStatus status = ForecastStatus::never;
  std::optional<Criterion> binding;  ///< of maturity; of one that is never fit for turf, of that
  /// The warmest core of `days`, whose band says how sure it is; it may be a spring's.
  TemperaturePoint peak_core = TemperaturePoint::from_celsius(0.0);
  int peak_day = 0;
  Finished finished;
  double filled_in_all = 1.0;  ///< over what it was filled with at first
  int times_fed = 0;
  int last_fed = 0;  ///< day
  WaterMass water_given;
  std::vector<ForecastNote> notes;
  std::optional<Instead> watered;          ///< if it is too dry or dries: water at every turning, or each fortnight
  std::optional<Instead> built_in_warmth;  ///< if it is built too cold to be likely to heat: on
  std::optional<Date> warm_enough;         ///< this day
};

/// Called as sets are done, so many of so many.
using Progress = std::function<void(int done, int of)>;

/// Runs the best set and all the others through the weather, each until it is ready or cannot be, and puts them together: README.md beside
/// this file, the forecast.
/// @param seen what a log shows of its heating
/// @param ensemble with one member at least @throws DomainError without, and for a pile that is too small or holds nothing, as Pile does
Forecast forecast(const PileToBuild& pile, const Weather& weather, const Materials& materials, const ProcessEnsemble& ensemble,
                  const std::optional<SeenHeating>& seen = std::nullopt, const Progress& progress = {});

/// Whether a note is among its notes.
bool says(const Forecast& forecast, ForecastNote note);

/// A day of a forecast in the calendar.
Date date_of(const Forecast& forecast, int day);

}  // namespace heapwright
