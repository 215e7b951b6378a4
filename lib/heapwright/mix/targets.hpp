#pragma once
/// What a pile should be: windows for C:N, moisture and air.

#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// Between what a figure is right, and what it should be.
template <class Quantity>
struct Window {
  Quantity low;
  Quantity aim;
  Quantity high;
};

/// Bounds are compared within this, relative: a C:N of 25:1 is inside 25–35, however it was worked out.
inline constexpr double of_a_bound = 1e-9;

/// The lowest that still counts as at a bound.
template <class Quantity>
Quantity just_below(Quantity bound) {
  return (1.0 - of_a_bound) * bound;
}
/// The highest that does.
template <class Quantity>
Quantity just_above(Quantity bound) {
  return (1.0 + of_a_bound) * bound;
}

/// Whether a value lies in a window, its bounds included. NaN does not.
template <class Quantity>
bool is_inside(Quantity value, const Window<Quantity>& window) {
  return just_below(window.low) <= value && value <= just_above(window.high);
}

/// Common practice: C:N 25 to 35 about 30, moisture 50 to 60 % about 55 %, at least 35 % air.
/// Published ranges, both seen: LSU AgCenter 3838-D has C:N 20 to 40, preferred 25 to 30, and moisture 40 to 65 %, preferred 50 to 55 %;
/// Manitoba Agriculture C:N 20 to 40 (25 to 30) and moisture 40 to 70 % (50 to 60 %). LSU asks for a porosity of more than 40 %.
struct Targets {
  Window<CarbonNitrogenRatio> carbon_to_nitrogen{carbon_to_nitrogen_(25), carbon_to_nitrogen_(30), carbon_to_nitrogen_(35)};
  Window<MoistureWetBasis> moisture{wet_basis(0.50), wet_basis(0.55), wet_basis(0.60)};
  AirSpace least_air = AirSpace::of(0.35);

 private:
  static CarbonNitrogenRatio carbon_to_nitrogen_(double ratio) { return heapwright::carbon_to_nitrogen(ratio); }
};

/// C:N 20 to 40 and moisture 40 to 65 %, acceptable beside what is preferred (LSU, above); no narrower than the targets.
Targets acceptable_windows(Targets targets);

Targets read_targets(Table& root);  ///< [targets]

}  // namespace heapwright
