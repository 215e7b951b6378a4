#include "heapwright/plan/plan.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {
namespace {

SupplyBalance balance(const std::optional<CompostYield>& own, const std::optional<Topdressing>& topdressing) {
  SupplyBalance supply{own, std::nullopt, std::nullopt};
  if (!topdressing) return supply;
  supply.needed = topdressing->per_year;
  const double own_m3 = own ? own->likely.value() : 0.0;
  supply.to_buy = std::max(0.0, supply.needed->value() - own_m3) * unit::m3;
  return supply;
}

}  // namespace

Plan make_plan(const Yard& yard, Date today) {
  Plan plan;
  plan.title = yard.title;
  plan.built = yard.built_or(today);
  plan.recipe = first_recipe(yard, today);
  plan.has_supplies = !yard.supplies.empty();
  plan.pile = yard.pile;
  if (yard.pile) plan.pile_answer = pile_of(yard, plan.recipe, today);
  const bool something_tested = !yard.observations.tests.empty() || !yard.observations.checks.empty();
  if (something_tested) plan.maturity = maturity_of(yard, today);
  if (yard.lawn) plan.topdressing = topdress(*yard.lawn, yard.topdressing, yard.materials);

  std::optional<CompostYield> own;
  OrganicMass coarse;
  if (has_size(plan.recipe)) coarse = coarse_wood_of(told(plan.recipe).mix, yard.materials);
  YieldRule rule = yard.materials.yield;
  std::optional<TemperatureLog> log = log_of(yard.observations);
  if (yard.climate && has_size(plan.recipe)) plan.forecast = forecast_of(yard, plan.recipe, today, log ? &*log : nullptr);
  const bool something_seen = log || !yard.observations.readings.empty() || !yard.observations.noticed.empty();
  if (something_seen) plan.readings = seen_of(yard, plan.has_supplies ? &plan.recipe : nullptr, std::move(log), usual_gap, today);
  if (plan.forecast && plan.forecast->forecast) {
    own = plan.forecast->screened;
    rule = plan.forecast->yield;
  } else if (has_size(plan.recipe)) {
    own = compost_yield(told(plan.recipe).mix, coarse, rule);
  }
  plan.supply = balance(own, plan.topdressing);

  plan.assumptions = plan.forecast ? plan.forecast->assumptions : plan.recipe.assumptions;  // the forecast's hold the recipe's
  std::vector<std::string> cautions = plan.recipe.cautions;
  if (plan.maturity) cautions.insert(cautions.end(), plan.maturity->cautions.begin(), plan.maturity->cautions.end());
  if (plan.readings) cautions.insert(cautions.end(), plan.readings->cautions.begin(), plan.readings->cautions.end());
  Facts facts;
  if (own)
    assume_yield(plan.assumptions, plan.forecast ? plan.forecast->goes_in : 1.0, told(plan.recipe).mix, coarse, rule, yard.materials,
                 plan.supply.needed);
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
  order_by_weight(plan.assumptions);
  plan.measure_first = plan.recipe.measure_first;
  for (const std::string& id : cautions_for(yard.materials.cautions, facts)) cautions.push_back(id);
  plan.cautions = in_order(cautions, yard.materials.cautions);
  return plan;
}

}  // namespace heapwright
