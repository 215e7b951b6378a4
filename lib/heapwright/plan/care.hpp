#pragma once
/// What a yard does with its pile, as the model takes it.

#include "heapwright/process/trajectory.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

PileCare care_of(const Yard& yard);

}  // namespace heapwright
