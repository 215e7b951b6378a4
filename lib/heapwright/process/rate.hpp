#pragma once
/// How fast a pile rots in truth, over what its forecast says: one factor, fitted to the temperatures that its core was seen to have.

#include <optional>
#include <vector>

#include "heapwright/process/forecast.hpp"

namespace heapwright {

struct PileToBuild;
struct ProcessEnsemble;

/// What a thermometer in the core showed on a day, the mean of its readings.
struct CoreOfDay {
  int day = 0;  ///< after it was built
  TemperaturePoint core = TemperaturePoint::from_celsius(0.0);
};

/// A factor on both rate constants, kF and kS, of every set. Fitted by least squares together with how far the air of the pile's place is
/// off the weather's, which is held near 0 by what weather is usually off (3 °C, judged). Of a long log the first 365 days count, since
/// later ones tell more of the weather than of the rate (judged).
struct RateFit {
  double factor = 1.0;
  double low = 1.0;  ///< two standard errors either way, of the residuals less what follows each from the one before
  double high = 1.0;
  TemperatureDifference air_off;        ///< how much warmer than the weather's its air seems
  TemperatureDifference misses_by;      ///< root mean square of what is left
  TemperatureDifference missed_before;  ///< without the factor
  bool tells = false;                   ///< whether the log narrows the factor at all: low and high less than three to one apart
  bool fits_none = false;               ///< whether no rate comes near the log, by twice what a day's readings may be off

  /// misses_by as it is shown: no thermometer in a pile is nearer than 1 °C; judged.
  TemperatureDifference told_miss() const { return misses_by > 1.0 * unit::kelvin ? misses_by : 1.0 * unit::kelvin; }
};

/// Between these a factor is looked for; judged.
inline constexpr double slowest_rate = 0.2;
inline constexpr double fastest_rate = 5.0;
inline constexpr int least_days_of_fit = 4;  ///< fewer days tell nothing

/// The factor that a log of the core shows: README.md, what a log corrects.
/// @param weather from the day it is built, for the horizon
/// @return nothing where there are fewer than least_days_of_fit days from the day after it was built to where the weather ends
std::optional<RateFit> fit_rate(const PileToBuild& pile, const DailyWeather& weather, const Materials& materials,
                                const ProcessEnsemble& ensemble, const std::vector<CoreOfDay>& seen);

}  // namespace heapwright
