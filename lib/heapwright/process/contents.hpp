#pragma once
/// What a pile is made of, as the pile model takes it.

#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/mix.hpp"
#include "heapwright/process/parameters.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// Masses by how they rot.
struct PileContents {
  OrganicMass fast;    ///< volatile solids that rot fast
  OrganicMass slow;    ///< and slowly
  OrganicMass inert;   ///< and not within years
  OrganicMass coarse;  ///< of that, wood too coarse for a screen
  DryMass ash;
  WaterMass water;
  NitrogenMass nitrogen;

  /// Of all three kinds, and with the ash.
  OrganicMass volatile_solids() const { return fast + slow + inert; }
  DryMass dry() const { return as_dry_mass(volatile_solids()) + ash; }
};
/// So many times as much of all.
PileContents operator*(double share, const PileContents& contents);

/// A mix in a set of parameters: each part's volatile solids by its feedstock's shares; nitrogen so that the pile starts at the mix's C:N
/// with the model's own carbon, N = cC VS/(C:N). A part whose id the materials lack rots like nothing. What does not rot of coarse material
/// is coarse.
PileContents contents_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble, const ProcessParameters& set);

}  // namespace heapwright
