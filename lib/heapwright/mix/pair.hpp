#pragma once
/// Two feedstocks: how much of one a given amount of the other wants, and all their mixes from one end to the other, by closed forms.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/feedstock.hpp"
#include "heapwright/mix/mix.hpp"
#include "heapwright/mix/targets.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// As-is mass of a second feedstock that brings a first to a wet-basis moisture goal:
///
///     a = b (M_b − G) / (G − M_a)        b first, a second, G the goal
///
/// @throws DomainError unless the goal lies between the two moistures (one of them may equal it only where a is zero)
/// B.C. Agricultural Composting Handbook, 2nd ed. 1998, Appendix A2/A3; Cornell Composting, Moisture Content; both seen.
Mass mass_for_moisture(Mass first, MoistureWetBasis first_moisture, MoistureWetBasis second_moisture, MoistureWetBasis goal);

/// As-is mass of a second feedstock that brings a first to a C:N goal R:
///
///     a = b (n_b/n_a) (R − R_b)/(R_a − R) (1 − M_b)/(1 − M_a)
///
/// @throws DomainError unless the goal lies between the two ratios
/// Source as above.
Mass mass_for_carbon_to_nitrogen(Mass first, const Properties& first_properties, const Properties& second_properties,
                                 CarbonNitrogenRatio goal);

/// So many shovels of one to so many of the other.
struct PartsOfTwo {
  int first;
  int second;
};

/// The proportions by volume that people think in, from all of the first to all of the second.
inline constexpr std::array<PartsOfTwo, 10> everyday_proportions{
    {{1, 0}, {6, 1}, {4, 1}, {3, 1}, {2, 1}, {3, 2}, {1, 1}, {1, 2}, {1, 4}, {0, 1}}};

/// A mix of two, without added water.
struct PairMix {
  ShareOfLooseVolume by_volume;                           ///< of the first
  ShareOfMass by_mass;                                    ///< of the first
  std::optional<CarbonNitrogenRatio> carbon_to_nitrogen;  ///< none without nitrogen
  MoistureWetBasis moisture;
  WaterDensity water_wanted;  ///< of loose volume, to the moisture aim; none where it is moist enough already
};

/// The shares of the first by loose volume between which something holds, both ends included.
struct PairWindow {
  ShareOfLooseVolume low;
  ShareOfLooseVolume high;
};

/// Whether a share lies in a window, if there is one.
bool holds(const std::optional<PairWindow>& window, ShareOfLooseVolume share);

/// All mixes of two feedstocks.
struct Pair {
  std::string first;  ///< ids
  std::string second;
  std::string first_name;
  std::string second_name;
  std::vector<PairMix> everyday;               ///< one for each of everyday_proportions
  std::vector<PairMix> line;                   ///< from none of the first to all of it, a fortieth of the volume apart
  std::optional<PairWindow> right_ratio;       ///< C:N inside its window; nothing where it never is
  std::optional<PairWindow> right_moisture;    ///< moisture inside its window, without water
  std::optional<PairWindow> both_right;        ///< where the two meet
  std::optional<PairWindow> right_with_water;  ///< C:N inside, and no wetter than its window: water brings the rest
  std::optional<PairMix> at_ratio_aim;         ///< nothing where the aim does not lie between the two
  std::optional<PairMix> at_moisture_aim;
};

/// The mix that has a share s of the first by loose volume. With ρ bulk density, M moisture, c carbon and n nitrogen of dry matter, and
/// D = ρ (1 − M) of a feedstock, all sums weighted by s and 1 − s:
///
///     share of mass = s ρ_1/Σρ      C:N = Σ D c/Σ D n      moisture = Σ ρ M/Σ ρ      water wanted = Σ D · G/(1 − G) − Σ ρ M
///
/// G the moisture aim, below 1; water is wanted only below the moisture window.
/// @throws DomainError unless both have a bulk density above zero
/// Formulas of mix_of(); B.C. handbook as above.
PairMix pair_mix(const Ingredient& first, const Ingredient& second, ShareOfLooseVolume share, const Targets& targets);

/// All mixes of two feedstocks; their masses are not used. A bound on C:N or moisture is a straight line in s, so its interval is exact:
///
///     C:N ≤ R      ⟺  Σ D (c − R n) ≤ 0          moisture ≤ G  ⟺  Σ ρ (M − G) ≤ 0
///
/// @throws DomainError as pair_mix()
Pair pair_of(const Ingredient& first, const Ingredient& second, const Targets& targets);

}  // namespace heapwright
