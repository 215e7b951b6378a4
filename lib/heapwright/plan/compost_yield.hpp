#pragma once
/// The finished compost that a heap leaves.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/mix.hpp"

namespace heapwright {

/// Finished compost of a heap, through dry matter: ash stays, volatile solids go in part.
///
///     dry left = ash + (1 − lost) · volatile solids        volume = dry left / (bulk density · (1 − moisture))
///     screened volume = volume · (1 − held back by the screen)
///
/// with the compost's bulk density and moisture; low and high take all of lost, held back and density at their ends. Never a
/// share of the raw volume: loose dry leaves leave a few cubic feet, not cubic yards.
struct CompostYield {
  Volume low;
  Volume likely;
  Volume high;
};
CompostYield compost_yield(const Mix& mix, const Compost& compost, const YieldRule& rule);

/// What the yield takes for granted, each with what it could change of what is to buy, else of the compost.
/// @param goes_in all that is put in, over the mix
void assume_yield(std::vector<Assumption>& assumptions, double goes_in, const Mix& mix, const Compost& compost, const YieldRule& rule,
                  const Materials& materials, std::optional<Volume> needed);

}  // namespace heapwright
