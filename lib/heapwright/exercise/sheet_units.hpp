#pragma once
/// The units that a sheet reckons in, and what is tidy in them.

#include <vector>

#include "heapwright/working/working_units.hpp"

namespace heapwright {

/// One of two: pounds and feet, or kilograms and meters.
struct SheetUnits {
  const WorkingUnits* working;  ///< never null
  WorkingUnit<Mass> small;      ///< of a handful
  std::vector<Mass> handfuls;   ///< wet
  Mass weighed_to;              ///< a handful on a kitchen scale
  std::vector<Mass> bowls;
  std::vector<Mass> heaps;  ///< so much of something that goes into a pile
  std::vector<Area> lawns;  ///< whose volume comes out even
  std::vector<Length> lawn_sides;
  std::vector<Length> bed_sides;  ///< of what is cut out of them
  Length spread_depth;            ///< a quarter inch, 6 mm
  WorkingUnit<Volume> spread;     ///< of compost on a lawn whose area is given
  Area lawn_measure;              ///< what nutrients are counted on
  std::vector<BulkDensity> compost_densities;
  double large_volume_step;  ///< what large volumes are rounded to
  bool metric;
};

/// The only two.
const SheetUnits& us_sheet_units();
const SheetUnits& si_sheet_units();

}  // namespace heapwright
