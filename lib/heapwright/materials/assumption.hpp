#pragma once
/// What an answer took for granted, for "I took it as …".

#include <optional>
#include <string>
#include <variant>

#include "heapwright/input/document.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

using AssumedValue = std::variant<std::string, MoistureWetBasis, CarbonDryBasis, NitrogenDryBasis, CarbonNitrogenRatio, BulkDensity, Volume,
                                  Length, ShareOfVolatileSolids, ShareOfVolume, ShareOfLooseVolume, Date>;

struct Assumption {
  std::string what;
  AssumedValue value;
  std::optional<AssumedValue> low;
  std::optional<AssumedValue> high;
  std::string evidence;                       ///< whose figure it is, as it may be shown
  std::optional<double> could_change_answer;  ///< by how much the answer moves across the range; absent where nobody worked it out
};

}  // namespace heapwright
