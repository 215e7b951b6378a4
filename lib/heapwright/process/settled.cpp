#include "heapwright/process/settled.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;

constexpr double packs_with_height = 0.2;
constexpr double least_height_m = 1.0;  // below this nothing is known to be looser
constexpr double most_solid_and_wet = 0.80;
constexpr double slopes = 1.15;  // a free pile's surface over half a ball's
constexpr double pile_over_plan = 2.0 * slopes;
constexpr double sides_of_box = 5.0;  // of a cube without its base
constexpr int rounds_of_height = 3;

double radius_of_half_ball(Volume volume) { return std::cbrt(3.0 * volume.value() / (2.0 * pi)); }

LyingPile free_pile(Volume settled) {
  const double radius = radius_of_half_ball(settled);
  const double plan = pi * radius * radius;
  return {radius * unit::m, pile_over_plan * plan * unit::m2, plan * unit::m2};
}

/// As the small bins of the trials were taken: a cube on its base.
LyingPile in_drum(Volume settled) {
  const double side = std::cbrt(settled.value());
  return {side * unit::m, sides_of_box * side * side * unit::m2, Area()};
}

/// Upright walls about a floor. Spread over a floor smaller by s² it has s² floor + walls/s to the air, least at s³ = walls/(2 floor).
LyingPile between_walls(double floor, double around, Volume settled) {
  const double walls = around * settled.value() / floor;
  const double narrower = std::min(1.0, std::cbrt(walls / (2.0 * floor)));
  const double plan = narrower * narrower * floor;
  return {settled.value() / plan * unit::m, (plan + walls / narrower) * unit::m2, plan * unit::m2};
}

/// A windrow that keeps its slopes, unless it would meet the air less as a pile.
LyingPile with_slopes(const PileDescription& pile, Volume settled) {
  const LyingPile freely = free_pile(settled);
  const PileDescription part = filled_to(pile, (settled / size_of(pile).volume).value());
  const PileSize size = size_of(part);
  return *size.surface < freely.exposed ? LyingPile{*part.height, *size.surface, *size.footprint} : freely;
}

}  // namespace

DryBulkDensity SettledDensity::at(Length height, double factor) const {
  const double higher = weighed ? 1.0 : std::pow(std::max(least_height_m, height.value()), packs_with_height);
  return std::max(least, std::min<DryBulkDensity>(most, factor * higher * one_metre_high));
}

SettledDensity settled_density_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble,
                                  std::optional<BulkDensity> weighed) {
  SettledDensity density;
  const double water = (mix.water / mix.dry).value();
  density.most = dry_bulk_density(most_solid_and_wet / (1.0 / particle_kg_per_m3 + water / water_kg_per_m3));
  if (weighed) {
    density.weighed = true;
    density.one_metre_high = *weighed * (mix.dry / mix.mass);
    density.most = std::max(density.most, density.one_metre_high);
    return density;
  }
  double volume = 0.0;
  for (const MixPart& part : mix.parts) {
    const Feedstock* row = row_with_id(*materials.feedstocks, part.id);
    const DryBulkDensity own = row != nullptr ? ensemble.settling_of(*row).density : ensemble.settling.at(RottingMaterial::nothing).density;
    volume += (part.dry / own).value();
  }
  density.one_metre_high = mix.dry / (volume * unit::m3);
  if (mix.volume) density.least = mix.dry / *mix.volume;
  return density;
}

LyingPile lying(const std::optional<PileDescription>& pile, Volume settled) {
  if (!pile) return free_pile(settled);
  switch (pile->shape) {
    case PileShape::bin: {
      const double length = pile->length->value();
      const double width = pile->width->value();
      return between_walls(length * width, 2.0 * (length + width), settled);
    }
    case PileShape::round: {
      const double diameter = pile->diameter->value();
      return between_walls(pi / 4.0 * diameter * diameter, pi * diameter, settled);
    }
    case PileShape::tumbler: return in_drum(settled);
    case PileShape::cone: return free_pile(settled);
    case PileShape::windrow: return with_slopes(*pile, settled);
  }
  return free_pile(settled);
}

SettledShape settled_shape(DryMass dry, const SettledDensity& density, double factor, const std::optional<PileDescription>& pile) {
  Length height = least_height_m * unit::m;
  SettledShape shape;
  for (int round = 0; round < rounds_of_height; ++round) {
    shape.volume = dry / density.at(height, factor);
    const LyingPile lies = lying(pile, shape.volume);
    height = lies.height;
    shape.exposed = lies.exposed;
    shape.plan = lies.plan;
  }
  return shape;
}

}  // namespace heapwright
