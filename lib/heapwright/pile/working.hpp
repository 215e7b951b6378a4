#pragma once
/// The working of a pile: what it holds, and how high what is put in comes, step by step.

#include "heapwright/pile/pile.hpp"
#include "heapwright/working/step.hpp"
#include "heapwright/working/working_units.hpp"

namespace heapwright {

/// The volume of one pile by the formula of its shape, of all of them, what they take, how many a mix fills, and how high the first of
/// them comes. @pre the fit has a pile
Working working_of_pile(const PileFit& fit, const WorkingUnits& units);

}  // namespace heapwright
