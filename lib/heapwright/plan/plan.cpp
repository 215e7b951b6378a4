#include "heapwright/plan/plan.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/heap/description.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// Each id once, in the order of the cautions table, which is the order of importance.
std::vector<std::string> ranked(const std::vector<std::string>& ids, const Materials& materials) {
  std::vector<std::string> order;
  for (const Caution& caution : materials.cautions) {
    if (std::find(ids.begin(), ids.end(), caution.id) != ids.end()) order.push_back(caution.id);
  }
  return order;
}

/// Adds what a supply takes for granted and what it warns of.
void take_on(const Supply& supply, const Materials& materials, std::vector<Assumption>& assumptions, std::vector<std::string>& cautions) {
  for (Assumption& assumption : assumptions_of(supply, materials)) {
    const bool known = std::any_of(assumptions.begin(), assumptions.end(), [&](const Assumption& other) {
      return other.what == assumption.what && other.value == assumption.value;
    });
    if (!known) assumptions.push_back(std::move(assumption));
  }
  for (std::string& id : cautions_of(supply)) cautions.push_back(std::move(id));
}

Volume volume_left(const Mix& mix, const Compost& compost, double lost, double held_back, BulkDensity density) {
  const double dry_left = ash_mass(mix.dry, mix.organic_matter).value() + (1.0 - lost) * mix.organic_matter.value();
  const double moisture = used(compost.moisture)->value();
  return dry_left / (density.value() * (1.0 - moisture)) * (1.0 - held_back) * unit::m3;
}

/// A laboratory's word for more than enough.
bool says_high(const std::string& word) {
  const std::string plain = plain_name(word);
  return plain.find("high") != std::string::npos || plain.find("excess") != std::string::npos || plain.find("above") != std::string::npos;
}

SupplyBalance balance(const std::optional<CompostYield>& own, const std::optional<Topdressing>& topdressing) {
  SupplyBalance supply{own, std::nullopt, std::nullopt};
  if (!topdressing) return supply;
  supply.needed = topdressing->per_year;
  const double own_m3 = own ? own->likely.value() : 0.0;
  supply.to_buy = std::max(0.0, supply.needed->value() - own_m3) * unit::m3;
  return supply;
}

void assume_yield(std::vector<Assumption>& assumptions, const Materials& materials, const Compost& compost) {
  const auto& moisture = compost.moisture.front();
  assumptions.push_back({"moisture of the finished compost", *moisture.typical, std::nullopt, std::nullopt,
                         source_words(materials, moisture.source, moisture.evidence), std::nullopt});
  const auto& lost = materials.yield.volatile_solids_lost;
  const auto& held = materials.yield.held_back_by_screen;
  assumptions.push_back({"organic matter gone when the heap is done", *lost.typical, *lost.low, *lost.high,
                         source_words(materials, lost.source, lost.evidence), std::nullopt});
  assumptions.push_back(
      {"held back by the screen", *held.typical, *held.low, *held.high, source_words(materials, held.source, held.evidence), std::nullopt});
}

}  // namespace

CompostYield compost_yield(const Mix& mix, const Compost& compost, const YieldRule& rule) {
  const auto& lost = rule.volatile_solids_lost;
  const auto& held = rule.held_back_by_screen;
  const Reading<BulkDensity>& density = compost.bulk_density.front();
  return {volume_left(mix, compost, lost.high->value(), held.high->value(), density.high.value_or(*density.typical)),
          volume_left(mix, compost, lost.typical->value(), held.typical->value(), *density.typical),
          volume_left(mix, compost, lost.low->value(), held.low->value(), density.low.value_or(*density.typical))};
}

MixAnswer mix_on_hand(const Yard& yard, WaterMass added_water, Date today) {
  MixAnswer answer;
  Blend blend{{}, added_water, yard.wishes.settling};
  std::vector<std::string> cautions;
  for (const Supply& supply : yard.supplies) {
    const std::optional<Amount> amount = on_hand(supply, yard.built_or(today));
    if (supply.bought || !amount || is_zero(*amount)) continue;
    blend.ingredients.push_back(supply.ingredient(*supply.mass(*amount)));
    take_on(supply, yard.materials, answer.assumptions, cautions);
  }
  if (blend.ingredients.empty())
    throw TextError("nothing to mix: no supply has an amount",
                    "write [[supply]] with feedstock and amount, or --add \"leaves-fall=6 leaf-bag\"");
  answer.mix = mix_of(blend);
  answer.cautions = ranked(cautions, yard.materials);
  return answer;
}

Recipe first_recipe(const Yard& yard, Date today) {
  const Date built = yard.built_or(today);
  Recipe recipe = solve(recipe_question(yard.supplies, yard.targets, yard.wishes, built));
  const bool seasons = std::any_of(yard.supplies.begin(), yard.supplies.end(),
                                   [](const Supply& supply) { return !std::holds_alternative<std::monostate>(supply.when); });
  if (seasons && !(yard.heap && yard.heap->built))
    recipe.assumptions.push_back({"the heap is built today", built, std::nullopt, std::nullopt, "you gave no date", std::nullopt});
  std::vector<std::string> cautions;
  std::size_t in_recipe = 0;
  for (const Supply& supply : yard.supplies) {
    const bool in_heap = !is_only_estimated(supply) && in_recipe < recipe.amounts.size() && goes_in(recipe.amounts[in_recipe++], recipe);
    if (is_only_estimated(supply)) {
      recipe.assumptions.push_back({supply.feedstock.name + " left out",
                                    std::string("an amount is wanted, this version reckons no estimates"), std::nullopt, std::nullopt,
                                    "you gave an estimate", std::nullopt});
    } else if (in_heap) {  // what stays out neither warns nor matters
      take_on(supply, yard.materials, recipe.assumptions, cautions);
    }
  }
  if (recipe.mix) cautions.emplace_back("local-rules");
  recipe.cautions = ranked(cautions, yard.materials);
  return recipe;
}

Plan make_plan(const Yard& yard, Date today) {
  Plan plan;
  plan.title = yard.title;
  plan.built = yard.built_or(today);
  plan.recipe = first_recipe(yard, today);
  plan.has_supplies = !yard.supplies.empty();
  if (yard.heap) plan.room = room_of(*yard.heap);
  if (yard.soil_test && says_high(yard.soil_test->phosphorus)) plan.soil_phosphorus = yard.soil_test->phosphorus;
  if (yard.lawn) plan.topdressing = topdress(*yard.lawn, yard.topdressing, yard.materials);

  std::optional<CompostYield> own;
  if (plan.recipe.mix) own = compost_yield(*plan.recipe.mix, find_compost(yard.materials, yard.topdressing.compost), yard.materials.yield);
  plan.supply = balance(own, plan.topdressing);

  plan.assumptions = plan.recipe.assumptions;
  std::vector<std::string> cautions = plan.recipe.cautions;
  if (own) assume_yield(plan.assumptions, yard.materials, find_compost(yard.materials, yard.topdressing.compost));
  if (plan.topdressing) {
    plan.assumptions.insert(plan.assumptions.end(), plan.topdressing->assumptions.begin(), plan.topdressing->assumptions.end());
    cautions.insert(cautions.end(), plan.topdressing->cautions.begin(), plan.topdressing->cautions.end());
  }
  plan.cautions = ranked(cautions, yard.materials);
  return plan;
}

}  // namespace heapwright
