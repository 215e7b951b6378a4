#include "heapwright/plan/answered.hpp"

#include <utility>

#include "heapwright/materials/materials.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/recipe/amounts.hpp"

namespace heapwright {
namespace {

constexpr double just_hardly_off = hardly_off - 1e-6;  // so that what is looked for within it is found hardly off

/// A question for a pile off the windows by no more than anyone can tell, as bedded manure comes out. Chips are mulch, and go into no such
/// pile for what little of them rots.
RecipeQuestion of_bedding(RecipeQuestion rotting, const Materials& materials) {
  rotting.targets = windows_at(rotting.targets, just_hardly_off);
  for (RecipeSupply& supply : rotting.supplies) {
    const bool mulch = known_row(*materials.feedstocks, supply.ingredient.id).left_over == LeftOver::wood_mulch;
    if (mulch && supply.is_raised()) supply.available = Mass();
  }
  return rotting;
}

RecipeQuestion with_all_that_hardly_rots(RecipeQuestion bedding) {
  for (RecipeSupply& supply : bedding.supplies) {
    if (supply.is_raised() && (supply.hardly_rots || supply.feedstock_class == FeedstockClass::must_go)) supply.use = Use::all;
  }
  return bedding;
}

Mix true_mix(const RecipeQuestion& question, const std::vector<RecipeAmount>& amounts, WaterMass water) {
  Amounts all{{}, water};
  for (const RecipeAmount& amount : amounts) all.supplies.push_back(amount.mass);
  return mix_of(blend_of(question, all));
}

RecipeQuestion with_targets(RecipeQuestion question, const Targets& targets) {
  question.targets = targets;
  return question;
}

/// Whether some of what is to be used up stays out.
bool leaves_some(const RecipeQuestion& question, const Recipe& recipe) {
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    if (supply.is_raised() && recipe.amounts[i].mass < used_up * *supply.available) return true;
  }
  return false;
}

}  // namespace

Answered largest_good(const RecipeQuestion& question) {
  constexpr double much_larger = 2.0;
  Answered best{question, solve(question)};
  const std::optional<EverythingIn> all = best.recipe.everything_in;
  if (question.options.goal != Goal::use_most || !has_size(best.recipe) || !leaves_some(question, best.recipe)) return best;
  const std::pair<FoundWithin, Targets> wider[] = {{FoundWithin::hardly_off, windows_at(question.targets, just_hardly_off)},
                                                   {FoundWithin::acceptable, acceptable_windows(question.targets)}};
  for (const auto& [windows, targets] : wider) {
    const RecipeQuestion asked = with_targets(question, targets);
    Recipe recipe = solve(asked);
    if (recipe.status != RecipeStatus::on_target) continue;
    if (*recipe.mix->volume < much_larger * *best.recipe.mix->volume) continue;
    best = {asked, std::move(recipe), windows};
    best.recipe.everything_in = all;
  }
  return best;
}

bool takes_what_hardly_rots(const RecipeQuestion& rotting, const Recipe& recipe) {
  for (std::size_t i = 0; i < rotting.supplies.size(); ++i) {
    if (rotting.supplies[i].hardly_rots && goes_in(recipe.amounts[i], *recipe.mix)) return true;
  }
  return false;
}

std::optional<Answered> bedded(const RecipeQuestion& rotting, const Materials& materials) {
  const RecipeQuestion bedding = of_bedding(rotting, materials);
  for (const RecipeQuestion& question : {with_all_that_hardly_rots(bedding), bedding}) {
    Recipe recipe = solve(question);
    if (recipe.status == RecipeStatus::on_target && takes_what_hardly_rots(question, recipe))
      return Answered{question, std::move(recipe), FoundWithin::hardly_off};
  }
  return std::nullopt;
}

void judge_by(const Targets& targets, FoundWithin windows, Recipe& recipe) {
  recipe.targets = targets;
  recipe.found_within = windows;
  recipe.distance_from_aim = distance_from_aim(*recipe.mix, targets);
  recipe.status = recipe.distance_from_aim > on_the_edge ? RecipeStatus::nearest : RecipeStatus::on_target;
  if (!recipe.whole_containers) return;
  WholeContainers& whole = *recipe.whole_containers;
  whole.distance_from_aim = distance_from_aim(whole.mix, targets);
  whole.inside = whole.inside && whole.distance_from_aim <= on_the_edge;
}

void count_all_of(const RecipeQuestion& question, const Recipe& of_all, Recipe& recipe) {
  recipe.carbon_counted = CarbonCounted::what_rots;
  recipe.mix = true_mix(question, recipe.amounts, recipe.water_to_add);
  if (recipe.whole_containers)
    recipe.whole_containers->mix = true_mix(question, recipe.whole_containers->amounts, recipe.whole_containers->water_to_add);
  recipe.everything_in = of_all.everything_in;
  recipe.pair = of_all.pair;
  recipe.proportion.reset();
}

}  // namespace heapwright
