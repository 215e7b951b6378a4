#include "heapwright/plan/standing.hpp"

#include "heapwright/time/days.hpp"

namespace heapwright {

bool is_overfilled(const Plan& plan) {
  constexpr double much_more = 1.5;
  if (plan.stands != Stands::by_loads || !has_size(plan.recipe.result) || !plan.fit || !(*plan.fit)->pile) return false;
  const std::optional<Volume> in_it = as_built(plan.recipe.result).mix.volume;
  return in_it && *in_it > much_more * room_of(*(*plan.fit)->pile);
}

bool is_fed_lately(const Plan& plan) {
  constexpr int lately = 30;
  return !plan.loads.empty() && days_from_to(plan.loads.back().date, plan.today) <= lately;
}

bool is_past_its_time(const Plan& plan) {
  if (plan.batches.empty() || !plan.batches.front().late) return false;
  return *plan.batches.front().late < plan.today;
}

bool is_past_its_heat(const Plan& plan) {
  constexpr int by_then_it_has = 45;
  return plan.stands && days_from_to(plan.built, plan.today) > by_then_it_has;
}

bool begins_small(const Plan& plan) {
  constexpr double as_much_again = 2.0;
  const bool is_fed = plan.forecast && (*plan.forecast)->forecast && (*plan.forecast)->week_by_week;
  return is_fed && (*plan.forecast)->forecast->filled_in_all > as_much_again;
}

}  // namespace heapwright
