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

}  // namespace heapwright
