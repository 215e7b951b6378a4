#pragma once
/// How well an area is known, by what it was measured with.

#include <string>
#include <utility>
#include <vector>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// With what somebody measured; each with its word in a yard file.
enum class MeasuredBy { wheel, tape, paces, tracing, gps };
const std::vector<std::pair<std::string, MeasuredBy>>& measured_by_words();

/// Half of the range in which an area lies, 19 times in 20. Of a tape 2 %, a wheel 3 %, a tracing of an aerial photo 5 %, paces 10 %:
/// judged, common practice, no source. Of fixes of a phone, each within 4.9 m 19 times in 20 (secondary), as for a square whose corners are
/// fixed each by itself:
///
///     4.9 m √2 √A / √(−2 ln 0.05) × 1.96
///
/// so that it is worth little on a small lawn.
Area spread_of_area(Area area, MeasuredBy measured_by);

}  // namespace heapwright
