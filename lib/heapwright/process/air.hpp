#pragma once
/// Moist air.

namespace heapwright {

inline constexpr double usual_humidity = 0.65;  ///< 1, relative; assumed
inline constexpr double dry_humidity = 0.40;    ///< 1, where the year has less than 300 mm of rain; assumed

/// Vapour that saturated air holds over water, kg/m³: p/(461.5 (T + 273.15)) with p = 610.94 exp(17.625 T/(T + 243.04)) Pa, the Magnus form
/// with the figures of Alduchov and Eskridge (1996, from memory).
/// @param celsius −40 to 80 °C: within 0.5 % of steam tables from freezing on
double saturated_vapour(double celsius);

/// The exponent of that, and the same from its power: for many at a time.
inline double magnus_exponent(double celsius) { return 17.625 * celsius / (celsius + 243.04); }
inline double saturated_vapour(double celsius, double power) {
  constexpr double gas_constant = 461.5;  // J/(kg K), of vapour
  return 610.94 / gas_constant * power / (celsius + 273.15);
}

/// Enthalpy of vapour, J/kg, from liquid water at 0 °C: 2.501e6 + 1860 T, T in °C, as usual for moist air; from memory.
inline double vapour_enthalpy(double celsius) { return 2.501e6 + 1860.0 * celsius; }

}  // namespace heapwright
