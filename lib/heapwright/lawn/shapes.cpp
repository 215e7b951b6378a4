#include "heapwright/lawn/shapes.hpp"

#include <algorithm>
#include <array>
#include <numbers>

#include "heapwright/error.hpp"

namespace heapwright {

Area rectangle_area(Length length, Length width) { return length * width; }

Area ellipse_area(Length length, Length width) { return std::numbers::pi / 4.0 * length * width; }

Area circle_area(Length diameter) { return ellipse_area(diameter, diameter); }

Area triangle_area(Length base, Length height) { return 0.5 * base * height; }

Area triangle_area(Length side_a, Length side_b, Length side_c) {
  std::array<Length, 3> sides{side_a, side_b, side_c};
  std::sort(sides.begin(), sides.end(), std::greater<>());
  const auto [a, b, c] = sides;
  if (!(c - (a - b) >= Length()))
    throw DomainError("no triangle has such sides: the longest is longer than the other two together", "measure the three sides again");
  // W. Kahan's arrangement of Heron's formula: the brackets matter for needle-like triangles.
  return 0.25 * boost::units::sqrt((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c)));
}

Area trapezoid_area(Length parallel_a, Length parallel_b, Length height) { return 0.5 * (parallel_a + parallel_b) * height; }

}  // namespace heapwright
