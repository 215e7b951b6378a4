#include "heapwright/plan/plan.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"
#include "heapwright/heap/description.hpp"
#include "heapwright/mix/ranges.hpp"
#include "heapwright/recipe/help.hpp"
#include "heapwright/recipe/proportion.hpp"
#include "heapwright/recipe/whole.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr const char* chosen = "what the recipe comes to";

/// Each id once, in the order of the cautions table, which is the order of importance.
std::vector<std::string> ranked(const std::vector<std::string>& ids, const Materials& materials) {
  std::vector<std::string> order;
  for (const Caution& caution : materials.cautions) {
    if (std::find(ids.begin(), ids.end(), caution.id) != ids.end()) order.push_back(caution.id);
  }
  return order;
}

/// Adds what a supply takes for granted, each with what it could change of a blend that the supply is an ingredient of.
void take_on(const Taken& taken, const Blend& blend, std::size_t ingredient, const Materials& materials,
             std::vector<Assumption>& assumptions) {
  for (Assumption& assumption : assumptions_of(*taken.supply, materials)) {
    assumption.could_change_answer = change_of_mix(blend, ingredient, taken, assumption);
    const auto known = std::find_if(assumptions.begin(), assumptions.end(), [&](const Assumption& other) {
      return other.what == assumption.what && other.value == assumption.value;
    });
    if (known == assumptions.end()) {
      assumptions.push_back(std::move(assumption));
    } else if (known->could_change_answer && assumption.could_change_answer) {  // two supplies of one feedstock move together
      *known->could_change_answer += *assumption.could_change_answer;
    }
  }
}

/// What of the seasons' supplies is on hand, said once for all that keep and once for all that do not.
void assume_windows(const std::vector<Taken>& taken, std::vector<Assumption>& assumptions) {
  for (const bool storable : {true, false}) {
    std::string names;
    for (const Taken& one : taken) {
      const Supply& supply = *one.supply;
      const bool seasonal = supply.amount && !std::holds_alternative<std::monostate>(supply.when);
      if (seasonal && supply.storable == storable) names += (names.empty() ? "" : ", ") + supply.feedstock.name;
    }
    if (names.empty()) continue;
    const std::string window = storable ? "stored, what came in over the twelve months before the heap is built"
                                        : "fresh, what comes in over the last 30 days before";
    assumptions.push_back({names, window, std::nullopt, std::nullopt, "judged by us", std::nullopt});
  }
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

bool keeps_dry_stuff(const Supply& supply) {
  return supply.feedstock.feedstock_class == FeedstockClass::keeper && supply.feedstock.has_tag("dusty");
}

/// A full container of more than 50 lb that is lifted by hand. (common practice: two lift it, or fill it less)
bool is_heavy(const RecipeAmount& amount, const Materials& materials) {
  const double heavy = 50.0 * unit_size(Dimension::mass, "lb");
  constexpr double full = 0.999;
  if (!amount.containers || amount.containers->count < full) return false;
  const Container* container = find_container(materials.containers, amount.containers->container);
  return container != nullptr && container->lifted && amount.mass.value() / amount.containers->count > heavy;
}

/// Big, dry and so able to heat itself until it burns: judged, ten cubic yards and below the moisture that works.
bool is_big_and_dry(const Mix& mix, const Targets& targets) {
  const double big = 10.0 * unit_size(Dimension::volume, "yd3");
  return mix.volume && mix.volume->value() >= big && mix.moisture && *mix.moisture < targets.moisture.low;
}

Facts facts_of_heap(const Yard& yard, const Recipe& recipe, Date built) {
  Facts facts = facts_of(yard.observations);
  if (!recipe.left_out.empty()) facts.insert(Fact::treated);
  if (!recipe.mix) return facts;
  facts.insert(Fact::heap);
  if (is_big_and_dry(*recipe.mix, recipe.targets)) facts.insert(Fact::big_dry_heap);
  const auto heavy = [&](const RecipeAmount& amount) { return goes_in(amount, *recipe.mix) && is_heavy(amount, yard.materials); };
  if (std::any_of(recipe.amounts.begin(), recipe.amounts.end(), heavy)) facts.insert(Fact::heavy_containers);
  if (yard.heap) facts.merge(facts_of(*yard.heap, built));
  return facts;
}

std::vector<LeftOut> left_out_of(const std::vector<Supply>& supplies) {
  std::vector<LeftOut> left_out;
  for (const Supply& supply : supplies) {
    if (!supply.may_carry_weedkiller()) continue;
    const Feedstock& feedstock = supply.feedstock;
    left_out.push_back({feedstock.id, feedstock.name, feedstock.feedstock_class == FeedstockClass::clippings, feedstock.has_tag("manure"),
                        *supply.treated});
  }
  return left_out;
}

/// What a heap may get.
std::vector<Supply> fit_for_a_heap(std::vector<Supply> supplies) {
  std::erase_if(supplies, [](const Supply& supply) { return supply.may_carry_weedkiller(); });
  return supplies;
}

/// Water is told in half gallons or litres, of a large heap in gallons or five litres.
WaterMass water_measure(ShownUnits units, WaterMass water) {
  const double gallon = unit_size(Dimension::volume, "gal") * water_kg_per_m3;
  constexpr double large = 40.0;  // kg
  if (units == ShownUnits::si) return (water.value() < large ? 1.0 : 5.0) * unit::kg_water;
  return (water.value() < large ? 0.5 : 1.0) * gallon * unit::kg_water;
}

/// "For every cubic yard": the heap that a yard without amounts is told of.
Volume example_heap(ShownUnits units) { return (units == ShownUnits::si ? 1.0 : unit_size(Dimension::volume, "yd3")) * unit::m3; }

std::vector<std::size_t> main_supplies_of(const RecipeQuestion& question, const Recipe& recipe) {
  std::vector<std::size_t> main = main_supplies(question);
  std::erase_if(main, [&](std::size_t i) { return !goes_in(recipe.amounts[i], *recipe.mix); });
  return main;
}

/// What the person can get besides; not what they have and must leave out.
std::vector<RecipeSupply> can_be_got(const Yard& yard) {
  std::vector<RecipeSupply> supplies = easy_to_get(yard.materials);
  std::erase_if(supplies, [&](const RecipeSupply& other) {
    return std::any_of(yard.supplies.begin(), yard.supplies.end(),
                       [&](const Supply& supply) { return supply.may_carry_weedkiller() && supply.feedstock.id == other.ingredient.id; });
  });
  return supplies;
}

/// The recipe with all that makes it one to carry out: whole containers, parts, cards, help.
Recipe solved(const RecipeQuestion& question, const Yard& yard) {
  Recipe recipe = solve(question);
  const Container& bucket = *find_container(yard.materials.containers, "bucket");
  const SmallMeasures measure{water_measure(yard.units, recipe.water_to_add), {bucket.id, 1.0, bucket.volume}};
  const bool wants_a_size = recipe.status == RecipeStatus::no_size && !recipe.additions_only;
  if (wants_a_size) recipe = recipe_without_a_size(question, example_heap(yard.units), measure, yard.materials);
  if (wants_a_size || !recipe.mix) return recipe;
  recipe.whole_containers = in_whole_containers(question, recipe, measure);
  const std::vector<std::size_t> main = main_supplies_of(question, recipe);
  recipe.proportion = proportion_of(question, main, yard.materials);
  const bool week_by_week =
      std::any_of(recipe.amounts.begin(), recipe.amounts.end(), [](const RecipeAmount& amount) { return amount.comes_fresh; });
  if (week_by_week) recipe.cards = cards_of(question, main, measure, yard.materials);
  if (!recipe.held_back_by.empty()) recipe.what_would_help = what_would_help(question, recipe, can_be_got(yard));
  return recipe;
}

/// What goes into a heap, as ingredients and as taken from its supplies.
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

Batch batch_of(const std::vector<Supply>& supplies, const Told& heap, ShareOfLooseVolume settling) {
  Batch batch{{}, heap.water_to_add, chosen, settling};
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    const RecipeAmount& amount = heap.amounts[i];
    if (!goes_in(amount, heap.mix)) continue;
    batch.portions.push_back(
        {supplies[i], amount.mass, amount.containers ? std::optional<Amount>(*amount.containers) : std::nullopt, chosen});
  }
  return batch;
}

/// Whether more than dust of something is left to keep.
bool is_left(const RecipeAmount& amount) {
  return amount.left_over && amount.left_over->value() > 1e-3 * (amount.volume + *amount.left_over).value();
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
  answer.batch = {{}, added_water, "your own figure", yard.wishes.settling};
  std::vector<Taken> taken;
  Facts facts = facts_of(yard.observations);
  for (const Supply& supply : yard.supplies) {
    const std::optional<Amount> amount = on_hand(supply, yard.built_or(today));
    if (supply.bought || !amount || is_zero(*amount)) continue;
    blend.ingredients.push_back(supply.ingredient(*supply.mass(*amount)));
    taken.push_back({&supply, blend.ingredients.back().mass});
    answer.batch.portions.push_back(portion_on_hand(supply, *amount));
    facts.merge(facts_of(supply));
    if (supply.may_carry_weedkiller()) facts.insert(Fact::treated);
  }
  if (blend.ingredients.empty()) return answer;
  answer.mix = mix_of(blend);
  answer.mix->ranges = ranges_of(blend, taken, yard.targets, yard.materials);
  for (std::size_t i = 0; i < taken.size(); ++i) take_on(taken[i], blend, i, yard.materials, answer.assumptions);
  assume_windows(taken, answer.assumptions);
  order_by_weight(answer.assumptions);
  answer.measure_first = measure_first(blend, taken, yard.materials);
  answer.cautions = cautions_for(yard.materials.cautions, facts);
  return answer;
}

Recipe first_recipe(const Yard& yard, Date today) {
  const Date built = yard.built_or(today);
  const std::vector<Supply> supplies = fit_for_a_heap(yard.supplies);
  const RecipeQuestion question = recipe_question(supplies, yard.targets, yard.wishes, built, yard.materials);
  Recipe recipe = solved(question, yard);
  recipe.left_out = left_out_of(yard.supplies);
  Facts facts = facts_of_heap(yard, recipe, built);
  if (recipe.mix) {
    const Ingredients exact = ingredients_of(supplies, question, recipe.amounts, *recipe.mix);
    const Blend blend{exact.ingredients, recipe.water_to_add, yard.wishes.settling};
    for (std::size_t at = 0; at < exact.taken.size(); ++at) take_on(exact.taken[at], blend, at, yard.materials, recipe.assumptions);
    assume_windows(exact.taken, recipe.assumptions);
    recipe.measure_first = measure_first(blend, exact.taken, yard.materials);
    recipe.mix->ranges = ranges_of(blend, exact.taken, yard.targets, yard.materials);
    facts.merge(facts_of_what_goes_in(supplies, recipe));
    recipe.batch = batch_of(supplies, told(recipe), yard.wishes.settling);
    if (recipe.whole_containers) {
      WholeContainers& whole = *recipe.whole_containers;
      const Ingredients counted = ingredients_of(supplies, question, whole.amounts, whole.mix);
      whole.mix.ranges =
          ranges_of({counted.ingredients, whole.water_to_add, yard.wishes.settling}, counted.taken, yard.targets, yard.materials);
    }
  }
  const bool seasons = std::any_of(yard.supplies.begin(), yard.supplies.end(),
                                   [](const Supply& supply) { return !std::holds_alternative<std::monostate>(supply.when); });
  if (seasons && !(yard.heap && yard.heap->built))
    recipe.assumptions.push_back({"the heap is built today", built, std::nullopt, std::nullopt, "you gave no date", std::nullopt});
  order_by_weight(recipe.assumptions);
  recipe.cautions = cautions_for(yard.materials.cautions, facts);
  return recipe;
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
