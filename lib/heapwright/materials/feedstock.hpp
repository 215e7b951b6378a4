#pragma once
/// What goes into a pile, with every published figure of it.

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "heapwright/materials/published_value.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// How a recipe treats a feedstock.
enum class FeedstockClass {
  must_go,     ///< will not keep: scraps, coffee grounds
  clippings,   ///< may stay on the lawn
  keeper,      ///< keeps dry: leaves, straw, wood
  supplement,  ///< a bought nitrogen source, taken sparingly
  mineral,     ///< no organic matter to speak of: soil, eggshell
};

/// "must-go".
std::string_view class_word(FeedstockClass feedstock_class);

/// What becomes of what is left of it. Common practice, no source.
enum class LeftOver {
  nothing,          ///< it keeps as it is
  covered,          ///< manure: under a cover, away from water, until browns come in
  under_browns,     ///< scraps: browns over them as more come in
  on_the_lawn,      ///< clippings: no waste where they lie
  yard_waste_cart,  ///< other greens
  leaf_mold,        ///< leaves: kept dry, or piled up moist by themselves
  mulch,            ///< other browns: kept dry, or spread
  wood_mulch,       ///< chips and bark: spread on paths and beds
};
/// Each with its word in feedstocks.toml.
const std::vector<std::pair<std::string, LeftOver>>& left_over_words();
/// Of a feedstock whose row does not say.
LeftOver usual_left_over(FeedstockClass feedstock_class);

/// Supplements and minerals: a pile takes as little of them as it can.
inline bool is_sparing(FeedstockClass feedstock_class) {
  return feedstock_class == FeedstockClass::supplement || feedstock_class == FeedstockClass::mineral;
}

/// A way in which a feedstock lies: leaves differ ten-fold in density.
struct Packing {
  std::string name;
  PublishedValues<BulkDensity> values;
};

/// The materials whose rotting is known; a feedstock rots like one of them (process.toml).
enum class RottingMaterial {
  leaves,
  grass,
  food,
  wood_chips,
  sawdust,
  straw,
  paper,
  manure,
  horse_bedding,
  coffee,
  shrub,
  yard_trimmings,
  nothing
};
/// Each with its word in process.toml.
const std::vector<std::pair<std::string, RottingMaterial>>& rotting_material_words();

/// Shares of the volatile solids that decay fast and slowly; for the forecast.
struct Degradable {
  PublishedValue<ShareOfVolatileSolids> fast;
  PublishedValue<ShareOfVolatileSolids> slow;
};

/// What a mix needs to know of a feedstock.
struct Properties {
  MoistureWetBasis moisture;
  CarbonDryBasis carbon;
  NitrogenDryBasis nitrogen;
  OrganicMatterDryBasis organic_matter;
  ParticleDensity particle_density;  ///< of the dry solids
};

/// A row of feedstocks.toml: all published values of each property. The used_…() functions say which figure a mix goes by.
struct Feedstock {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  FeedstockClass feedstock_class = FeedstockClass::keeper;
  std::vector<std::string> tags;
  std::string note;
  std::string like;  ///< the row that a user's own one is held against
  std::string usual_packing;
  std::string usual_container = "bucket";  ///< what people count it in
  bool easy_to_get = false;                ///< most people can find or buy some
  LeftOver left_over = LeftOver::mulch;    ///< what becomes of what is left of it
  PublishedValues<Duration> keeps;         ///< how long a fresh one may wait for the pile; by its class where empty
  PublishedValues<MoistureWetBasis> moisture;
  PublishedValues<CarbonDryBasis> carbon;
  PublishedValues<CarbonNitrogenRatio> carbon_to_nitrogen;
  PublishedValues<NitrogenDryBasis> nitrogen;
  PublishedValues<OrganicMatterDryBasis> volatile_solids;
  PublishedValues<ShareOfDryMatter> ash;
  std::vector<Packing> packings;
  std::optional<ParticleDensity> particle_density;
  std::optional<Degradable> degradable;
  std::optional<RottingMaterial> rots_like;  ///< by its class where absent

  /// Whether its row has a tag: "manure".
  bool has_tag(std::string_view tag) const;

  /// Which of its figures follow from others, since there is none of their own.
  bool carbon_follows() const;          ///< from nitrogen and C:N
  bool nitrogen_follows() const;        ///< from carbon and C:N, whatever its own: they are averages of other samples
  bool organic_matter_follows() const;  ///< from carbon

  /// Carbon of dry matter: as measured, or nitrogen × C:N.
  std::optional<CarbonDryBasis> used_carbon() const;
  /// Nitrogen of dry matter: carbon over C:N; from its own values only where there is no C:N.
  std::optional<NitrogenDryBasis> used_nitrogen() const;
  /// Its own C:N, else carbon over nitrogen.
  std::optional<CarbonNitrogenRatio> used_carbon_to_nitrogen() const;
  /// Organic matter of dry matter; where not measured organic_matter_per_carbon × carbon, at most 100 %.
  std::optional<OrganicMatterDryBasis> used_organic_matter() const;

  /// All that a mix needs, or nothing where lacks() is not empty but for the density.
  std::optional<Properties> properties() const;

  /// Nothing where it has no such packing.
  const Packing* find_packing(std::string_view packing) const;
  /// Bulk density of a packing, of the usual one where the name is empty.
  std::optional<BulkDensity> density(std::string_view packing = {}) const;

  /// How long it may wait for the pile where it is not stored dry: as its row says, else clippings 3 days and all else 14; judged.
  Duration used_keeps() const;

  /// What is missing for a mix: "moisture", "carbon", "C:N", "bulk density".
  std::vector<std::string> lacks() const;
};

/// Organic matter over carbon. Gotaas 1956: %C = (100 − %ash)/1.8, within 2 to 10 % of it; secondary (polprasert-formula of sources.toml).
inline constexpr double organic_matter_per_carbon = 1.8;

/// Of dry solids without air: 1500 kg/m³ where they are all organic, 2650 where they are ash. Both judged; no published figure was seen.
ParticleDensity organic_particle_density();
ParticleDensity ash_particle_density();

/// Density of dry solids from their organic matter o and ash, whose volumes add: 1/p = o/1500 + (1 − o)/2650, in kg/m³; o in [0, 1].
ParticleDensity particle_density_of(OrganicMatterDryBasis organic_matter);

/// The greatest bulk density that solids and water without any air can have: 1/((1 − M)/p + M/1000), in kg/m³, M in [0, 1]. By definition.
BulkDensity density_without_air(MoistureWetBasis moisture, ParticleDensity particle_density);

}  // namespace heapwright
