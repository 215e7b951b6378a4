#pragma once
/// Moist air.

namespace heapwright {

/// Vapour that saturated air holds over water, kg/m³: p/(461.5 (T + 273.15)) with p = 610.94 exp(17.625 T/(T + 243.04)) Pa, the Magnus form
/// with the figures of Alduchov and Eskridge (1996, from memory).
/// @param celsius −40 to 80 °C: within 0.5 % of steam tables from freezing on
double saturated_vapour(double celsius);

}  // namespace heapwright
