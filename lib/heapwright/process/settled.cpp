#include "heapwright/process/settled.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;

constexpr double packs_with_height = 0.2;
constexpr Length least_height = 1.0 * unit::m;  // below this nothing is known to be looser
constexpr double most_solid_and_wet = 0.80;
constexpr double slopes = 1.15;  // a free pile's surface over half a ball's
constexpr double pile_over_plan = 2.0 * slopes;
constexpr double sides_of_box = 5.0;  // of a cube without its base
constexpr int rounds_of_height = 3;

Length radius_of_half_ball(Volume volume) { return boost::units::root<3>(3.0 * volume / (2.0 * pi)); }

LyingPile free_pile(Volume settled) {
  const Length radius = radius_of_half_ball(settled);
  const Area plan = pi * radius * radius;
  return {radius, pile_over_plan * plan, plan};
}

/// As the small bins of the trials were taken: a cube on its base.
LyingPile in_drum(Volume settled) {
  const Length side = boost::units::root<3>(settled);
  return {side, sides_of_box * side * side, Area()};
}

/// Upright walls about a floor. Spread over a floor smaller by s² it has s² floor + walls/s to the air, least at s³ = walls/(2 floor).
LyingPile between_walls(Area floor, Length around, Volume settled) {
  const Area walls = around * settled / floor;
  const double narrower = std::min(1.0, std::cbrt(walls / (2.0 * floor)));
  const Area plan = narrower * narrower * floor;
  return {settled / plan, plan + walls / narrower, plan};
}

/// A windrow that keeps its slopes, unless it would meet the air less as a pile.
LyingPile with_slopes(const PileDescription& pile, Volume settled) {
  const LyingPile freely = free_pile(settled);
  const PileDescription part = filled_to(pile, settled / size_of(pile).volume);
  const PileSize size = size_of(part);
  return *size.surface < freely.exposed ? LyingPile{*part.height, *size.surface, *size.footprint} : freely;
}

}  // namespace

DryBulkDensity SettledDensity::at(Length height, double factor) const {
  const double higher = std::max(least_height, height) / least_height;
  const double denser = weighed ? 1.0 : std::pow(higher, packs_with_height);
  return std::max(least, std::min<DryBulkDensity>(most, factor * denser * one_metre_high));
}

SettledDensity settled_density_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble,
                                  std::optional<BulkDensity> weighed) {
  SettledDensity density;
  const Volume solid_and_wet = mix.dry / density_of_solids + mix.water / water_density();
  density.most = most_solid_and_wet * mix.dry / solid_and_wet;
  if (weighed) {
    density.weighed = true;
    density.one_metre_high = *weighed * (mix.dry / mix.mass);
    density.most = std::max(density.most, density.one_metre_high);
    return density;
  }
  Volume volume;
  for (const MixPart& part : mix.parts) {
    const Feedstock* row = row_with_id(*materials.feedstocks, part.id);
    const DryBulkDensity own = row != nullptr ? ensemble.settling_of(*row).density : ensemble.settling.at(RottingMaterial::nothing).density;
    volume += Volume(part.dry / own);
  }
  density.one_metre_high = mix.dry / volume;
  if (mix.volume) density.least = mix.dry / *mix.volume;
  return density;
}

LyingPile lying(const std::optional<PileDescription>& pile, Volume settled) {
  if (!pile) return free_pile(settled);
  switch (pile->shape) {
    case PileShape::bin: return between_walls(*pile->length * *pile->width, 2.0 * (*pile->length + *pile->width), settled);
    case PileShape::round: return between_walls(pi / 4.0 * *pile->diameter * *pile->diameter, pi * *pile->diameter, settled);
    case PileShape::tumbler: return in_drum(settled);
    case PileShape::cone: return free_pile(settled);
    case PileShape::windrow: return with_slopes(*pile, settled);
  }
  return free_pile(settled);
}

SettledShape settled_shape(DryMass dry, const SettledDensity& density, double factor, const std::optional<PileDescription>& pile) {
  Length height = least_height;
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
