#pragma once
/// The units that a working is written in: those of a kitchen in the US, or SI.

#include <string>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// A unit by its symbol, and its size.
template <class Quantity>
struct Measure {
  std::string symbol;
  Quantity one;
  double number(Quantity quantity) const { return quantity / one; }
};

struct Measures {
  Measure<Mass> mass;
  Measure<Volume> pile;       ///< of piles and what goes into them
  Measure<Volume> container;  ///< of bags and buckets
  Measure<Volume> large;      ///< of loads; bulk densities are by it
  Measure<BulkDensity> density;
  Measure<WaterDensity> water_density;
  Measure<ParticleDensity> solids_density;  ///< by the unit of a pile's volume
  Measure<Area> area;
  Measure<Length> side;   ///< of a lawn
  Measure<Length> depth;  ///< of compost on it
};

const Measures& us_measures();  ///< lb, cu ft, gal, cu yd; sq ft, ft, in
const Measures& si_measures();  ///< kg, m3, L; m2, m, mm

}  // namespace heapwright
