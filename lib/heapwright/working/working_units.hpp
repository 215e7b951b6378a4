#pragma once
/// The units that a working is written in: those of a kitchen in the US, or SI.

#include <string>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// A unit by its symbol, and its size.
template <class Quantity>
struct WorkingUnit {
  std::string symbol;
  Quantity one;
  double number(Quantity quantity) const { return quantity / one; }
};

/// A unit for each thing that a working measures.
struct WorkingUnits {
  WorkingUnit<Mass> mass;
  WorkingUnit<Volume> pile;       ///< of piles and what goes into them
  WorkingUnit<Volume> container;  ///< of bags and buckets
  WorkingUnit<Volume> large;      ///< of loads; bulk densities are by it
  WorkingUnit<BulkDensity> density;
  WorkingUnit<WaterDensity> water_density;
  WorkingUnit<ParticleDensity> solids_density;  ///< by the unit of a pile's volume
  WorkingUnit<DryBulkDensity> dry_density;      ///< likewise
  WorkingUnit<Area> area;
  WorkingUnit<Length> side;   ///< of a lawn or a pile
  WorkingUnit<Length> depth;  ///< of compost on it
};

const WorkingUnits& us_working_units();  ///< lb, cu ft, gal, cu yd; sq ft, ft, in
const WorkingUnits& si_working_units();  ///< kg, m3, L; m2, m, mm

}  // namespace heapwright
