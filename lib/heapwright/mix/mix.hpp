#pragma once
/// What a blend of feedstocks is: its carbon, nitrogen, water, volume and air.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/feedstock.hpp"
#include "heapwright/units/band.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// So much of something, and what it is.
struct Matter {
  Properties properties;
  std::optional<BulkDensity> density;  ///< as it lies; without it a blend has no volume
  Mass mass;
};

/// A feedstock as it goes into a blend.
struct Ingredient : Matter {
  std::string id;
  std::string name;
  std::string packing;
  int supply = 0;  ///< its number in the yard; 0: none of a yard's
};

/// Ingredients, added water, and how far the pile settles.
struct Blend {
  std::vector<Ingredient> ingredients;
  WaterMass added_water;
  ShareOfLooseVolume settling = ShareOfLooseVolume::of(1.0);  ///< settled pile volume over loose volume
};

/// An ingredient's part of a mix. Volumes are loose.
struct MixPart {
  std::string id;
  std::string name;
  Mass mass;
  std::optional<Volume> volume;
  std::optional<ShareOfLooseVolume> share;
  DryMass dry;
  OrganicMass organic_matter;
  int supply = 0;
  WaterMass water{};  ///< its own
  CarbonMass carbon{};
  NitrogenMass nitrogen{};
};

/// Between what a mix lies, since the figures of its feedstocks do: eight times in ten (ranges.hpp).
struct MixRanges {
  std::optional<Band<CarbonNitrogenRatio>> carbon_to_nitrogen;
  Band<MoistureWetBasis> moisture;
  std::optional<Band<AirLeft>> air_space;
  /// These rank choices; they are no calibrated probabilities.
  double chance_carbon_to_nitrogen_in_window = 0.0;
  double chance_moisture_in_window = 0.0;
  std::string ratio_rests_on;     ///< the assumption that spreads C:N most, in its words
  std::string moisture_rests_on;  ///< and moisture
};

/// The C:N of what rots in a season, where much of a mix does not: wood, old compost (plan/what_rots.hpp).
struct WhatRots {
  CarbonNitrogenRatio carbon_to_nitrogen;
  std::vector<std::string> hardly_rots;  ///< names of what most of the rest is
};

/// What a blend is.
struct Mix {
  Mass mass;
  DryMass dry;
  WaterMass water;
  CarbonMass carbon;
  NitrogenMass nitrogen;
  OrganicMass organic_matter;
  std::optional<CarbonNitrogenRatio> carbon_to_nitrogen;  ///< none without nitrogen
  std::optional<MoistureWetBasis> moisture;               ///< none of nothing
  std::optional<Volume> volume;                           ///< settled
  std::optional<BulkDensity> bulk_density;                ///< settled
  std::optional<AirLeft> air_space;
  std::vector<MixPart> parts;
  std::optional<MixRanges> ranges;    ///< where they were drawn
  std::optional<WhatRots> what_rots;  ///< where it was looked for, and much hardly rots
};

/// Whether all that goes into a blend has a density.
bool has_volume(const Blend& blend);

/// The composition of a blend, by formula.hpp. With as-is masses m, wet-basis moistures M, dry-basis carbon c and nitrogen n, bulk
/// densities ρ, particle densities p, added water w and settling k:
///
///     water W = Σ m M + w        dry D = Σ m (1 − M)        C = Σ m (1 − M) c        N = Σ m (1 − M) n
///     C:N = C/N        moisture = W/(W + D)        volume V = k Σ m/ρ
///     air space = 1 − Σ m (1 − M)/p / V − W/(1000 kg/m³)/V, below 0 where they do not fit in V
///
/// The ratio is of the sums: averaging the C:N ratios of the parts gives another, wrong number. Volumes are added as if nothing
/// settled between coarse pieces, so a pile of leaves and scraps comes out lower than this. Air space reads up to 9 points
/// above the lines of Su, McCartney and Wang at 700 kg/m³ (tests/reference tabulates it).
/// Mix formulas: B.C. Agricultural Composting Handbook, 2nd ed. 1998, Appendix A2/A3, seen. Air space: by definition.
Mix mix_of(const Blend& blend);

/// Water that brings a mix to a moisture goal G below 1, none where it is as moist already: D G/(1 − G) − W.
WaterMass water_to(const Mix& mix, MoistureWetBasis goal);

}  // namespace heapwright
