#pragma once
/// The working of a yield: from the dry matter that goes into a pile to the compost that it leaves, step by step.

#include "heapwright/materials/materials.hpp"
#include "heapwright/process/forecast.hpp"
#include "heapwright/working/step.hpp"
#include "heapwright/working/working_units.hpp"

namespace heapwright {

/// The formulas of compost_left(), each with its numbers: ash stays, organic matter goes in part, coarse wood and a share of the rest stay
/// on the screen, and dry density follows from what is left.
/// @param such_piles that all of it makes
Working working_of_yield(const Finished& finished, double such_piles, const YieldRule& rule, const Materials& materials,
                         const WorkingUnits& units);

}  // namespace heapwright
