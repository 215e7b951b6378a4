#include "heapwright/recipe/held_back.hpp"

#include <algorithm>
#include <functional>

#include "heapwright/recipe/programme.hpp"

namespace heapwright {
namespace {

constexpr double noticeably = 1e-3;
const std::vector<Aim> every_aim(all_aims.begin(), all_aims.end());

Limit limit_of(Aim aim) {
  switch (aim) {
    case Aim::carbon_to_nitrogen: return Limit::carbon_to_nitrogen;
    case Aim::moisture: return Limit::moisture;
    case Aim::air: return Limit::air_space;
  }
  return Limit::amount;
}

HardLimits with_any_size(HardLimits hard) {
  hard.fill = hard.capacity = false;
  return hard;
}

HardLimits with_any_shares(HardLimits hard) {
  hard.shares = false;
  return hard;
}

HardLimits with_any_water(HardLimits hard) {
  hard.water = false;
  return hard;
}

/// Whether a recipe off target would come nearer by another question, or other limits.
bool comes_nearer(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe) {
  const auto least = Programme(question, hard).least_distance(every_aim);
  return least && *least < recipe.distance_from_aim - noticeably;
}

bool uses_everything(const RecipeQuestion& question, const Recipe& recipe) {
  const auto raised = raised_supplies(question);
  return std::all_of(raised.begin(), raised.end(),
                     [&](std::size_t i) { return recipe.amounts[i].mass >= used_up * *question.supplies[i].available; });
}

/// Everything on hand, as fixed supplies under the hard limits: is there room?
bool everything_fits(RecipeQuestion question, const HardLimits& hard) {
  for (const std::size_t i : raised_supplies(question)) question.supplies[i].use = Use::all;
  return Programme(question, hard).possible();
}

bool everything_is_on_target_without(const RecipeQuestion& question, Aim aim) {
  Programme programme = Programme::of_everything_in(question);
  programme.lift(aim);
  std::vector<Aim> others;
  for (const Aim other : all_aims) {
    if (other != aim) others.push_back(other);
  }
  const auto least = programme.least_distance(others);
  return least && *least <= on_the_edge;
}

void add_room(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe, std::vector<HeldBack>& held) {
  if (everything_fits(question, hard)) return;
  // A pile that stops short of the room there is was stopped by something else.
  const std::optional<Volume>& capacity = question.options.capacity;
  const bool room_left = capacity && *recipe.mix->volume < used_up * *capacity;
  if (!room_left && everything_fits(question, with_any_size(hard))) held.push_back({Limit::capacity, std::nullopt, 0});
  if (everything_fits(question, with_any_shares(hard))) held.push_back({Limit::share, std::nullopt, 0});
  if (held.empty() && !room_left) held = {{Limit::capacity, std::nullopt, 0}, {Limit::share, std::nullopt, 0}};
}

/// Where other things go in than what is to be used up, "everything in" says little: the windows that the recipe itself misses.
void add_missed_windows(const RecipeQuestion& question, const Recipe& recipe, std::vector<HeldBack>& held) {
  const Programme programme(question);
  Amounts amounts;
  for (const RecipeAmount& amount : recipe.amounts) amounts.supplies.push_back(amount.mass);
  amounts.water = recipe.water_to_add;
  for (const Aim aim : all_aims) {
    if (programme.own_distance(aim, amounts) > on_the_edge) held.push_back({limit_of(aim), std::nullopt, 0});
  }
}

bool only_what_is_to_be_used_up(const RecipeQuestion& question) {
  const std::size_t fixed =
      static_cast<std::size_t>(std::count_if(question.supplies.begin(), question.supplies.end(),
                                             [](const RecipeSupply& supply) { return supply.use == Use::all && !supply.bought; }));
  return raised_supplies(question).size() + fixed == question.supplies.size();
}

void add_windows(const RecipeQuestion& question, const Recipe& recipe, std::vector<HeldBack>& held) {
  if (!only_what_is_to_be_used_up(question)) return add_missed_windows(question, recipe, held);
  if (!recipe.everything_in || recipe.everything_in->distance_from_aim <= on_the_edge) return;
  const std::size_t before = held.size();
  for (const Aim aim : all_aims) {
    if (everything_is_on_target_without(question, aim)) held.push_back({limit_of(aim), std::nullopt, 0});
  }
  if (held.size() > before) return;
  Programme programme = Programme::of_everything_in(question);
  for (const Aim aim : all_aims) {
    const auto alone = programme.least_distance({aim});
    if (alone && *alone > on_the_edge) held.push_back({limit_of(aim), std::nullopt, 0});
  }
  // Each could be met alone, but not together by the same water.
  if (held.size() == before) held.insert(held.end(), {{Limit::carbon_to_nitrogen, std::nullopt, 0}, {Limit::moisture, std::nullopt, 0}});
}

/// Off target: would a larger share, more of which supply, or of water, bring the recipe nearer?
void add_wants(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe, std::vector<HeldBack>& held) {
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    if (!supply.available || supply.use != Use::up_to || recipe.amounts[i].mass < used_up * *supply.available) continue;
    RecipeQuestion more = question;
    more.supplies[i].available.reset();
    if (comes_nearer(more, hard, recipe)) held.push_back({Limit::amount, supply.ingredient.id, supply.ingredient.supply});
  }
  const bool shared = std::any_of(question.supplies.begin(), question.supplies.end(),
                                  [](const RecipeSupply& supply) { return supply.most_of_volume.has_value(); });
  const bool is_said = std::any_of(held.begin(), held.end(), [](const HeldBack& one) { return one.limit == Limit::share; });
  if (shared && !is_said && comes_nearer(question, with_any_shares(hard), recipe)) held.push_back({Limit::share, std::nullopt, 0});
  const std::optional<WaterMass>& most_water = question.options.most_water;
  const bool all_the_water = most_water && recipe.water_to_add >= used_up * *most_water;
  if (all_the_water && comes_nearer(question, with_any_water(hard), recipe)) held.push_back({Limit::water, std::nullopt, 0});
}

/// Whether a larger pile would bring what must go in nearer.
bool is_too_small(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe) {
  const bool fixed = std::any_of(question.supplies.begin(), question.supplies.end(), std::mem_fn(&RecipeSupply::is_fixed));
  const bool sized = question.options.fill || question.options.capacity;
  return fixed && sized && comes_nearer(question, with_any_size(hard), recipe);
}

void add_missing(const RecipeQuestion& question, const Recipe& recipe, std::vector<HeldBack>& held) {
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    if (supply.available && recipe.amounts[i].mass >= used_up * *supply.available)
      held.push_back({Limit::amount, supply.ingredient.id, supply.ingredient.supply});
  }
}

}  // namespace

std::vector<HeldBack> held_back_by(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe) {
  std::vector<HeldBack> held;
  if (recipe.status == RecipeStatus::nearest && is_too_small(question, hard, recipe)) return {{Limit::capacity, std::nullopt, 0}};
  if (recipe.status == RecipeStatus::not_enough) add_missing(question, recipe, held);
  if (!uses_everything(question, recipe)) {
    add_room(question, hard, recipe, held);
    add_windows(question, recipe, held);
  }
  if (recipe.status == RecipeStatus::nearest) {
    if (held.empty()) add_windows(question, recipe, held);
    add_wants(question, hard, recipe, held);
  }
  return held;
}

}  // namespace heapwright
