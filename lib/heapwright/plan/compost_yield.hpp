#pragma once
/// The finished compost that a pile leaves, where no forecast says it, and what it takes for granted.

#include <optional>
#include <vector>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/mix.hpp"
#include "heapwright/process/compost_left.hpp"
#include "heapwright/process/parameters.hpp"

namespace heapwright {

/// Finished compost of a pile, through dry matter: ash stays, volatile solids go in part but for coarse wood, which stays on the screen.
///
///     VS left = max(coarse, (1 − lost) VS)        then as compost_left()
///
/// Low and high hold what is not known of the loss, the screen and the density. Never a share of the raw volume: loose dry leaves leave a
/// few cubic feet, not cubic yards.
/// @param coarse wood of the mix that does not rot
CompostYield compost_yield(const Mix& mix, OrganicMass coarse, const YieldRule& rule);

/// The coarse wood of a mix that does not rot, Σ (1 − fast − slow) VS over what is coarse, by the pile model's best set.
OrganicMass coarse_wood_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble);

/// What the yield takes for granted, each with what it could change of what is to buy, else of the compost.
/// @param goes_in all that is put in, over the mix
void assume_yield(std::vector<Assumption>& assumptions, double goes_in, const Mix& mix, OrganicMass coarse, const YieldRule& rule,
                  const Materials& materials, std::optional<Volume> needed);

}  // namespace heapwright
