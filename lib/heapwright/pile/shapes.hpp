#pragma once
/// The shapes of piles and bins: what each holds, how much of it meets the air, how much ground it covers.
///
/// Plain geometry. All functions take lengths of zero and more, and throw DomainError for negative or infinite ones and for NaN.

#include <optional>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// In m³ and m². A drum off the ground has neither surface nor footprint to speak of.
struct PileSize {
  Volume volume;
  std::optional<Area> surface;  ///< top and sides, without the base
  std::optional<Area> footprint;
};

/// V = l w h        S = l w + 2 (l + w) h        F = l w
PileSize box(Length length, Length width, Length height);

/// An upright cylinder: V = π/4 d² h        S = π/4 d² + π d h        F = π/4 d²
PileSize cylinder(Length diameter, Length height);

/// V = π/12 d² h        S = π/2 d √(d²/4 + h²)        F = π/4 d²
/// V: Math Central, University of Regina, volume of a conical pile, seen.
PileSize cone(Length diameter, Length height);

/// A long pile whose section is the upper half of an ellipse, with upright ends:
///
///     V = π/4 w h l        S = arc · l + 2 · π/4 w h        F = w l
///     arc = 2 a E(k), a = max(w/2, h), b = min(w/2, h), k = √(1 − b²/a²)
///
/// E is the complete elliptic integral of the second kind. At w = 2 h the section is the half circle of New Jersey's Manual on
/// Composting Leaves and Management of Other Yard Trimmings (Strom and Finstein; 1994, updated 2009), Appendix A, seen: V = π/2 h² l.
PileSize semi_elliptic_windrow(Length length, Length width, Length height);

/// A long pile with a flat top and straight slopes, with upright ends:
///
///     V = (t + w)/2 h l        S = (t + 2 √(h² + (w − t)²/4)) l + (t + w) h        F = w l
///
/// @param top_width t, from 0 (a ridge) to the width (a box). @throws DomainError beyond
PileSize flat_topped_windrow(Length length, Length width, Length top_width, Length height);

/// A tumbler: its volume is all there is to it.
PileSize drum(Volume volume);

/// What a site takes in semi-elliptic windrows side by side, with an aisle along each:
///
///     N = site width / (w + a)        V = N π/4 w h · site length = π/4 w h · A / (w + a)
///
/// N is not rounded to whole windrows, and nothing is kept free at their ends.
/// New Jersey's Manual on Composting Leaves and Management of Other Yard Trimmings (Strom and Finstein; 1994, updated 2009),
/// Appendix A and Table A1, seen, there with w = 2 h.
/// @throws DomainError unless w + a > 0
Volume site_capacity(Area site, Length width, Length height, Length aisle);

}  // namespace heapwright
