#include "heapwright/process/compost_left.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {
namespace {

constexpr double tenth_of_normal = 1.281552;  // standard deviations that hold eight of ten

}  // namespace

DryBulkDensity finished_density(OrganicMatterDryBasis organic, const YieldRule& rule) {
  const DryMass dry = 1.0 * unit::kg_dry;
  const OrganicMass organic_mass = dry * std::clamp(organic, organic_dry_basis(0.0), organic_dry_basis(1.0));
  const Volume volume =
      as_dry_mass(organic_mass) / *rule.organic_density.typical + ash_mass(dry, organic_mass) / *rule.mineral_density.typical;
  return dry / volume;
}

CompostLeft compost_left(DryMass dry, OrganicMass organic, OrganicMass coarse, ShareOfVolume held_back, const YieldRule& rule) {
  CompostLeft left;
  const DryMass passes = dry - as_dry_mass(coarse);
  if (!is_positive(passes)) return left;  // nothing but coarse wood
  left.organic = (organic - coarse) / passes;
  left.dry = held_back.rest() * passes;
  left.volume = left.dry / finished_density(left.organic, rule);
  left.mass = as_is_mass_of(left.dry, *rule.moisture_at_use.typical);
  left.density = left.mass / left.volume;
  return left;
}

CompostYield operator*(double share, const CompostYield& yield) { return {share * yield.low, share * yield.likely, share * yield.high}; }

CompostYield yield_about(Volume likely, double spread_of_dry, const YieldRule& rule) {
  const PublishedValue<ShareOfVolume>& held = rule.held_back_by_screen;
  const double screen = spread_between(held.high->rest() * likely, held.low->rest() * likely);
  const double spread = std::sqrt(rule.density_spread * rule.density_spread + screen * screen + spread_of_dry * spread_of_dry);
  const double times = spread_times(spread);
  return {likely / times, likely, times * likely};
}

double spread_times(double spread) { return std::exp(tenth_of_normal * spread); }

double spread_between(double low, double high) {
  if (!(low > 0.0 && high > low)) return 0.0;
  return std::log(high / low) / (2.0 * tenth_of_normal);
}

}  // namespace heapwright
