#include "heapwright/plan/plan.hpp"

#include <algorithm>
#include <cmath>

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

Volume volume_left(const Mix& mix, const Compost& compost, double lost, double held_back, BulkDensity density) {
  const double dry_left = ash_mass(mix.dry, mix.organic_matter).value() + (1.0 - lost) * mix.organic_matter.value();
  const double moisture = used(compost.moisture)->value();
  return dry_left / (density.value() * (1.0 - moisture)) * (1.0 - held_back) * unit::m3;
}

SupplyBalance balance(const std::optional<CompostYield>& own, const std::optional<Topdressing>& topdressing) {
  SupplyBalance supply{own, std::nullopt, std::nullopt};
  if (!topdressing) return supply;
  supply.needed = topdressing->per_year;
  const double own_m3 = own ? own->likely.value() : 0.0;
  supply.to_buy = std::max(0.0, supply.needed->value() - own_m3) * unit::m3;
  return supply;
}

/// What the yield takes for granted, each with what it could change of what is to buy, else of the compost.
void assume_yield(std::vector<Assumption>& assumptions, const Mix& mix, const Compost& compost, const Materials& materials,
                  std::optional<Volume> needed) {
  const YieldRule& rule = materials.yield;
  const auto& lost = rule.volatile_solids_lost;
  const auto& held = rule.held_back_by_screen;
  const auto& density = compost.bulk_density.front();
  const auto answer = [&](double lost_at, double held_at, BulkDensity density_at) {
    const double own = volume_left(mix, compost, lost_at, held_at, density_at).value();
    return needed ? std::max(0.0, needed->value() - own) : own;
  };
  const double likely = answer(lost.typical->value(), held.typical->value(), *density.typical);
  const auto change = [&](double one, double other) -> std::optional<double> {
    if (!(likely > 0.0)) return std::nullopt;
    return std::abs(other - one) / likely;
  };
  assumptions.push_back({"organic matter gone when the heap is done", *lost.typical, *lost.low, *lost.high,
                         source_words(materials, lost.source, lost.evidence),
                         change(answer(lost.low->value(), held.typical->value(), *density.typical),
                                answer(lost.high->value(), held.typical->value(), *density.typical))});
  assumptions.push_back({"held back by the screen", *held.typical, *held.low, *held.high,
                         source_words(materials, held.source, held.evidence),
                         change(answer(lost.typical->value(), held.low->value(), *density.typical),
                                answer(lost.typical->value(), held.high->value(), *density.typical))});
  const auto& moisture = compost.moisture.front();
  assumptions.push_back({"moisture of the finished compost", *moisture.typical, std::nullopt, std::nullopt,
                         source_words(materials, moisture.source, moisture.evidence), std::nullopt});
  if (!density.low || !density.high) return;
  assumptions.push_back({"weight of " + compost.name, *density.typical, *density.low, *density.high,
                         source_words(materials, density.source, density.evidence),
                         change(answer(lost.typical->value(), held.typical->value(), *density.low),
                                answer(lost.typical->value(), held.typical->value(), *density.high))});
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

Plan make_plan(const Yard& yard, Date today) {
  Plan plan;
  plan.title = yard.title;
  plan.built = yard.built_or(today);
  plan.recipe = first_recipe(yard, today);
  plan.has_supplies = !yard.supplies.empty();
  plan.heap = yard.heap;
  if (yard.heap) plan.heap_answer = heap_of(yard, plan.recipe, today);
  if (yard.lawn) plan.topdressing = topdress(*yard.lawn, yard.topdressing, yard.materials);

  const Compost& compost = find_compost(yard.materials, yard.topdressing.compost);
  std::optional<CompostYield> own;
  if (plan.recipe.mix && plan.recipe.status != RecipeStatus::no_size)
    own = compost_yield(told(plan.recipe).mix, compost, yard.materials.yield);
  plan.supply = balance(own, plan.topdressing);

  plan.assumptions = plan.recipe.assumptions;
  std::vector<std::string> cautions = plan.recipe.cautions;
  Facts facts;
  if (own) assume_yield(plan.assumptions, told(plan.recipe).mix, compost, yard.materials, plan.supply.needed);
  if (plan.topdressing) {
    const Topdressing& spread = *plan.topdressing;
    if (own) facts.insert(Fact::own_compost_on_lawn);
    if (plan.supply.to_buy->value() > 0.0) facts.insert(Fact::bought_compost);
    cautions.insert(cautions.end(), spread.cautions.begin(), spread.cautions.end());
    for (const Assumption& assumption : spread.assumptions) {
      const auto same = [&](const Assumption& other) { return other.what == assumption.what; };
      if (std::none_of(plan.assumptions.begin(), plan.assumptions.end(), same)) plan.assumptions.push_back(assumption);
    }
  }
  if (yard.climate) {
    if (auto weather = assumption_of(*yard.climate)) plan.assumptions.push_back(std::move(*weather));
  }
  order_by_weight(plan.assumptions);
  plan.measure_first = plan.recipe.measure_first;
  for (const std::string& id : cautions_for(yard.materials.cautions, facts)) cautions.push_back(id);
  plan.cautions = ranked(cautions, yard.materials);
  return plan;
}

}  // namespace heapwright
