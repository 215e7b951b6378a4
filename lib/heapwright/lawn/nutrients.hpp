#pragma once
/// What compost of some depth brings to the ground it lies on.

#include <optional>

#include "heapwright/lawn/compost_analysis.hpp"
#include "heapwright/lawn/soil_test.hpp"
#include "heapwright/materials/nutrients.hpp"
#include "heapwright/units/band.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// P2O5 and K2O on an area, kg/m².
using PhosphatePerArea = detail::Ratio<detail::KgPhosphate, boost::units::si::area>;
using PotashPerArea = detail::Ratio<detail::KgPotash, boost::units::si::area>;

/// Of one spreading. Each is nothing where nobody told what the compost holds of it.
struct Nutrients {
  DryMassPerArea dry_matter;                                       ///< typical
  std::optional<LikelyBand<NitrogenPerArea>> nitrogen;             ///< all of it, most of it bound
  std::optional<LikelyBand<NitrogenPerArea>> nitrogen_first_year;  ///< what comes free in the first year; below zero: is tied up
  std::optional<LikelyBand<FreedShare>> freed;                     ///< that share of all nitrogen
  bool ties_up_nitrogen = false;                                   ///< its C:N is above all that set any free: no source of nitrogen
  std::optional<LikelyBand<PhosphatePerArea>> phosphate;
  std::optional<LikelyBand<PotashPerArea>> potash;
};

/// Dry matter on the ground: depth × bulk density × (1 − moisture); each nutrient: that × its content of dry matter. By definition.
///
/// The low end of a total: likely × (1 − √Σ d²), d how far the low end of content, bulk density and dry share each lie below what is
/// typical, relative to it; the high end likewise. Squares add, as independent figures seldom all lie at one end; judged. Ten measured
/// composts brought 2.9 to 9.3 lb of nitrogen to 1000 ft² at a quarter inch (CFTP 2023, derived), where the usual compost of the tables
/// here gets from 2.3 to 7.9.
///
/// Nitrogen of the first year: all nitrogen × the share of its C:N (materials/nutrients.toml, judged). Where the C:N is known as a range
/// the low end is that of its highest, the high end that of its lowest.
/// @throws DomainError for a depth that is not above zero (NaN too)
Nutrients nutrients_of(Length depth, const CompostContents& contents, const NutrientKnowledge& knowledge);

/// What a year's compost covers of the nitrogen that a laboratory recommends for a year.
struct NitrogenCredit {
  NitrogenPerArea recommended;
  LikelyBand<double> share;  ///< first-year nitrogen over recommended; below zero where it is tied up
};
/// times a year × first-year nitrogen / recommended. Nothing where either is not known, or the laboratory recommends none.
std::optional<NitrogenCredit> credit_of(const Nutrients& nutrients, int times_a_year, const std::optional<SoilTest>& soil_test);

}  // namespace heapwright
