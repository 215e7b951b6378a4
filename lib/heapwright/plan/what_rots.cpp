#include "heapwright/plan/what_rots.hpp"

#include <algorithm>

#include "heapwright/materials/materials.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/constituents.hpp"
#include "heapwright/process/parameters.hpp"

namespace heapwright {
namespace {

constexpr double rots_well = 0.3;   // share of the volatile solids, judged: leaves lie above it, wood below
constexpr double much_of_it = 0.1;  // of the mix's carbon or nitrogen, judged

bool is_woody_or_stable(const Feedstock& feedstock) {
  return feedstock.rots_like == RottingMaterial::nothing || feedstock.rots_like == RottingMaterial::wood_chips ||
         feedstock.rots_like == RottingMaterial::sawdust;
}

double share_that_rots(const Feedstock& feedstock, const ProcessEnsemble& ensemble) {
  if (feedstock.feedstock_class == FeedstockClass::supplement) return 1.0;
  const DecayShares shares = ensemble.shares_of(feedstock, ensemble.best);
  return shares.fast + shares.slow;
}

}  // namespace

bool may_hardly_rot(const Blend& blend, const Materials& materials) {
  return std::any_of(blend.ingredients.begin(), blend.ingredients.end(), [&](const Ingredient& ingredient) {
    const Feedstock* feedstock = row_with_id(*materials.feedstocks, ingredient.id);
    return feedstock != nullptr && is_woody_or_stable(*feedstock);
  });
}

RecipeQuestion by_what_rots(RecipeQuestion question, const Materials& materials, const ProcessEnsemble& ensemble) {
  for (RecipeSupply& supply : question.supplies) {
    const Feedstock* feedstock = row_with_id(*materials.feedstocks, supply.ingredient.id);
    if (feedstock == nullptr) continue;
    const double share = share_that_rots(*feedstock, ensemble);
    supply.ingredient.properties.carbon *= share;
    supply.ingredient.properties.nitrogen *= share;
    supply.hardly_rots = share < rots_well;
    if (share > 0.0) continue;
    supply.available = Mass();
    supply.use = Use::up_to;
  }
  return question;
}

std::optional<WhatRots> what_rots(const Blend& blend, const Materials& materials, const ProcessEnsemble& ensemble) {
  Constituents all;
  Constituents rotting;
  std::vector<std::pair<std::string, Constituents>> stay;
  for (const Ingredient& ingredient : blend.ingredients) {
    const Feedstock* feedstock = row_with_id(*materials.feedstocks, ingredient.id);
    const Constituents own = constituents_of(ingredient);
    const double share = feedstock != nullptr ? share_that_rots(*feedstock, ensemble) : 1.0;
    all += own;
    rotting += share * own;
    if (share < rots_well) stay.emplace_back(ingredient.name, own);
  }
  if (!is_positive(rotting.nitrogen)) return std::nullopt;
  WhatRots found{mix_formula::carbon_to_nitrogen(rotting.carbon, rotting.nitrogen), {}};
  for (const auto& [name, own] : stay) {
    if (own.carbon >= much_of_it * all.carbon || own.nitrogen >= much_of_it * all.nitrogen) found.hardly_rots.push_back(name);
  }
  return found.hardly_rots.empty() ? std::nullopt : std::optional(std::move(found));
}

void note_what_rots(Mix& mix, const Blend& blend, const Materials& materials, const ProcessEnsemble& ensemble) {
  if (may_hardly_rot(blend, materials)) mix.what_rots = what_rots(blend, materials, ensemble);
}

}  // namespace heapwright
