#pragma once
/// What a yard does with its pile, as the model takes it.

#include "heapwright/process/trajectory.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// Turning in whole days, one at least; water up to the moisture aim where it is kept moist; the likely share of the rain.
PileCare care_of(const Yard& yard);

}  // namespace heapwright
