#include "heapwright/recipe/why_left.hpp"

#include <algorithm>

#include "heapwright/mix/constituents.hpp"
#include "heapwright/recipe/amounts.hpp"

namespace heapwright {
namespace {

std::optional<WhyLeft> by_size(const Recipe& recipe) {
  const bool off_its_windows = recipe.status == RecipeStatus::nearest;
  if (!recipe.size_set_by || off_its_windows) return std::nullopt;
  switch (recipe.size_set_by->from) {
    case SizeFrom::fill: return WhyLeft::big_enough;
    case SizeFrom::capacity:
    case SizeFrom::room: return WhyLeft::no_room;
    case SizeFrom::goal: return WhyLeft::goal;
    case SizeFrom::water: return WhyLeft::no_water;
    case SizeFrom::fixed:
    case SizeFrom::on_hand: break;
  }
  return std::nullopt;
}

/// The pile with all of one supply in it.
Mix mix_with_all_of(const RecipeQuestion& question, const AsBuilt& pile, std::size_t place) {
  Amounts amounts;
  for (const RecipeAmount& amount : pile.amounts) amounts.supplies.push_back(amount.mass);
  amounts.supplies[place] = std::max(amounts.supplies[place], question.supplies[place].available.value_or(Mass()));
  Blend blend = blend_of(question, amounts);
  blend.added_water = water_to(mix_of(blend), question.targets.moisture.aim);
  if (question.options.most_water) blend.added_water = std::min(blend.added_water, *question.options.most_water);
  return mix_of(blend);
}

bool is_browner(const Ingredient& ingredient, const Mix& mix) {
  Ingredient some = ingredient;
  some.mass = 1.0 * unit::kg;
  const Constituents own = constituents_of(some);
  return !mix.carbon_to_nitrogen || own.carbon > *mix.carbon_to_nitrogen * own.nitrogen;
}

/// Where nothing passes an edge: the one that the pile is nearest to of those that more of it brings nearer.
WhyLeft nearest_edge(const Ingredient& ingredient, const Mix& mix, const Targets& targets) {
  const bool browner = is_browner(ingredient, mix);
  if (!mix.moisture || !mix.carbon_to_nitrogen) return browner ? WhyLeft::too_brown : WhyLeft::too_green;
  const auto& ratio = targets.carbon_to_nitrogen;
  const double wet = (*mix.moisture - targets.moisture.aim) / (targets.moisture.high - targets.moisture.aim);
  const double off = browner ? (*mix.carbon_to_nitrogen - ratio.aim) / (ratio.high - ratio.aim)
                             : (ratio.aim - *mix.carbon_to_nitrogen) / (ratio.aim - ratio.low);
  if (ingredient.properties.moisture > *mix.moisture && wet > off) return WhyLeft::too_wet;
  return browner ? WhyLeft::too_brown : WhyLeft::too_green;
}

WhyLeft by_balance(const RecipeQuestion& question, const AsBuilt& pile, std::size_t place) {
  const RecipeSupply& supply = question.supplies[place];
  const Targets& targets = question.targets;
  const Mix all = mix_with_all_of(question, pile, place);
  const auto& ratio = targets.carbon_to_nitrogen;
  if (supply.most_of_volume && all.parts[place].share && !at_most(*supply.most_of_volume, *all.parts[place].share))
    return WhyLeft::its_share;
  const Properties& own = supply.ingredient.properties;
  const bool browner = own.carbon > ratio.aim * own.nitrogen;
  const bool wetter = own.moisture > targets.moisture.aim;
  if (browner && all.carbon_to_nitrogen && *all.carbon_to_nitrogen > just_above(ratio.high)) return WhyLeft::too_brown;
  if (!browner && all.carbon_to_nitrogen && *all.carbon_to_nitrogen < just_below(ratio.low)) return WhyLeft::too_green;
  if (wetter && all.moisture && *all.moisture > just_above(targets.moisture.high)) return WhyLeft::too_wet;
  if (all.moisture && *all.moisture < just_below(targets.moisture.low)) return WhyLeft::no_water;
  return nearest_edge(supply.ingredient, pile.mix, targets);
}

}  // namespace

std::vector<WhyLeft> why_left(const RecipeQuestion& question, const Recipe& recipe) {
  const AsBuilt pile = as_built(recipe);
  const std::optional<WhyLeft> size = by_size(recipe);
  std::vector<WhyLeft> reasons;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const bool sparing = is_sparing(question.supplies[i].feedstock_class);
    reasons.push_back(sparing ? WhyLeft::enough : size ? *size : by_balance(question, pile, i));
  }
  return reasons;
}

}  // namespace heapwright
