#include "heapwright/recipe/bags_to_a_catcher.hpp"

#include <limits>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/constituents.hpp"
#include "heapwright/mix/ranges.hpp"
#include "heapwright/recipe/recipe.hpp"

namespace heapwright {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

/// A container of a feedstock that lies as one of its packings.
Supply containerful(const Feedstock& feedstock, const std::string& packing, const Container& container) {
  Supply supply;
  supply.feedstock = feedstock;
  supply.packing = packing;
  ContainerCount one = so_many(1.0, container);
  one.packings.clear();  // it lies as is said here
  supply.amount = one;
  return supply;
}

/// How many of the second bring one of the first to a C:N; infinitely many where the second is no browner than that.
double wanted(const Matter& first, const Matter& second, CarbonNitrogenRatio aim) {
  const auto beyond = [&](const Constituents& of) { return CarbonMass(of.carbon - CarbonMass(aim * of.nitrogen)); };
  const CarbonMass lacking = -beyond(constituents_of(first));
  const CarbonMass brought = beyond(constituents_of(second));
  if (!is_positive(brought)) return infinite;
  return std::max(0.0, static_cast<double>(lacking / brought));
}

/// Moisture of one of the first with so many of the second.
MoistureWetBasis moisture_of(const Constituents& first, const Constituents& second, double count) {
  const Constituents both = first + count * second;
  return mix_formula::moisture(both.water, both.mass());
}

Constituents wilted(Constituents clippings) {
  clippings.water = std::min(clippings.water, WaterMass(clippings.dry * to_dry_basis(wilted_clippings)));
  return clippings;
}

BagsForOne bags_for(const Supply& clippings, const Supply& leaves, CarbonNitrogenRatio aim, const Materials& materials) {
  const std::vector<Ingredient> ingredients{clippings.ingredient(*clippings.mass(*clippings.amount)),
                                            leaves.ingredient(*leaves.mass(*leaves.amount))};
  const std::vector<Taken> taken{{&clippings, std::nullopt}, {&leaves, std::nullopt}};
  const Blend blend{ingredients, WaterMass()};
  const Band<double> band = eight_of_ten(drawn_values(blend, varied(blend, taken, materials),
                                                      [&](const std::vector<Matter>& drawn) { return wanted(drawn[0], drawn[1], aim); }));
  BagsForOne row;
  row.leaves_lie = leaves.packing;
  row.clippings_lie = clippings.packing;
  row.bags = wanted(ingredients[0], ingredients[1], aim);
  row.low = band.low;
  if (band.high < infinite) row.high = band.high;
  row.moisture = moisture_of(constituents_of(ingredients[0]), constituents_of(ingredients[1]), row.bags);
  return row;
}

/// The same, of clippings that wilted after they were counted.
BagsForOne wilted_row(BagsForOne row, const Supply& clippings, const Supply& leaves) {
  const auto of = [](const Supply& supply) { return constituents_of(supply.ingredient(*supply.mass(*supply.amount))); };
  row.wilted = true;
  row.moisture = moisture_of(wilted(of(clippings)), of(leaves), row.bags);
  return row;
}

/// Those packings of a feedstock that it has figures of, of some in their order.
std::vector<std::string> packings_of(const Feedstock& feedstock, const std::vector<std::string>& wanted) {
  std::vector<std::string> found;
  for (const std::string& packing : wanted) {
    if (feedstock.density(packing)) found.push_back(packing);
  }
  return found;
}

bool is_leaves(const Feedstock& feedstock) { return feedstock.rots_like == RottingMaterial::leaves && feedstock.has_tag("leaves"); }

}  // namespace

std::optional<BagsToACatcher> bags_to_a_catcher(const RecipeQuestion& question, const Materials& materials) {
  if (question.supplies.size() != 2) return std::nullopt;
  const Feedstock* leaves = nullptr;
  const Feedstock* clippings = nullptr;
  for (const RecipeSupply& supply : question.supplies) {
    const Feedstock& feedstock = known_row(*materials.feedstocks, supply.ingredient.id);
    if (supply.available) return std::nullopt;
    if (feedstock.feedstock_class == FeedstockClass::clippings) clippings = &feedstock;
    if (is_leaves(feedstock)) leaves = &feedstock;
  }
  if (leaves == nullptr || clippings == nullptr) return std::nullopt;
  const Container& bag = known_row(*materials.containers, leaves->usual_container);
  const Container& catcher = known_row(*materials.containers, "grass-catcher");
  const CarbonNitrogenRatio aim = question.targets.carbon_to_nitrogen.aim;
  BagsToACatcher table{leaves->id, clippings->id, leaves->name, clippings->name, so_many(1.0, bag), so_many(1.0, catcher), aim, {}};
  for (const std::string& lie : packings_of(*leaves, {leaves->usual_packing, "collected", "shredded"})) {
    const Supply of_leaves = containerful(*leaves, lie, bag);
    for (const std::string& packing : packings_of(*clippings, {"loose", "collected", "packed"})) {
      const Supply of_clippings = containerful(*clippings, packing, catcher);
      const BagsForOne row = bags_for(of_clippings, of_leaves, aim, materials);
      if (!(row.bags < infinite)) continue;
      table.rows.push_back(row);
      if (packing == "collected") table.rows.push_back(wilted_row(row, of_clippings, of_leaves));
    }
  }
  return table.rows.empty() ? std::nullopt : std::optional(std::move(table));
}

}  // namespace heapwright
