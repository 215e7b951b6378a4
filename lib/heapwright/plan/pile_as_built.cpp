#include <algorithm>
#include <cmath>

#include "heapwright/mix/constituents.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/recipe/amounts.hpp"

namespace heapwright {
namespace {

/// A supply of what went in of it, and of no more.
Supply all_in(const Portion& portion) {
  Supply supply = portion.supply;
  supply.amount = portion.counted.value_or(portion.mass);
  supply.when = std::monostate();
  supply.use = Use::all;
  supply.most_of_volume.reset();
  supply.bought = false;
  return supply;
}

bool is_dry_brown(const Supply& supply, const Targets& targets) {
  const Properties is = supply.properties();
  const bool is_brown = is.carbon > targets.carbon_to_nitrogen.high * is.nitrogen;
  return supply.feedstock.feedstock_class == FeedstockClass::keeper && is_brown && is.moisture < targets.moisture.low;
}

/// The most of something brown in a mix whose C:N is not above R, of C and N in the mix and c and n in all of the brown, as a part of that:
///
///     x = (R N − C)/(c − R n)
Mass most_of(const Ingredient& brown, const Mix& mix, CarbonNitrogenRatio highest) {
  const Constituents all = constituents_of(brown);
  return brown.mass * ((highest * mix.nitrogen - mix.carbon) / (all.carbon - highest * all.nitrogen));
}

/// Down to what a person can measure.
Mass rounded_down(const RecipeSupply& supply, Mass mass) {
  if (!is_positive(mass)) return Mass();
  const Mass measure = measure_of(supply, mass);
  return std::floor(mass / measure + 1e-9) * measure;
}

/// What a tumbler with a mix in it has room for still, loose; nothing of a pile that is open.
std::optional<Volume> room_left(const Yard& yard, const Mix& mix) {
  if (!yard.pile || yard.pile->shape != PileShape::tumbler) return std::nullopt;
  const Volume left = room_of(*yard.pile) - mix.volume.value_or(Volume());
  return is_positive(left) ? left / yard.options.settling : Volume();
}

/// How much of what is left of a supply the mix bears, and a tumbler takes.
std::optional<KeptBrowns> kept_of(const Yard& yard, const Supply& supply, Volume left, const Mix& mix, Date built) {
  const Mass kept = left * *supply.density();
  const RecipeQuestion asked = recipe_question({supply}, yard.targets, yard.options, built, yard.tables.materials);
  const RecipeSupply& counted = asked.supplies.front();
  const Mass borne = most_of(supply.ingredient(kept), mix, yard.targets.carbon_to_nitrogen.high);
  const std::optional<Volume> room = room_left(yard, mix);
  const bool is_short_of_room = room && *room * *supply.density() < std::min(borne, kept);
  const Mass most = is_short_of_room ? *room * *supply.density() : borne;
  const Mass at_most = most >= kept ? kept : rounded_down(counted, most);
  if (!is_positive(at_most)) return std::nullopt;
  return KeptBrowns{amount_of(counted, kept), amount_of(counted, at_most), is_short_of_room};
}

/// The most of the browns that loads left on hand.
std::optional<KeptBrowns> browns_on_hand(const Yard& left, const Mix& mix, Date today) {
  const Supply* most = nullptr;
  Volume volume;
  for (const Supply& supply : left.supplies) {
    const std::optional<Amount> there = supply.bought ? std::nullopt : on_hand(supply, today);
    if (!there || !supply.density() || !is_dry_brown(supply, left.targets)) continue;
    const Volume so_much = *supply.mass(*there) / *supply.density();
    if (so_much <= volume) continue;
    most = &supply;
    volume = so_much;
  }
  return most == nullptr ? std::nullopt : kept_of(left, *most, volume, mix, today);
}

std::optional<KeptBrowns> kept_browns(const Yard& yard, const AsBuilt& pile, Date built) {
  const RecipeAmount* most = nullptr;
  for (const RecipeAmount& amount : pile.amounts) {
    if (!is_left(amount) || amount.supply == 0) continue;
    if (!is_dry_brown(yard.supplies[static_cast<std::size_t>(amount.supply - 1)], yard.targets)) continue;
    if (most == nullptr || *amount.left_over > *most->left_over) most = &amount;
  }
  if (most == nullptr) return std::nullopt;
  return kept_of(yard, yard.supplies[static_cast<std::size_t>(most->supply - 1)], *most->left_over, pile.mix, built);
}

/// By its loads it is what it is.
PileAsBuilt pile_by_loads(const Yard& yard, const Answer<Recipe>& recipe, Date today) {
  PileAsBuilt pile{as_loaded(yard), recipe, false, WaterMass(), std::nullopt};
  pile.watered = pile.yard.options.given_water;
  if (pile.yard.pile) pile.yard.pile->built.reset();
  pile.yard.loads.clear();
  if (has_size(recipe.result)) pile.kept_browns = browns_on_hand(not_loaded_yet(yard, today), as_built(recipe.result).mix, today);
  return pile;
}

}  // namespace

PileAsBuilt pile_as_built(const Yard& yard, const Answer<Recipe>& recipe, Date today) {
  if (is_loaded(yard)) return pile_by_loads(yard, recipe, today);
  PileAsBuilt pile{yard, recipe, false, WaterMass(), std::nullopt};
  if (!has_size(recipe.result)) return pile;
  const AsBuilt built = as_built(recipe.result);
  pile.as_planned = std::any_of(built.amounts.begin(), built.amounts.end(), is_left);
  pile.watered = built.water_to_add;
  if (pile.as_planned) pile.kept_browns = kept_browns(yard, built, yard.built_or(today));
  pile.yard.options.fill.reset();
  pile.yard.options.given_water = pile.watered;
  if (pile.yard.pile) pile.yard.pile->built.reset();  // what mends it is got today, not when it was built
  pile.yard.supplies.clear();
  for (const Portion& portion : recipe->batch.portions) pile.yard.supplies.push_back(all_in(portion));
  pile.recipe = first_recipe(pile.yard, today);
  return pile;
}

}  // namespace heapwright
