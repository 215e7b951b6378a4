#pragma once
/// The C:N of what rots in a season, where much of a mix does not: wood, and old compost.

#include <optional>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

struct ProcessEnsemble;

/// With each ingredient's carbon C and nitrogen N, and d the share of its volatile solids that rots at all, fast or slowly, by the best
/// set:
///
///     C:N of what rots = Σ d C / Σ d N
///
/// Carbon and nitrogen are taken to come free as the organic matter does, which is judged: of wood both stay, and in old compost both are
/// bound. Fertilizers and meals give all their nitrogen. Nothing where all that goes in rots well (d of 0.3 and more, judged), or none of
/// it has nitrogen.
std::optional<WhatRots> what_rots(const Blend& blend, const Materials& materials, const ProcessEnsemble& ensemble);

/// Keeps that of a mix's blend in the mix.
void note_what_rots(Mix& mix, const Blend& blend, const Materials& materials, const ProcessEnsemble& ensemble);

/// A question whose supplies have the carbon and nitrogen that rot alone, dC and dN: what they make together is then the C:N of what rots,
/// and water and air are as they were. What does not rot at all is left out.
RecipeQuestion by_what_rots(RecipeQuestion question, const Materials& materials, const ProcessEnsemble& ensemble);

/// Whether an ingredient may be one that hardly rots, for which the table of shares is read.
bool may_hardly_rot(const Blend& blend, const Materials& materials);

}  // namespace heapwright
