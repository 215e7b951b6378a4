#include "heapwright/lawn/shapes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
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

Area offsets_area(Length spacing, const std::vector<Length>& offsets) {
  if (offsets.size() < 2) throw DomainError("a width alone has no area", "measure the width at each end and at equal spacings between");
  Length widths = 0.5 * (offsets.front() + offsets.back());
  for (std::size_t i = 1; i + 1 < offsets.size(); ++i) widths += offsets[i];
  return spacing * widths;
}

bool can_use_simpson(const std::vector<Length>& offsets) { return offsets.size() >= 3 && offsets.size() % 2 == 1; }

Area offsets_area_by_simpson(Length spacing, const std::vector<Length>& offsets) {
  if (!can_use_simpson(offsets))
    throw DomainError("Simpson's rule wants an odd number of widths", "measure at an even number of equal spacings");
  Length widths = offsets.front() + offsets.back();
  for (std::size_t i = 1; i + 1 < offsets.size(); ++i) widths += (i % 2 == 1 ? 4.0 : 2.0) * offsets[i];
  return spacing / 3.0 * widths;
}

Area radii_area(const std::vector<Length>& radii) {
  if (radii.size() < 3)
    throw DomainError("fewer than three distances go around nothing", "measure in six or more directions, equal angles apart");
  Area products;
  for (std::size_t i = 0; i < radii.size(); ++i) products += radii[i] * radii[(i + 1) % radii.size()];
  return 0.5 * std::sin(2.0 * std::numbers::pi / static_cast<double>(radii.size())) * products;
}

}  // namespace heapwright
