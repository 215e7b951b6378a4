#pragma once
/// The weather of a yard, as its owner knows it.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/assumption.hpp"
#include "heapwright/process/daily_means.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// Mean air temperatures of the months, January first.
using MonthlyMeans = std::vector<TemperaturePoint>;

/// Whether a temperature can be the mean of a month anywhere: −60 to 50 °C.
bool is_a_monthly_mean(TemperaturePoint mean);

/// A winter by its plain name, of climates.toml. Judged.
struct NamedClimate {
  std::string id;
  std::string name;
  TemperaturePoint coldest_month;
  TemperaturePoint warmest_month;
};
std::vector<NamedClimate> named_climates();

/// One of these ways is used: twelve monthly means; the coldest and warmest month; the mean of the year and its swing or a named winter
/// (whose two months stand here too); or a file of days.
struct ClimateDescription {
  MonthlyMeans monthly_means;  ///< twelve or none
  std::optional<TemperaturePoint> coldest_month;
  std::optional<TemperaturePoint> warmest_month;
  std::optional<TemperaturePoint> annual_mean;
  std::optional<TemperatureDifference> swing;  ///< the warmest month's mean less the coldest month's
  std::string like;
  std::string file;  ///< as the yard file names it
  DailyMeans days;   ///< of that file
};

/// The climate of a winter by its id or its plain name. @throws TextError with the nearest known one
ClimateDescription climate_like(std::string_view name);

/// Reads [climate], and the file of days that it names; nothing where the file has none.
std::optional<ClimateDescription> read_climate(Table& root);

/// Twelve means from what is known: as given, or on a cosine from the coldest month, January, to the warmest, July:
///
///     T(m) = (Tw + Tc)/2 − (Tw − Tc)/2 · cos(2π (m − 1)/12)
///
/// Nothing for a file of days. The cosine is judged; it is for the northern half of the world, the other gives twelve means.
std::optional<MonthlyMeans> monthly_means(const ClimateDescription& climate);

/// What is taken for granted of the weather; nothing where twelve means or days are given.
std::optional<Assumption> assumption_of(const ClimateDescription& climate);

}  // namespace heapwright
