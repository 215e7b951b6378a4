#include "heapwright/recipe/verdict.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {
namespace {

/// With bought things, supplements or unlimited ones beside it, "everything" would say little.
bool others_go_in(const Recipe& recipe) {
  return std::any_of(recipe.amounts.begin(), recipe.amounts.end(), [&](const RecipeAmount& amount) {
    return recipe.mix && goes_in(amount, *recipe.mix) && (is_sparing(amount.feedstock_class) || !amount.left_over);
  });
}

bool is_green(const RecipeAmount& amount) {
  return amount.feedstock_class == FeedstockClass::clippings || amount.feedstock_class == FeedstockClass::must_go;
}

bool greens_are_left(const Recipe& recipe) {
  const AsBuilt pile = as_built(recipe);
  return std::any_of(pile.amounts.begin(), pile.amounts.end(),
                     [](const RecipeAmount& amount) { return is_green(amount) && is_left(amount); });
}

/// The mix that a limit stands against: all that is on hand, where that says something, else the recipe's.
const Mix* held_mix(const Recipe& recipe) {
  if (recipe.everything_in && !others_go_in(recipe)) return &recipe.everything_in->mix;
  return recipe.mix ? &*recipe.mix : nullptr;
}

HeldBackReason reason_of_ratio(const Recipe& recipe) {
  const Mix* mix = held_mix(recipe);
  const bool brown = mix != nullptr && mix->carbon_to_nitrogen && *mix->carbon_to_nitrogen > recipe.targets.carbon_to_nitrogen.high;
  if (!brown) return HeldBackReason::too_few_browns;
  return greens_are_left(recipe) ? HeldBackReason::balance : HeldBackReason::too_few_greens;
}

/// Water mends what is dry, wherever there is as much as is wanted: only wet holds back then.
HeldBackReason reason_of_moisture(const Recipe& recipe) {
  const Mix* mix = held_mix(recipe);
  const bool wet = mix != nullptr && mix->moisture && *mix->moisture > recipe.targets.moisture.aim;
  const bool limited = recipe.options.most_water || recipe.options.goal == Goal::least_water;
  if (wet) return HeldBackReason::too_wet;
  return limited ? HeldBackReason::too_dry_for_its_water : HeldBackReason::wet_already;
}

HeldBackReason reason_of_amount(const HeldBack& held, const Recipe& recipe) {
  const auto of_it = [&](const RecipeAmount& amount) {
    return held.feedstock && amount.id == *held.feedstock && amount.supply == held.supply;
  };
  const auto found = std::find_if(recipe.amounts.begin(), recipe.amounts.end(), of_it);
  const bool none = found != recipe.amounts.end() && !is_positive(found->mass);
  return none ? HeldBackReason::none_of_it_today : HeldBackReason::no_more_of_it;
}

bool is_hardly_off(const Recipe& recipe) { return as_built(recipe).distance_from_aim <= hardly_off; }

}  // namespace

RecipeVerdict verdict_of(const Recipe& recipe) {
  switch (recipe.status) {
    case RecipeStatus::on_target: return RecipeVerdict::on_target;
    case RecipeStatus::nearest: {
      const bool works = is_hardly_off(recipe) || is_acceptable(as_built(recipe).mix, recipe.targets);
      return works ? RecipeVerdict::nearly_right : RecipeVerdict::far_off;
    }
    case RecipeStatus::not_enough: return recipe.mix ? RecipeVerdict::too_little : RecipeVerdict::no_pile;
    case RecipeStatus::no_size:
      if (!recipe.mix || recipe.additions_only) return RecipeVerdict::no_pile;
      return as_built(recipe).distance_from_aim > hardly_off ? RecipeVerdict::far_off : RecipeVerdict::parts;
    case RecipeStatus::limits_clash:
    case RecipeStatus::nothing_on_hand: return RecipeVerdict::no_pile;
  }
  return RecipeVerdict::no_pile;
}

bool calls_for(const Recipe& recipe, Basic basic) {
  return std::find(recipe.basics.begin(), recipe.basics.end(), basic) != recipe.basics.end();
}

bool is_too_small(const Recipe& recipe) {
  return recipe.status == RecipeStatus::nearest && recipe.held_back_by.size() == 1 && recipe.held_back_by.front().limit == Limit::capacity;
}

HeldBackReason reason_of(const HeldBack& held, const Recipe& recipe) {
  switch (held.limit) {
    case Limit::carbon_to_nitrogen: return reason_of_ratio(recipe);
    case Limit::moisture: return reason_of_moisture(recipe);
    case Limit::air_space: return HeldBackReason::packs_down;
    case Limit::share: return HeldBackReason::largest_share;
    case Limit::amount: return reason_of_amount(held, recipe);
    case Limit::capacity:
      return recipe.size_set_by && recipe.size_set_by->from == SizeFrom::fill ? HeldBackReason::as_big_as_asked
                                                                              : HeldBackReason::room_is_full;
    case Limit::water: return HeldBackReason::no_more_water;
  }
  return HeldBackReason::no_more_of_it;
}

EverythingVerdict everything_verdict(const Recipe& recipe) {
  constexpr double same_to = 1e-3;
  if (!recipe.everything_in || others_go_in(recipe)) return EverythingVerdict::same;
  const EverythingIn& all = *recipe.everything_in;
  if (recipe.mix && apart(all.mix.dry, recipe.mix->dry) < same_to * recipe.mix->dry) return EverythingVerdict::same;
  const std::optional<Volume> limit = room_for(recipe);
  if (limit && *all.mix.volume > *limit) return EverythingVerdict::overfills;
  return all.distance_from_aim <= as_good ? EverythingVerdict::may_all_go_in : EverythingVerdict::off;
}

namespace {

const std::vector<Help>& ways_counted(const Recipe& recipe) {
  return is_mended_by_what_rots(recipe) ? recipe.counting_what_rots->ways : recipe.what_would_help;
}

}  // namespace

bool mended_overfills(const Recipe& recipe) {
  const std::optional<Volume> limit = room_for(recipe);
  const std::vector<Help>& ways = ways_counted(recipe);
  return limit && !ways.empty() && *ways.front().mix.volume > *limit;
}

std::vector<Help> ways_to_mend(const Recipe& recipe) {
  if (verdict_of(recipe) == RecipeVerdict::nearly_right && is_hardly_off(recipe)) return {};
  const bool on_target = recipe.status == RecipeStatus::on_target;
  const bool may_go_in = on_target && recipe.everything_in && recipe.everything_in->distance_from_aim <= as_good;
  if (may_go_in || (on_target && mended_overfills(recipe))) return {};
  return ways_counted(recipe);
}

bool is_mended_by_what_rots(const Recipe& recipe) {
  const auto& counting = recipe.counting_what_rots;
  return verdict_of(recipe) == RecipeVerdict::far_off && counting && !counting->ways.empty();
}

std::optional<GreensIn> greens_lacking(const Recipe& recipe) {
  constexpr double far = 1.2;  // by a fifth, judged
  if (!recipe.mix || !recipe.mix->what_rots) return std::nullopt;
  if (verdict_of(recipe) == RecipeVerdict::far_off) return std::nullopt;
  if (!(recipe.mix->what_rots->carbon_to_nitrogen > far * recipe.targets.carbon_to_nitrogen.high)) return std::nullopt;
  const AsBuilt pile = as_built(recipe);
  const bool some = std::any_of(pile.amounts.begin(), pile.amounts.end(), [&](const RecipeAmount& amount) {
    return goes_in(amount, pile.mix) && (is_green(amount) || amount.feedstock_class == FeedstockClass::supplement);
  });
  return some ? GreensIn::too_few : GreensIn::none;
}

AloneIs alone_is(const Recipe& recipe) {
  const Mix mix = as_built(recipe).mix;
  const auto& ratio = recipe.targets.carbon_to_nitrogen;
  const bool wet = mix.moisture && *mix.moisture > just_above(recipe.targets.moisture.high);
  const bool green = mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen < just_below(ratio.low);
  if (wet || green) return AloneIs::wet_or_green;
  return mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen > just_above(ratio.high) ? AloneIs::brown : AloneIs::otherwise_off;
}

Watering watering_of(const Recipe& recipe) {
  constexpr WaterMass splash = 0.1 * unit::kg_water;
  const MoistureWetBasis shown = wet_basis(0.005);
  const AsBuilt pile = as_built(recipe);
  if (pile.water_to_add >= splash) return Watering::so_much;
  const bool dry = pile.mix.moisture && *pile.mix.moisture < recipe.targets.moisture.low - shown;
  if (dry) return recipe.options.most_water ? Watering::stays_too_dry : Watering::a_little;
  const bool none_wanted = recipe.options.most_water || recipe.options.goal == Goal::least_water;
  return none_wanted ? Watering::none_wanted : Watering::wet_enough;
}

std::optional<Volume> room_for(const Recipe& recipe) {
  const std::optional<Volume>& capacity = recipe.options.capacity;
  return recipe.room && capacity ? std::min(*recipe.room, *capacity) : recipe.room ? recipe.room : capacity;
}

bool overfills(const Recipe& recipe) {
  constexpr double rounding = 1.0 + 1e-6;
  return recipe.room && recipe.mix && *as_built(recipe).mix.volume > rounding * *recipe.room;
}

bool room_sets_size(const Recipe& recipe) { return recipe.size_set_by && recipe.size_set_by->from == SizeFrom::room; }

bool is_bought_by_weight(const Recipe& recipe) {
  const AsBuilt pile = as_built(recipe);
  return std::any_of(pile.amounts.begin(), pile.amounts.end(),
                     [](const RecipeAmount& amount) { return amount.bought && !amount.containers && is_positive(amount.mass); });
}

std::vector<Remainder> remainders_of(const Recipe& recipe) {
  std::vector<Remainder> remainders;
  if (!recipe.mix) return remainders;
  const AsBuilt pile = as_built(recipe);
  for (std::size_t i = 0; i < pile.amounts.size(); ++i) {
    const RecipeAmount& amount = pile.amounts[i];
    if (!is_left(amount)) continue;
    std::optional<ContainerCount> left = amount.containers ? amount.containers_left : std::nullopt;
    if (left && left->container == amount.containers->container)
      left->count = std::max(0.0, to_the_half(left->count + amount.containers->count) - to_the_half(amount.containers->count));
    const std::optional<WhyLeft> why = i < recipe.why_left.size() ? std::optional(recipe.why_left[i]) : std::nullopt;
    remainders.push_back({amount, *amount.left_over, std::move(left), why});
  }
  return remainders;
}

std::vector<RecipeAmount> all_there_is(const Recipe& recipe) {
  std::vector<RecipeAmount> all;
  for (RecipeAmount amount : recipe.amounts) {
    if (!amount.left_over || !is_positive(amount.volume + *amount.left_over)) continue;
    amount.volume += *amount.left_over;
    amount.mass += amount.mass_left.value_or(Mass());
    if (amount.containers && amount.containers_left) amount.containers->count += amount.containers_left->count;
    all.push_back(std::move(amount));
  }
  return all;
}

std::vector<RecipeAmount> not_needed(const Recipe& recipe) {
  std::vector<RecipeAmount> unused;
  if (!recipe.mix) return unused;
  const AsBuilt pile = as_built(recipe);
  for (const RecipeAmount& amount : pile.amounts) {
    if (!amount.left_over && !goes_in(amount, *recipe.mix)) unused.push_back(amount);
  }
  return unused;
}

namespace {

/// Whole ones alone: less than two in a layer are better said as a part.
std::optional<int> containers_at_the_bottom(const Layering& layering) {
  if (layering.browns.size() != 1 || !layering.browns.front().containers) return std::nullopt;
  const double each = layering.browns.front().containers->count / (layering.layers + 1);
  return each < 1.5 ? std::nullopt : std::optional(static_cast<int>(std::round(each)));
}

}  // namespace

std::optional<Layering> layering_of(const Recipe& recipe) {
  if (!recipe.mix) return std::nullopt;
  const AsBuilt pile = as_built(recipe);
  Layering layering;
  Volume loose;
  for (const RecipeAmount& amount : pile.amounts) {
    if (!goes_in(amount, pile.mix)) continue;
    (amount.feedstock_class == FeedstockClass::keeper ? layering.browns : layering.greens).push_back(amount);
    loose += amount.volume;
  }
  if (layering.browns.empty() || layering.greens.empty()) return std::nullopt;
  constexpr Volume of_one_layer = 0.25 * unit::m3;  // a foot of loose stuff on a yard square, browns and greens together
  constexpr double most_layers = 5.0;
  layering.layers = static_cast<int>(std::clamp(std::round(loose / of_one_layer), 1.0, most_layers));
  layering.at_the_bottom = containers_at_the_bottom(layering);
  return layering;
}

}  // namespace heapwright
