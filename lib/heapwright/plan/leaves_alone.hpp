#pragma once
/// What to do with leaves where nothing green comes: that is no failure.

#include <optional>

#include "heapwright/recipe/recipe.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// All of them shared out: no leaf is counted twice.
struct LeavesAlone {
  RecipeAmount all;
  RecipeAmount keep;                  ///< dry, for the pile to be built of the first clippings
  RecipeAmount clippings;             ///< for that pile
  WaterMass water;                    ///< likewise
  Date build;                         ///< from this day on, when lawns are first mown
  std::optional<RecipeAmount> mulch;  ///< mown into the lawn; nothing where no lawn is measured, or it is no time for it
  std::optional<RecipeAmount> mold;   ///< piled damp, the rest
};

/// Of a yard whose supplies are all leaves; nothing for any other, and where none is there on the day.
std::optional<LeavesAlone> leaves_alone_of(const Yard& yard, Date today);

/// The most dry leaves that a lawn is well known to take mulched in, once a year: 0.54 kg/m² without harm in three years (Nektarios,
/// Petrovic and Sender, Cornell, J. Turfgrass Management 3:69, 1999, seen).
inline constexpr DryMassPerArea most_mulched_leaves = 0.54 * unit::kg_dry / unit::m2;

/// Whether a yard's supplies are all fresh greens: clippings, scraps.
bool has_greens_alone(const Yard& yard);

}  // namespace heapwright
