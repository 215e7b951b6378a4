#include "heapwright/working/working_units.hpp"

namespace heapwright {

const WorkingUnits& us_working_units() {
  static const WorkingUnits units{{"lb", unit::pound},
                                  {"cu ft", unit::cubic_foot},
                                  {"gal", unit::gallon},
                                  {"cu yd", unit::cubic_yard},
                                  {"lb/cu yd", unit::pound / unit::cubic_yard},
                                  {"lb/cu ft", unit::pound / unit::cubic_foot * (unit::kg_water / unit::kg)},
                                  {"lb/cu ft", unit::pound / unit::cubic_foot * (unit::kg_dry / unit::kg)},
                                  {"lb/cu ft", unit::pound / unit::cubic_foot * (unit::kg_dry / unit::kg)},
                                  {"sq ft", unit::square_foot},
                                  {"ft", unit::foot},
                                  {"in", unit::inch}};
  return units;
}

const WorkingUnits& si_working_units() {
  static const WorkingUnits units{{"kg", 1.0 * unit::kg},
                                  {"m3", 1.0 * unit::m3},
                                  {"L", unit::liter},
                                  {"m3", 1.0 * unit::m3},
                                  {"kg/m3", bulk_density(1.0)},
                                  {"kg/m3", from_si<WaterDensity>(1.0)},
                                  {"kg/m3", particle_density(1.0)},
                                  {"kg/m3", dry_bulk_density(1.0)},
                                  {"m2", 1.0 * unit::m2},
                                  {"m", 1.0 * unit::m},
                                  {"mm", 0.001 * unit::m}};
  return units;
}

}  // namespace heapwright
