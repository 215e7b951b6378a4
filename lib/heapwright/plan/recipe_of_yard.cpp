#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/ranges.hpp"
#include "heapwright/plan/answered.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/assumed.hpp"
#include "heapwright/plan/what_rots.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/recipe/help.hpp"
#include "heapwright/recipe/proportion.hpp"
#include "heapwright/recipe/verdict.hpp"
#include "heapwright/recipe/whole.hpp"
#include "heapwright/recipe/why_left.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr const char* chosen = "what the recipe comes to";

bool keeps_dry_stuff(const Supply& supply) {
  return supply.feedstock.feedstock_class == FeedstockClass::keeper && supply.feedstock.has_tag("dusty");
}

/// A full container of more than 50 lb that is lifted by hand. (common practice: two lift it, or fill it less)
bool is_heavy(const RecipeAmount& amount, const Materials& materials) {
  constexpr Mass heavy = 50.0 * unit::pound;
  constexpr double full = 0.999;
  if (!amount.containers || amount.containers->count < full) return false;
  const Container* container = row_with_id(*materials.containers, amount.containers->container);
  return container != nullptr && container->lifted && amount.mass / amount.containers->count > heavy;
}

/// Big, dry and so able to heat itself until it burns: judged, ten cubic yards and below the moisture that works.
bool is_big_and_dry(const Mix& mix, const Targets& targets) {
  constexpr Volume big = 10.0 * unit::cubic_yard;
  return mix.volume && *mix.volume >= big && mix.moisture && *mix.moisture < targets.moisture.low;
}

Facts facts_of_pile(const Yard& yard, const Recipe& recipe, Date built) {
  Facts facts = facts_of(yard.observations);
  for (const LeftOut& left : recipe.left_out) {
    facts.insert(Fact::treated);
    if (left.treated == Treated::unknown) facts.insert(Fact::herbicide);
  }
  if (!recipe.mix) return facts;
  facts.insert(Fact::pile);
  if (is_big_and_dry(*recipe.mix, recipe.targets)) facts.insert(Fact::big_dry_pile);
  const auto heavy = [&](const RecipeAmount& amount) { return goes_in(amount, *recipe.mix) && is_heavy(amount, yard.tables.materials); };
  if (std::any_of(recipe.amounts.begin(), recipe.amounts.end(), heavy)) facts.insert(Fact::heavy_containers);
  if (yard.pile) facts.merge(facts_of(*yard.pile, built));
  return facts;
}

std::vector<LeftOut> left_out_of(const std::vector<Supply>& supplies) {
  std::vector<LeftOut> left_out;
  for (const Supply& supply : supplies) {
    if (!supply.may_carry_weedkiller()) continue;
    const Feedstock& feedstock = supply.feedstock;
    left_out.push_back({feedstock.id, supply.name(), feedstock.feedstock_class == FeedstockClass::clippings, feedstock.has_tag("manure"),
                        *supply.treated});
  }
  return left_out;
}

/// What a pile may get.
std::vector<Supply> fit_for_a_pile(std::vector<Supply> supplies) {
  std::erase_if(supplies, [](const Supply& supply) { return supply.may_carry_weedkiller(); });
  return supplies;
}

/// Water is given in half gallons or liters, of a large pile in gallons or five liters, of a small one in pints or half liters.
WaterMass water_measure(ShownUnits units, const Recipe& recipe) {
  const WaterMass pint(unit::pint * water_density());
  constexpr WaterMass large = 40.0 * unit::kg_water;
  constexpr Mass small = 20.0 * unit::kg;
  const bool is_small = !recipe.mix || recipe.mix->mass < small;
  const bool is_large = recipe.water_to_add >= large;
  if (units == ShownUnits::si) return (is_small ? 0.5 : is_large ? 5.0 : 1.0) * unit::kg_water;
  return (is_small ? 1.0 : is_large ? 8.0 : 4.0) * pint;
}

/// "For every cubic yard": the pile that stands as an example where a yard gives no amounts.
Volume example_pile(ShownUnits units) { return units == ShownUnits::si ? 1.0 * unit::m3 : unit::cubic_yard; }

std::vector<std::size_t> main_supplies_of(const RecipeQuestion& question, const Recipe& recipe) {
  std::vector<std::size_t> main = main_supplies(question);
  std::erase_if(main, [&](std::size_t i) { return !goes_in(recipe.amounts[i], *recipe.mix); });
  return main;
}

/// Whether nobody mows then: outside the season, but for lawns that hardly have a winter.
bool has_no_clippings(const Yard& yard, Date day) {
  const TemperaturePoint grass_grows = TemperaturePoint::from_celsius(10.0);  // judged
  const bool grows_all_year = yard.climate && yard.climate->coldest_month && *yard.climate->coldest_month >= grass_grows;
  return !is_mowing_season(day) && !grows_all_year;
}

/// What the person can get besides; not what they have and must leave out, and no clippings in winter.
std::vector<RecipeSupply> can_be_got(const Yard& yard, Date built) {
  std::vector<RecipeSupply> supplies = easy_to_get(yard.tables.materials);
  const bool no_clippings = has_no_clippings(yard, built);
  std::erase_if(supplies, [&](const RecipeSupply& other) {
    const bool grassy = known_row(*yard.tables.materials.feedstocks, other.ingredient.id).has_tag("grassy");
    if (grassy && no_clippings) return true;
    return std::any_of(yard.supplies.begin(), yard.supplies.end(),
                       [&](const Supply& supply) { return supply.may_carry_weedkiller() && supply.feedstock.id == other.ingredient.id; });
  });
  return supplies;
}

/// The room of the bins, where no size was asked for and what must go in does not want more.
std::optional<Volume> room_that_limits(const Yard& yard, const RecipeQuestion& question) {
  if (!yard.pile || yard.options.fill) return std::nullopt;
  const Volume room = room_of(*yard.pile);
  if (yard.options.capacity && *yard.options.capacity <= room) return std::nullopt;
  Volume fixed;
  for (const RecipeSupply& supply : question.supplies) {
    if (supply.is_fixed()) fixed += Volume(*supply.available / *supply.ingredient.density);
  }
  const bool holds_it = yard.options.settling * fixed <= room;
  return holds_it ? std::optional(room) : std::nullopt;
}

/// The places of what comes week by week, and of the browns to put with it.
std::vector<std::size_t> fed_supplies(const RecipeQuestion& question) {
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    const bool some = !supply.available || is_positive(*supply.available);
    if (supply.load || (supply.feedstock_class == FeedstockClass::keeper && some)) places.push_back(i);
  }
  return places;
}

std::vector<NotToday> not_today_of(const std::vector<Supply>& supplies, Date built) {
  std::vector<NotToday> waiting;
  for (const Supply& supply : supplies) {
    const bool some = !supply.amount || !is_zero(*supply.amount);
    if (!some || !comes_fresh(supply)) continue;
    const double share = share_on_hand(supply, built);
    const bool of_a_year = supply.amount && std::holds_alternative<Months>(supply.when);
    if (share > 0.0 && !(of_a_year && share < used_up)) continue;
    waiting.push_back({supply.feedstock.id, supply.name(), supply.feedstock.used_keeps(), season_of(supply), share, supply.bought});
  }
  return waiting;
}

/// A recipe with all that makes it one to carry out: whole containers, parts, cards, help.
Recipe practical(const RecipeQuestion& question, Recipe recipe, const Yard& yard, Date built) {
  const Container& bucket = known_row(*yard.tables.materials.containers, "bucket");
  const SmallMeasures measure{water_measure(yard.units, recipe), so_many(1.0, bucket)};
  const bool wants_a_size = recipe.status == RecipeStatus::no_size && !recipe.additions_only;
  if (wants_a_size)
    recipe = recipe_without_a_size(question, example_pile(yard.units), measure, yard.tables.materials, can_be_got(yard, built));
  if (wants_a_size || !recipe.mix) return recipe;
  recipe.whole_containers = in_whole_containers(question, recipe, measure);
  const std::vector<std::size_t> main = main_supplies_of(question, recipe);
  recipe.proportion = proportion_of(question, main, yard.tables.materials);
  const bool week_by_week =
      std::any_of(question.supplies.begin(), question.supplies.end(), [](const RecipeSupply& supply) { return supply.load.has_value(); });
  if (week_by_week) recipe.cards = cards_of(question, fed_supplies(question), measure);
  if (!recipe.held_back_by.empty()) recipe.what_would_help = what_would_help(question, recipe, can_be_got(yard, built));
  return recipe;
}

/// All that is on hand, without water.
Blend all_on_hand(const RecipeQuestion& question) {
  Amounts amounts;
  for (const RecipeSupply& supply : question.supplies) amounts.supplies.push_back(supply.available.value_or(Mass()));
  return blend_of(question, amounts);
}

/// The amounts of a good pile with such things in it, of a recipe that leaves them all out.
std::vector<RecipeAmount> pile_with_what_hardly_rots(const RecipeQuestion& rotting, const Recipe& recipe, const Materials& materials) {
  if (!has_size(recipe) || takes_what_hardly_rots(rotting, recipe)) return {};
  const std::optional<Answered> good = bedded(rotting, materials);
  if (!good) return {};
  std::vector<RecipeAmount> amounts;
  for (const RecipeAmount& amount : good->recipe.amounts) {
    if (goes_in(amount, *good->recipe.mix)) amounts.push_back(amount);
  }
  return amounts;
}

/// What rots of all that is on hand; nothing where hardly anything is wood or old compost.
std::optional<WhatRots> what_rots_on_hand(const RecipeQuestion& question, const Yard& yard) {
  const Blend all = all_on_hand(question);
  if (!may_hardly_rot(all, yard.tables.materials)) return std::nullopt;
  return what_rots(all, yard.tables.materials, *yard.tables.ensemble);
}

CountingWhatRots counting_what_rots(const RecipeQuestion& rotting, const WhatRots& found, const Recipe& first, const Yard& yard,
                                    Date built) {
  const Materials& materials = yard.tables.materials;
  const RecipeQuestion others = by_what_rots({can_be_got(yard, built), {}, {}}, materials, *yard.tables.ensemble);
  const Recipe recipe = solve(rotting);
  CountingWhatRots counting{found.hardly_rots, {}, pile_with_what_hardly_rots(rotting, first, materials)};
  if (recipe.mix) counting.ways = what_would_help(rotting, recipe, others.supplies);
  return counting;
}

Recipe finished(Answered answered, const Targets& targets, const Yard& yard, Date built) {
  Recipe recipe = practical(answered.question, std::move(answered.recipe), yard, built);
  if (has_size(recipe)) recipe.size_set_by = size_set_by(answered.question, recipe);
  if (recipe.mix) recipe.why_left = why_left(answered.question, recipe);
  if (answered.windows != FoundWithin::targets) judge_by(targets, answered.windows, recipe);
  return recipe;
}

/// The recipe that balances all its carbon; where none does, but one that counts what rots is good and has what hardly rots in it, that
/// one.
Recipe balanced(const RecipeQuestion& question, const Yard& yard, Date built) {
  const Materials& materials = yard.tables.materials;
  Recipe recipe = finished(largest_good(question), question.targets, yard, built);
  const std::optional<WhatRots> found = recipe.mix ? what_rots_on_hand(question, yard) : std::nullopt;
  if (!found) return recipe;
  const RecipeQuestion rotting = by_what_rots(question, materials, *yard.tables.ensemble);
  std::optional<Answered> good = recipe.status == RecipeStatus::nearest ? bedded(rotting, materials) : std::nullopt;
  if (good) {
    Recipe counted = finished(std::move(*good), question.targets, yard, built);
    count_all_of(question, recipe, counted);
    return counted;
  }
  recipe.counting_what_rots = counting_what_rots(rotting, *found, recipe, yard, built);
  return recipe;
}

/// What goes into a pile, as ingredients and as taken from its supplies.
struct Ingredients {
  std::vector<Ingredient> ingredients;
  std::vector<Taken> taken;
};
Ingredients ingredients_of(const std::vector<Supply>& supplies, const RecipeQuestion& question, const std::vector<RecipeAmount>& amounts,
                           const Mix& mix) {
  Ingredients going_in;
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    if (!goes_in(amounts[i], mix)) continue;  // what stays out neither warns nor matters
    going_in.ingredients.push_back(supplies[i].ingredient(amounts[i].mass));
    going_in.taken.push_back({&supplies[i], question.supplies[i].available});
  }
  return going_in;
}

/// Whether an amount is counted as the person counts the supply; else the count may be of another density.
bool is_counted_alike(const Supply& supply, const RecipeSupply& asked, const RecipeAmount& amount) {
  const bool own_container =
      supply.amount && asked.counted_in && amount.containers && asked.counted_in->container == amount.containers->container;
  const bool lies_alike = !amount.containers || supply.packing_of(*amount.containers) == supply.packing_as_counted();
  return own_container || (!supply.shredded && lies_alike);
}

Batch batch_of(const std::vector<Supply>& supplies, const RecipeQuestion& question, const AsBuilt& pile, ShareOfLooseVolume settling) {
  Batch batch{{}, pile.water_to_add, chosen, settling};
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    const RecipeAmount& amount = pile.amounts[i];
    if (!goes_in(amount, pile.mix)) continue;
    batch.portions.push_back({supplies[i], amount.mass,
                              amount.containers && is_counted_alike(supplies[i], question.supplies[i], amount)
                                  ? std::optional<Amount>(*amount.containers)
                                  : std::nullopt,
                              chosen});
  }
  return batch;
}

Facts facts_of_what_goes_in(const std::vector<Supply>& supplies, const Recipe& recipe) {
  Facts facts;
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    const RecipeAmount& amount = recipe.amounts[i];
    if (is_left(amount) && keeps_dry_stuff(supplies[i])) facts.insert(Fact::stored_browns);
    if (goes_in(amount, *recipe.mix)) facts.merge(facts_of(supplies[i]));
  }
  return facts;
}

bool are_whole_leaves(const Supply& supply) {
  const bool cut = supply.shredded || supply.packing_as_counted() == "shredded";
  return supply.feedstock.has_tag("leaves") && !cut && supply.feedstock.find_packing("shredded") != nullptr;
}

/// Of a recipe with a mix.
std::vector<Basic> basics_of(const Yard& yard, const std::vector<Supply>& supplies, const Recipe& recipe) {
  const AsBuilt pile = as_built(recipe);
  const auto some_go_in = [&](auto&& are_so) {
    for (std::size_t i = 0; i < supplies.size(); ++i) {
      if (goes_in(pile.amounts[i], pile.mix) && are_so(supplies[i])) return true;
    }
    return false;
  };
  const bool tumbler = yard.pile && yard.pile->shape == PileShape::tumbler;
  const bool bin = yard.pile && (yard.pile->shape == PileShape::bin || yard.pile->shape == PileShape::round);
  std::vector<Basic> basics;
  if (some_go_in(are_whole_leaves)) basics.push_back(Basic::shred_leaves);
  if (tumbler) basics.push_back(Basic::rotate_a_tumbler);
  if (!tumbler && layering_of(recipe)) basics.push_back(Basic::layers_or_mixed);
  if (!tumbler && some_go_in([](const Supply& supply) { return supply.feedstock.has_tag("scraps"); }))
    basics.push_back(Basic::cover_scraps);
  if (bin) basics.push_back(Basic::top_up);
  return basics;
}

}  // namespace

Answer<Recipe> first_recipe(const Yard& yard, Date today) {
  const Date built = yard.built_or(today);
  const std::vector<Supply> supplies = fit_for_a_pile(yard.supplies);
  RecipeQuestion question = recipe_question(supplies, yard.targets, yard.options, built, yard.tables.materials);
  for (std::size_t i = 0; i < supplies.size(); ++i)
    question.supplies[i].out_of_season = supplies[i].feedstock.has_tag("grassy") && has_no_clippings(yard, built);
  const std::optional<Volume> room = room_that_limits(yard, question);
  if (room) question.options.capacity = room;
  Answer<Recipe> answer{{}, balanced(question, yard, built)};
  Recipe& recipe = answer.result;
  recipe.options = yard.options;
  if (yard.pile) recipe.room = room_of(*yard.pile);
  recipe.not_today = not_today_of(supplies, built);
  for (Card& card : recipe.cards) card.season = season_of(supplies[card.supply]);
  if (has_size(recipe) && room && recipe.size_set_by->from == SizeFrom::capacity) recipe.size_set_by->from = SizeFrom::room;
  recipe.left_out = left_out_of(yard.supplies);
  if (recipe.status == RecipeStatus::no_size) recipe.bags_to_a_catcher = bags_to_a_catcher(question, yard.tables.materials);
  if (recipe.everything_in) {
    Blend all = all_on_hand(question);
    all.added_water = recipe.everything_in->water_to_add;
    note_what_rots(recipe.everything_in->mix, all, yard.tables.materials, *yard.tables.ensemble);
  }
  if (recipe.mix) recipe.basics = basics_of(yard, supplies, recipe);
  Facts facts = facts_of_pile(yard, recipe, built);
  if (recipe.mix) {
    const Ingredients exact = ingredients_of(supplies, question, recipe.amounts, *recipe.mix);
    const Blend blend{exact.ingredients, recipe.water_to_add, yard.options.settling};
    for (std::size_t at = 0; at < exact.taken.size(); ++at) take_on(exact.taken[at], blend, at, yard.tables.materials, answer.assumptions);
    assume_windows(exact.taken, answer.assumptions);
    answer.measure_first = measure_first(blend, exact.taken, yard.tables.materials);
    recipe.mix->ranges = ranges_of(blend, exact.taken, yard.targets, yard.tables.materials);
    facts.merge(facts_of_what_goes_in(supplies, recipe));
    note_what_rots(*recipe.mix, blend, yard.tables.materials, *yard.tables.ensemble);
    recipe.batch = batch_of(supplies, question, as_built(recipe), yard.options.settling);
    if (recipe.whole_containers) {
      WholeContainers& whole = *recipe.whole_containers;
      const Ingredients counted = ingredients_of(supplies, question, whole.amounts, whole.mix);
      const Blend of_whole{counted.ingredients, whole.water_to_add, yard.options.settling};
      whole.mix.ranges = ranges_of(of_whole, counted.taken, yard.targets, yard.tables.materials);
      note_what_rots(whole.mix, of_whole, yard.tables.materials, *yard.tables.ensemble);
    }
  }
  const bool seasons = std::any_of(yard.supplies.begin(), yard.supplies.end(),
                                   [](const Supply& supply) { return !std::holds_alternative<std::monostate>(supply.when); });
  if (seasons && !(yard.pile && yard.pile->built))
    answer.assumptions.push_back({"the pile is built today", built, std::nullopt, std::nullopt, "you gave no date", std::nullopt});
  order_by_weight(answer.assumptions);
  answer.cautions = cautions_for(*yard.tables.materials.cautions, facts);
  return answer;
}

}  // namespace heapwright
