#pragma once
/// The working of a mix: from what went in to its C:N, moisture, volume and air, step by step.

#include "heapwright/mix/batch.hpp"
#include "heapwright/mix/targets.hpp"
#include "heapwright/working/step.hpp"
#include "heapwright/working/working_units.hpp"

namespace heapwright {

/// The formulas of mix_of(), each with its numbers: the weight of each portion from its containers and bulk density, its dry matter,
/// then water, dry matter, carbon, nitrogen, C:N, moisture, volume, bulk density, solids and air. What the portions do not determine
/// (a volume without bulk densities, a C:N without nitrogen) is said in words.
Working working_of_mix(const Batch& batch, const Materials& materials, const WorkingUnits& units);

/// The same; and of two portions how much of the browner one the greener one wants, by the closed forms of pair.hpp, for the moisture
/// aim without water and for the C:N aim. Where an aim does not lie between the two, that is said.
Working working_to_aims(const Batch& batch, const Targets& targets, const Materials& materials, const WorkingUnits& units);

}  // namespace heapwright
