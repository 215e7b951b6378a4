#pragma once
/// Areas of the shapes that lawns are measured in.

#include <vector>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// All take lengths ≥ 0; a measured area is length × width and so on, exact. @throws DomainError where no such shape exists
Area rectangle_area(Length length, Length width);
Area ellipse_area(Length length, Length width);  ///< π/4 × length × width, the full axes
Area circle_area(Length diameter);               ///< π/4 × diameter²
Area triangle_area(Length base, Length height);  ///< half of base × height
Area triangle_area(Length a, Length b,
                   Length c);  ///< Heron's formula, in Kahan's stable order. @throws DomainError where no triangle has such sides
Area trapezoid_area(Length parallel_a, Length parallel_b, Length height);  ///< half the sum of the parallel sides × height

/// Of a piece with one straight side, by the widths across it at equal spacings s, h1 to hn from one end to the other:
///
///     s (h1/2 + h2 + … + hn/2), as n − 1 trapezoids        s/3 (h1 + 4 h2 + 2 h3 + … + hn), Simpson's rule
///
/// A width may be zero at an end. @throws DomainError for less than two widths; Simpson's rule wants an odd number of at least three
Area offsets_area(Length spacing, const std::vector<Length>& offsets);
Area offsets_area_by_simpson(Length spacing, const std::vector<Length>& offsets);
bool can_use_simpson(const std::vector<Length>& offsets);

/// Of a piece by the distances from a point inside it to its edge, in n directions equal angles apart, r1 to rn all the way around:
///
///     sin(2π/n)/2 (r1 r2 + r2 r3 + … + rn r1)
///
/// the triangles between them; an edge that curves outward has more. @throws DomainError for less than three
Area radii_area(const std::vector<Length>& radii);

}  // namespace heapwright
