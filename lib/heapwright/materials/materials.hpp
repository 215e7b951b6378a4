#pragma once
/// The tables of what is composted: feedstocks, what stays out, finished composts, containers, rough knowledge, nutrients,
/// sources and cautions.

#include <string>
#include <string_view>
#include <vector>

#include "heapwright/materials/amount.hpp"
#include "heapwright/materials/caution.hpp"
#include "heapwright/materials/feedstock.hpp"
#include "heapwright/materials/keep_out.hpp"
#include "heapwright/materials/lazy.hpp"
#include "heapwright/materials/nutrients.hpp"
#include "heapwright/materials/published_value.hpp"
#include "heapwright/materials/rough.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// Where a figure was found.
struct Source {
  std::string id;
  std::string title;
  std::string in_short;  ///< "Heckman 1996", for a line that names several
  std::string kind;
  std::string note;  ///< how it was read
};

/// A finished compost, as spread.
struct Compost {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  std::string note;
  PublishedValues<MoistureWetBasis> moisture;
  PublishedValues<BulkDensity> bulk_density;
  PublishedValues<CarbonNitrogenRatio> carbon_to_nitrogen;
  PublishedValues<OrganicMatterDryBasis> organic_matter;
  PublishedValues<NitrogenDryBasis> nitrogen;
  PublishedValues<PhosphateDryBasis> phosphate;
  PublishedValues<PotashDryBasis> potash;
};

/// How much of a pile is left when it is done, and how it lies. Each with its reason.
struct YieldRule {
  PublishedValue<ShareOfVolatileSolids> volatile_solids_lost;  ///< where no forecast says it
  PublishedValue<ShareOfVolume> held_back_by_screen;
  PublishedValue<MoistureWetBasis> moisture_at_use;
  PublishedValue<DryBulkDensity> organic_density;  ///< of dry finished compost, were it all organic
  PublishedValue<DryBulkDensity> mineral_density;  ///< and were none of it
  double density_spread = 0.0;                     ///< standard deviation of the logarithm of a compost's density
};

/// Each table is read when it is first asked for. Copies share them.
struct Materials {
  Lazy<std::vector<Feedstock>> feedstocks;
  Lazy<std::vector<Compost>> composts;
  Lazy<std::vector<Container>> containers;
  Lazy<std::vector<Source>> sources;
  Lazy<std::vector<Caution>> cautions;
  Lazy<std::vector<KeepOut>> keep_out;
  Lazy<RoughKnowledge> rough;
  Lazy<YieldRule> yield;
  Lazy<NutrientKnowledge> nutrients;
};

/// The tables that come with the program.
Materials built_in_materials();

/// Adds the rows of a file of one's own; one whose id is known takes the place of that row. Problems go where the file's go.
void add_rows(Table& root, Materials& materials);

/// A feedstock as somebody called it: "shredded leaves" names a packing with it.
struct NamedFeedstock {
  const Feedstock* feedstock;
  std::string packing;  ///< empty where the name says none
};

/// The row of an id or an everyday name: "leaves-fall", "leaves", "old wet leaves", "mulched leaves".
/// @throws TextError for what stays out of a pile, with the reason and where it goes instead, and for unknown names with the nearest
/// known one; a name that is as near to what stays out as to what may go in is never answered with what may go in
NamedFeedstock find_named_feedstock(const Materials& materials, std::string_view name);
/// The row alone. @throws TextError likewise
const Feedstock& find_feedstock(const Materials& materials, std::string_view name);
/// The same, and nothing where there is none.
const Feedstock* feedstock_called(const Materials& materials, std::string_view name);

/// What a name means of what stays out, with or without words before it ("old", "chopped"); nothing where it means none of it.
const KeepOut* what_stays_out(const Materials& materials, std::string_view name);

/// An amount as read_amount() of amount.hpp reads it; "6 bags of dog poop" is refused for what is in the bags. @throws TextError
Amount read_amount(std::string_view text, const Materials& materials);

/// Water in gallons, liters, pounds, or containers: "2 gal", "3 buckets". @throws TextError
WaterMass read_water_amount(std::string_view text, const Materials& materials);

/// The compost of an id or an everyday name. @throws TextError with the nearest
const Compost& find_compost(const Materials& materials, std::string_view name);
/// The same, and nothing where there is none.
const Compost* compost_called(const Materials& materials, std::string_view name);

/// What a figure's source may be called on a screen: memory and judgement never go under a publication's name.
std::string source_words(const Materials& materials, std::string_view source, Evidence evidence);
/// The same in a few words, with its mark: "Heckman 1996, seen".
std::string source_in_short(const Materials& materials, std::string_view source, Evidence evidence);

/// Of a figure with its range, which may be known in another way: "Golueke 1972 …, its range judged by us".
template <class Quantity>
std::string source_words(const Materials& materials, const PublishedValue<Quantity>& published) {
  std::string words = source_words(materials, published.source, published.evidence);
  if (!published.range_evidence) return words;
  const std::string article = *published.range_evidence == Evidence::memory ? "a " : "";
  return words + ", its range " + article + source_words(materials, {}, *published.range_evidence);
}
/// "Golueke 1972, seen, range judged".
template <class Quantity>
std::string source_in_short(const Materials& materials, const PublishedValue<Quantity>& published) {
  const std::string words = source_in_short(materials, published.source, published.evidence);
  return published.range_evidence ? words + ", range " + source_in_short(materials, {}, *published.range_evidence) : words;
}

}  // namespace heapwright
