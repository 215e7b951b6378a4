#pragma once
/// A class as JSON.

#include <string>

#include "heapwright/materials/materials.hpp"
#include "heapwright/roster/workshop.hpp"

namespace heapwright {

/// Numbers and totals, names where they are wanted.
std::string json_of_workshop(const Workshop& workshop, const Materials& materials);

}  // namespace heapwright
