#include "heapwright/working/measures.hpp"

#include "heapwright/units/text.hpp"

namespace heapwright {

const Measures& us_measures() {
  static const Measures measures = [] {
    const Mass pound = unit_size(Dimension::mass, "lb") * unit::kg;
    const Length foot = unit_size(Dimension::length, "ft") * unit::m;
    const Volume cubic_foot = foot * foot * foot;
    const Volume cubic_yard = 27.0 * cubic_foot;
    const double pound_per_cubic_foot = (pound / cubic_foot).value();
    return Measures{{"lb", pound},
                    {"cu ft", cubic_foot},
                    {"gal", unit_size(Dimension::volume, "gal") * unit::m3},
                    {"cu yd", cubic_yard},
                    {"lb/cu yd", pound / cubic_yard},
                    {"lb/cu ft", from_si<WaterDensity>(pound_per_cubic_foot)},
                    {"lb/cu ft", from_si<ParticleDensity>(pound_per_cubic_foot)},
                    {"sq ft", foot * foot},
                    {"ft", foot},
                    {"in", foot / 12.0}};
  }();
  return measures;
}

const Measures& si_measures() {
  static const Measures measures{{"kg", 1.0 * unit::kg},           {"m3", 1.0 * unit::m3},       {"L", 0.001 * unit::m3},
                                 {"m3", 1.0 * unit::m3},           {"kg/m3", bulk_density(1.0)}, {"kg/m3", from_si<WaterDensity>(1.0)},
                                 {"kg/m3", particle_density(1.0)}, {"m2", 1.0 * unit::m2},       {"m", 1.0 * unit::m},
                                 {"mm", 0.001 * unit::m}};
  return measures;
}

}  // namespace heapwright
