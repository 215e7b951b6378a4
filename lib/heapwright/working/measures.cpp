#include "heapwright/working/measures.hpp"

namespace heapwright {

const Measures& us_measures() {
  static const Measures measures = [] {
    const double pound_per_cubic_foot = value_in(unit::kg / unit::m3, unit::pound / unit::cubic_foot);
    return Measures{{"lb", unit::pound},
                    {"cu ft", unit::cubic_foot},
                    {"gal", unit::gallon},
                    {"cu yd", unit::cubic_yard},
                    {"lb/cu yd", unit::pound / unit::cubic_yard},
                    {"lb/cu ft", from_si<WaterDensity>(pound_per_cubic_foot)},
                    {"lb/cu ft", from_si<ParticleDensity>(pound_per_cubic_foot)},
                    {"sq ft", unit::square_foot},
                    {"ft", unit::foot},
                    {"in", unit::inch}};
  }();
  return measures;
}

const Measures& si_measures() {
  static const Measures measures{{"kg", 1.0 * unit::kg},           {"m3", 1.0 * unit::m3},       {"L", unit::liter},
                                 {"m3", 1.0 * unit::m3},           {"kg/m3", bulk_density(1.0)}, {"kg/m3", from_si<WaterDensity>(1.0)},
                                 {"kg/m3", particle_density(1.0)}, {"m2", 1.0 * unit::m2},       {"m", 1.0 * unit::m},
                                 {"mm", 0.001 * unit::m}};
  return measures;
}

}  // namespace heapwright
