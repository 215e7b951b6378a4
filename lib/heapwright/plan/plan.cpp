#include "heapwright/plan/plan.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/plan/loaded.hpp"

namespace heapwright {
namespace {

SupplyBalance balance(const std::optional<CompostYield>& own, const std::optional<Answer<Topdressing>>& topdressing) {
  SupplyBalance supply{own, std::nullopt, std::nullopt, std::nullopt};
  if (!topdressing) return supply;
  supply.needed = (*topdressing)->per_year;
  supply.to_buy = std::max(Volume(), *supply.needed - (own ? own->likely : Volume()));
  const Topdressing& spread = topdressing->result;
  if (own) supply.covers = std::min(spread.area, Area(spread.area * (own->likely / spread.per_year)));
  return supply;
}

bool comes_in_seasons(const Yard& yard) {
  return std::any_of(yard.supplies.begin(), yard.supplies.end(),
                     [](const Supply& supply) { return !std::holds_alternative<std::monostate>(supply.when); });
}

/// The one that its forecast was fed by, where it was.
std::optional<YardSeason> season_in(const Yard& yard, const Plan& plan, Date today) {
  if (!plan.is_for_a_pile()) return season_of_yard(yard, today).result;
  if (!comes_in_seasons(yard)) return std::nullopt;
  if (plan.forecast && (*plan.forecast)->season) return (*plan.forecast)->season;
  return season_with_pile(yard, plan.recipe, today).result;
}

}  // namespace

Answer<Plan> make_plan(const Yard& told, Date today) {
  const Yard yard = as_of(told, today);  // what is dated later is not in yet
  Answer<Plan> answer;
  Plan& plan = answer.result;
  plan.title = yard.title;
  plan.today = today;
  plan.loads = all_loads_of(yard);
  plan.built = plan.loads.empty() ? yard.built_or(today) : plan.loads.front().date;
  plan.stands = stands_by(yard, today);
  plan.recipe = recipe_in_pile(yard, today);
  const Recipe& recipe = plan.recipe.result;
  plan.has_supplies = !yard.supplies.empty() || is_loaded(yard);
  plan.pile = yard.pile;
  if (is_only_planned(yard, today)) plan.leaves_alone = leaves_alone_of(yard, today);
  plan.greens_alone = is_only_planned(yard, today) && has_greens_alone(yard);
  if (!plan.is_for_a_pile()) plan.stands.reset();  // nobody builds that one
  if (yard.pile) plan.fit = pile_of(yard, plan.recipe, today);
  const bool something_tested =
      !yard.observations.tests.empty() || !yard.observations.checks.empty() || !yard.observations.report_lines.empty();
  if (something_tested) plan.maturity = maturity_of(yard, today);
  if (yard.lawn) {
    plan.topdressing = topdress(*yard.lawn, yard.topdressing, yard.tables.materials, today);
    judge_compost(plan.topdressing->result, *yard.tables.criteria);
    if (!plan.has_supplies) order_for(plan.topdressing->result, today, yard.units == ShownUnits::si, yard.tables.materials);
  }

  std::optional<CompostYield> own;
  OrganicMass coarse;
  if (has_size(recipe)) coarse = coarse_wood_of(as_built(recipe).mix, yard.tables.materials, *yard.tables.ensemble);
  YieldRule rule = *yard.tables.materials.yield;
  std::optional<TemperatureLog> log = log_of(yard.observations);
  if (yard.climate && has_size(recipe)) plan.forecast = forecast_of(yard, plan.recipe, today, log ? &*log : nullptr);
  const Observations& seen = yard.observations;
  const bool something_seen =
      !seen.readings.empty() || !seen.noticed.empty() || !seen.readings_before_built.empty() || !seen.noticed_before_built.empty();
  if (something_seen) plan.readings = seen_of(yard, plan.has_supplies ? &plan.recipe : nullptr, std::move(log), usual_gap, today);
  if (plan.forecast && (*plan.forecast)->forecast) {
    own = (*plan.forecast)->screened;
    rule = (*plan.forecast)->yield;
  } else if (has_size(recipe)) {
    own = compost_yield(as_built(recipe).mix, coarse, rule);
  }
  plan.supply = balance(own, plan.topdressing);
  plan.season = season_in(yard, plan, today);
  if (plan.is_for_a_pile() && plan.forecast && (*plan.forecast)->forecast)
    plan.batches = batches_of(yard, plan.forecast->result, plan.season);
  if (plan.topdressing)
    plan.lawn_by_date = lawn_by_date(plan.topdressing->result, plan.batches, earliest_spreading(plan.topdressing->result, today));
  plan.calendar = calendar_of(yard, plan, today);

  const auto take = [&](const auto& part) {
    if (part) take_in(answer, *part);
  };
  take(plan.forecast);
  take_in(answer, plan.recipe);
  take(plan.fit);
  take(plan.maturity);
  take(plan.readings);
  take(plan.topdressing);
  if (own)
    assume_yield(answer.assumptions, plan.forecast ? (*plan.forecast)->goes_in : 1.0, as_built(recipe).mix, coarse, rule,
                 yard.tables.materials, plan.supply.needed);
  order_by_weight(answer.assumptions);
  Facts facts;
  if (own && plan.topdressing) facts.insert(Fact::own_compost_on_lawn);
  if (plan.supply.to_buy && is_positive(*plan.supply.to_buy)) facts.insert(Fact::bought_compost);
  for (const std::string& id : cautions_for(*yard.tables.materials.cautions, facts)) answer.cautions.push_back(id);
  answer.cautions = in_order(answer.cautions, *yard.tables.materials.cautions);
  return answer;
}

}  // namespace heapwright
