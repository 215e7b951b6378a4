#pragma once
/// The weather of a yard, as its owner knows it.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// One of these ways is used: twelve monthly means, the coldest and warmest month, a named winter, or a file of days.
struct ClimateDescription {
  std::vector<TemperaturePoint> monthly_means;  ///< January first; twelve or none
  std::optional<TemperaturePoint> coldest_month;
  std::optional<TemperaturePoint> warmest_month;
  std::string like;
  std::string file;
};

/// Reads [climate]; nothing where the file has none.
std::optional<ClimateDescription> read_climate(Table& root);

}  // namespace heapwright
