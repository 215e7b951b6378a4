#pragma once
/// The units that results are shown in.

#include <string>
#include <utility>
#include <vector>

namespace heapwright {

/// US units, SI, or US with SI in brackets; each with its word in a yard file.
enum class ShownUnits { us, si, both };
const std::vector<std::pair<std::string, ShownUnits>>& shown_units_words();

}  // namespace heapwright
