#include "heapwright/pile/shapes.hpp"

#include <boost/math/special_functions/ellint_2.hpp>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

constexpr double quarter_pi = std::numbers::pi / 4.0;

template <class Quantity>
bool is_size(Quantity quantity) {
  return quantity >= Quantity() && boost::units::isfinite(quantity);
}

void check(std::initializer_list<Length> lengths) {
  for (const Length& length : lengths) {
    if (!is_size(length)) throw DomainError("a pile has no such size", "give lengths of zero or more");
  }
}

/// Half the way round an ellipse, over its width.
Length half_ellipse_arc(Length width, Length height) {
  const auto [b, a] = std::minmax<Length>({0.5 * width, height});
  if (!is_positive(a)) return Length();
  const double flatness = b / a;
  return 2.0 * a * boost::math::ellint_2(std::sqrt((1.0 - flatness) * (1.0 + flatness)));
}

/// A pile of one section all along, with upright ends.
PileSize windrow(Length length, Length width, Area section, Length over_the_top) {
  return {section * length, over_the_top * length + 2.0 * section, width * length};
}

}  // namespace

PileSize box(Length length, Length width, Length height) {
  check({length, width, height});
  return {length * width * height, length * width + 2.0 * (length + width) * height, length * width};
}

PileSize cylinder(Length diameter, Length height) {
  check({diameter, height});
  const Area base = quarter_pi * diameter * diameter;
  return {base * height, base + std::numbers::pi * diameter * height, base};
}

PileSize cone(Length diameter, Length height) {
  check({diameter, height});
  const Area base = quarter_pi * diameter * diameter;
  const Length slope = boost::units::hypot(0.5 * diameter, height);
  return {base * height / 3.0, 2.0 * quarter_pi * diameter * slope, base};
}

PileSize semi_elliptic_windrow(Length length, Length width, Length height) {
  check({length, width, height});
  return windrow(length, width, quarter_pi * width * height, half_ellipse_arc(width, height));
}

PileSize flat_topped_windrow(Length length, Length width, Length top_width, Length height) {
  check({length, width, top_width, height});
  if (!(top_width <= width)) throw DomainError("a windrow is no wider at the top than at the base", "give a top width up to the width");
  const Length slope = boost::units::hypot(0.5 * (width - top_width), height);
  return windrow(length, width, 0.5 * (top_width + width) * height, top_width + 2.0 * slope);
}

PileSize drum(Volume volume) {
  if (!is_size(volume)) throw DomainError("a pile has no such size", "give a volume of zero or more");
  return {volume, std::nullopt, std::nullopt};
}

Volume site_capacity(Area site, Length width, Length height, Length aisle) {
  check({width, height, aisle});
  if (!is_size(site) || !is_positive(width + aisle))
    throw DomainError("there is no such site", "give its area, and a width of the windrows");
  return quarter_pi * width * height * (site / (width + aisle));
}

}  // namespace heapwright
