#pragma once
/// What some matter consists of. Amounts add and scale, so a blend is the sum of what goes into it.

#include "heapwright/mix/formula.hpp"
#include "heapwright/mix/mix.hpp"

namespace heapwright {

/// Masses and volumes of what is in some matter.
struct Constituents {
  WaterMass water;
  DryMass dry;
  CarbonMass carbon;
  NitrogenMass nitrogen;
  OrganicMass organic_matter;
  Volume loose;   ///< as it lies; nothing of what has no density
  Volume solids;  ///< of the dry matter itself

  /// Dry matter and water together.
  Mass mass() const { return as_is_mass(dry, water); }

  /// Each of them by itself.
  Constituents& operator+=(const Constituents& more) {
    water += more.water;
    dry += more.dry;
    carbon += more.carbon;
    nitrogen += more.nitrogen;
    organic_matter += more.organic_matter;
    loose += more.loose;
    solids += more.solids;
    return *this;
  }
  /// The same of two, and so many times one.
  friend Constituents operator+(Constituents one, const Constituents& other) { return one += other; }
  friend Constituents operator*(double times, const Constituents& one) {
    return {times * one.water,          times * one.dry,   times * one.carbon, times * one.nitrogen,
            times * one.organic_matter, times * one.loose, times * one.solids};
  }
};

/// What a mass of something consists of, by formula.hpp.
inline Constituents constituents_of(const Properties& properties, const std::optional<BulkDensity>& density, Mass mass) {
  using namespace mix_formula;
  const DryMass dry = dry_mass(mass, properties.moisture);
  return {WaterMass(water(mass, properties.moisture)),
          dry,
          CarbonMass(part_of_dry_matter(dry, properties.carbon)),
          NitrogenMass(part_of_dry_matter(dry, properties.nitrogen)),
          OrganicMass(part_of_dry_matter(dry, properties.organic_matter)),
          density ? Volume(loose_volume(mass, *density)) : Volume(),
          Volume(solids_volume(dry, properties.particle_density))};
}
inline Constituents constituents_of(const Matter& matter) { return constituents_of(matter.properties, matter.density, matter.mass); }

/// The share of air in a volume V that some matter fills, with its water: 1 − (S + W/1000)/V, V > 0; below zero where they do not fit.
inline double share_of_air(const Constituents& of, Volume volume) { return mix_formula::air(of.solids, of.water, water_density(), volume); }

}  // namespace heapwright
