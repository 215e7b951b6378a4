#pragma once
/// How a pile lies once it has settled: how dense, how high, and how much of it meets the air.

#include <optional>

#include "heapwright/pile/description.hpp"
#include "heapwright/process/parameters.hpp"
#include "heapwright/process/pile.hpp"

namespace heapwright {

/// The density that a mix settles to in its first days, in kg of dry matter per m³:
///
///     ρ = f · h^0.2 / Σ (x_i/ρ_i)        h in m, at least 1        at most 0.80/(1/1500 + w/1000)        at least as it was filled in
///
/// x_i the materials' shares of the dry matter, ρ_i what each settles to by itself (process.toml), f a factor that each set draws, w the
/// water over the dry matter. Volumes add: what is small and moist fills what is empty between the rest. The upper bound leaves a fifth
/// of air. Judged; README.md beside this file says from what, and how far it can be trusted.
struct SettledDensity {
  DryBulkDensity one_metre_high;  ///< at f = 1
  DryBulkDensity least;           ///< as filled in
  DryBulkDensity most;            ///< with a fifth of air
  bool weighed = false;           ///< then it is what was weighed, at any height

  /// At a height, with the f of a set: max(least, min(most, f h^0.2 × one_metre_high)).
  DryBulkDensity at(Length height, double factor) const;
};

/// @param mix of some dry matter, and a volume
/// @param weighed of the pile as it lies, where somebody weighed one
SettledDensity settled_density_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble,
                                  std::optional<BulkDensity> weighed = std::nullopt);

/// The height, surface and ground of so much settled matter.
struct LyingPile {
  Length height;
  Area exposed;  ///< top and sides
  Area plan;
};

/// In a bin it lies flat, but little in a wide one is heaped up: no further spread than where least of it meets the air, half as high as
/// wide in a square one. Freely, and as a cone, it is half a ball with 15 % more surface for its slopes, as the model was calibrated; a
/// windrow is smaller all round, and never meets the air more than that. The contents of a tumbler are taken as a cube on its
/// base, as small bins were in the calibration. Of a settled volume V, in m:
///
///     free     r = (3 V/2π)^(1/3)        exposed = 1.15 · 2π r²        height = r        drum   exposed = 5 V^(2/3)
///     in a bin of floor F and perimeter P        s = min(1, (P V/(2 F²))^(1/3))
///              plan = s² F        exposed = s² F + P V/(F s)        height = V/(s² F)
///
/// Judged.
LyingPile lying(const std::optional<PileDescription>& pile, Volume settled);

/// So much dry matter of a mix as it lies. Height and density hang together; three rounds from 1 m settle both.
SettledShape settled_shape(DryMass dry, const SettledDensity& density, double factor, const std::optional<PileDescription>& pile);

}  // namespace heapwright
