#pragma once
/// What an answer about a yard takes for granted of its supplies.

#include <vector>

#include "heapwright/mix/vary.hpp"

namespace heapwright {

/// Adds what a supply takes for granted, each with what it could change of a blend that the supply is an ingredient of.
void take_on(const Taken& taken, const Blend& blend, std::size_t ingredient, const Materials& materials,
             std::vector<Assumption>& assumptions);

/// What of the seasons' supplies is on hand, said once for all that keep and once for all that do not.
void assume_windows(const std::vector<Taken>& taken, std::vector<Assumption>& assumptions);

}  // namespace heapwright
