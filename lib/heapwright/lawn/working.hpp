#pragma once
/// The working of a topdressing: its areas, volumes and weight, step by step.

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/working/step.hpp"
#include "heapwright/working/working_units.hpp"

namespace heapwright {

/// The area of each piece by the formula of its shape, of the zones and of the lawn, then volume, allowance, loads, weight and what
/// a year takes.
Working working_of_topdressing(const Topdressing& topdressing, const WorkingUnits& units);

/// The area that a given volume covers, and its weight; of a result whose volume with allowance is that volume.
Working working_of_coverage(const Topdressing& covered, const WorkingUnits& units);

}  // namespace heapwright
