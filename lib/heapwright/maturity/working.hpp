#pragma once
/// The working of a rating: each test against its limits, and which of them rules, step by step.

#include "heapwright/materials/materials.hpp"
#include "heapwright/maturity/next_steps.hpp"
#include "heapwright/working/step.hpp"

namespace heapwright {

/// Of each test that rates, how far it lies from each limit of its scale; what stability and maturity come to; the less mature of the two.
/// Values in another unit are brought to that of the limit first, and oxygen taken up to CO2 given off where a specification for turf asks
/// for it.
Working working_of_rating(const CompostKnown& known, const Materials& materials);

}  // namespace heapwright
