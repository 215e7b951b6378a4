#pragma once
/// Contents as a laboratory tells them of a sample as it was received, wet. They are types of their own: none passes for one of dry matter,
/// and only to_dry_basis() leads there.

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// Mass of a constituent in as-is mass: kg/kg.
using NitrogenWetBasis = detail::Ratio<detail::KgNitrogen, detail::Kg>;
using PhosphateWetBasis = detail::Ratio<detail::KgPhosphate, detail::Kg>;
using PotashWetBasis = detail::Ratio<detail::KgPotash, detail::Kg>;
using OrganicMatterWetBasis = detail::Ratio<detail::KgOrganic, detail::Kg>;

namespace detail {
template <class DryBasis, class WetBasis>
DryBasis of_dry_matter(WetBasis content, MoistureWetBasis moisture) {
  return DryBasis::from_value(content.value() / (1.0 - moisture.value()));
}
}  // namespace detail

/// c / (1 − M): of as-is mass to of dry matter; M the wet-basis moisture in [0, 1). By definition.
inline NitrogenDryBasis to_dry_basis(NitrogenWetBasis content, MoistureWetBasis moisture) {
  return detail::of_dry_matter<NitrogenDryBasis>(content, moisture);
}
inline PhosphateDryBasis to_dry_basis(PhosphateWetBasis content, MoistureWetBasis moisture) {
  return detail::of_dry_matter<PhosphateDryBasis>(content, moisture);
}
inline PotashDryBasis to_dry_basis(PotashWetBasis content, MoistureWetBasis moisture) {
  return detail::of_dry_matter<PotashDryBasis>(content, moisture);
}
inline OrganicMatterDryBasis to_dry_basis(OrganicMatterWetBasis content, MoistureWetBasis moisture) {
  return detail::of_dry_matter<OrganicMatterDryBasis>(content, moisture);
}

/// ρ (1 − M): dry matter of a volume of compost; M in [0, 1]. By definition.
inline DryBulkDensity dry_density_of(BulkDensity density, MoistureWetBasis moisture) {
  return dry_bulk_density(density.value() * (1.0 - moisture.value()));
}
/// ρd / (1 − M): the same compost with its water; M in [0, 1).
inline BulkDensity wet_density_of(DryBulkDensity density, MoistureWetBasis moisture) {
  return bulk_density(density.value() / (1.0 - moisture.value()));
}

}  // namespace heapwright
