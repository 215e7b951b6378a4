#pragma once
/// How much of the rain a pile takes up.

#include <optional>

#include "heapwright/pile/description.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// The rain where nobody says: so much a day, all year. Judged.
inline const Length usual_rain_a_day = 0.0025 * unit::m;

/// Rain of a day that a pile takes up on its plan area:
///
///     s · max(0, P − 0.085 mm/K · T)   where T > 0 °C, else 0
///
/// The rest runs off; what falls on the crust dries there between showers, 0.085 mm a day for each degree, half of what dries off open
/// water. Both judged (README.md beside this file).
/// @param rain P, from 0 @param air T, the day's mean @param share s, from 0 to 1, and over where a set draws it so
Length rain_taken_up(Length rain, TemperaturePoint air, double share);

/// The share s of the rain that stays in a pile, the rest runs off.
struct RainShare {
  double low = 0.0;
  double likely = 0.0;
  double high = 0.0;
};

/// 0.30 (0.15 to 0.5) of a pile or windrow, 0.50 (0.3 to 0.7) of an open bin, none under a lid or in a drum. Judged. One that is dished on
/// top or lies in a pit would keep all of it; no shape says so.
RainShare share_of_rain(const std::optional<PileDescription>& pile);

}  // namespace heapwright
