#include "heapwright/recipe/recipe.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/recipe/held_back.hpp"
#include "heapwright/recipe/main_pair.hpp"
#include "heapwright/recipe/programme.hpp"

namespace heapwright {
namespace {

constexpr Mass least_amount = Mass::from_value(0.001);  // less than a gram of anything is nothing in a pile
constexpr double comfortable = 0.6;                     // README, use-most
constexpr double swelling_off_target = 1.0;             // README, stages
constexpr double widest_swelling = 1024.0;              // README, swelling
constexpr double pays = 1e-6;
constexpr double next_dearer_money = 1.10;
constexpr double next_dearer_gain = 0.25;

/// Something that goes in for certain, or that there is so much of to use up.
bool gives_a_size(const RecipeQuestion& question) {
  return std::any_of(question.supplies.begin(), question.supplies.end(),
                     [](const RecipeSupply& supply) { return supply.is_fixed() || supply.is_raised(); });
}

/// Supplies, but only of those that a pile takes sparingly, or none of what is there.
bool only_additions(const RecipeQuestion& question) {
  return std::all_of(question.supplies.begin(), question.supplies.end(), [](const RecipeSupply& supply) {
    const bool none = supply.available && !is_positive(*supply.available);
    return none || (is_sparing(supply.feedstock_class) && supply.use == Use::up_to);
  });
}

/// Where nothing on hand gives a size, the room there is becomes the pile that is wanted.
RecipeQuestion with_a_size(RecipeQuestion question) {
  if (gives_a_size(question) || question.options.fill || !question.options.capacity) return question;
  question.options.fill = question.options.capacity;
  question.options.capacity.reset();
  return question;
}

/// The measure of an answer: the container that the person counts or buys it in, or the weight that they gave. What they gave by volume, or
/// without an amount, is given in its usual container while it can be carried so.
void settle_measure(RecipeSupply& in_recipe, const Supply& supply, const Materials& materials) {
  constexpr double can_be_carried = 40.0;
  const std::optional<Amount>& counted = supply.amount ? supply.amount : supply.priced_amount;
  in_recipe.counted_by_mass = counted && std::holds_alternative<Mass>(*counted);
  if (in_recipe.counted_by_mass) {
    in_recipe.counted_mass = *supply.mass(*counted);
    return;
  }
  const ContainerCount* containers = counted ? std::get_if<ContainerCount>(&*counted) : nullptr;
  if (containers != nullptr && containers->count > 0.0) {
    in_recipe.counted_in = *containers;
    in_recipe.counted_mass = *supply.mass(*counted);
    return;
  }
  const Container* usual = row_with_id(*materials.containers, supply.feedstock.usual_container);
  if (usual == nullptr || supply.feedstock.feedstock_class == FeedstockClass::supplement) return;
  const ContainerCount one = so_many(1.0, *usual);
  const bool lies_otherwise = supply.packing_of(one) != supply.packing_as_counted();
  if (lies_otherwise) return;
  if (counted && *volume_of(*counted) > can_be_carried * usual->volume) return;
  in_recipe.counted_in = one;
  in_recipe.counted_mass = *supply.mass(one);
  in_recipe.in_usual_container = true;
}

/// What was shredded goes into a bucket so, the rest as it lies in one.
BulkDensity density_in_a_bucket(const Supply& supply, const Materials& materials) {
  if (supply.shredded) return *supply.density();
  const ContainerCount bucket = so_many(1.0, known_row(*materials.containers, "bucket"));
  return *supply.mass(bucket) / bucket.each;
}

/// What the person counts it in; else clippings come in the mower's catcher, the rest in its usual container or a bucket.
ContainerCount container_put_in(const RecipeSupply& in_recipe, const Materials& materials) {
  const bool own = in_recipe.counted_in && !in_recipe.in_usual_container;
  if (!own && in_recipe.feedstock_class == FeedstockClass::clippings)
    return so_many(1.0, known_row(*materials.containers, "grass-catcher"));
  ContainerCount one = in_recipe.counted_in.value_or(so_many(1.0, known_row(*materials.containers, "bucket")));
  one.count = 1.0;
  return one;
}

std::optional<EverythingIn> everything_in(const RecipeQuestion& question) {
  if (!gives_a_size(question)) return std::nullopt;
  Programme programme = Programme::of_everything_in(question);
  programme.lower_distances();
  programme.keep_least_water();
  const Mix mix = mix_of(blend_of(question, programme.amounts()));
  if (!is_positive(mix.mass)) return std::nullopt;
  return EverythingIn{mix, distance_from_aim(mix, question.targets), programme.amounts().water};
}

/// A comfortable distance, if what is kept so far leaves one.
void keep_comfortable(Programme& programme, double cap) {
  if (cap > on_the_edge) return;
  const double least = programme.least_distance({all_aims.begin(), all_aims.end()}).value_or(cap);
  programme.limit_all(std::max(comfortable, least));
}

/// Whether some supplies as fully used as can be leave no room.
bool fills_the_room(const Programme& programme, const RecipeQuestion& question, const std::vector<std::size_t>& supplies) {
  if (!question.options.capacity) return false;
  Programme tried = programme;
  tried.use_fairly(supplies);
  const auto least = tried.least_volume();
  return least && *least >= used_up * *question.options.capacity;
}

/// Stage 2 for use-most: class after class, each within a comfortable distance if the ones before leave one.
void use_most(Programme& programme, const RecipeQuestion& question, double cap, Recipe& recipe) {
  for (const FeedstockClass of_class : {FeedstockClass::must_go, FeedstockClass::clippings, FeedstockClass::keeper}) {
    const std::vector<std::size_t> supplies = raised_supplies(question, of_class);
    if (supplies.empty()) continue;
    const bool must_go = of_class == FeedstockClass::must_go;
    if (!must_go || fills_the_room(programme, question, supplies)) keep_comfortable(programme, cap);
    recipe.stages.push_back({std::string(class_word(of_class)), programme.use_fairly(supplies)});
  }
}

/// Keeps what a goal is to have the least of. Nothing for use-most.
std::optional<double> keep_least(Goal goal, Programme& programme) {
  switch (goal) {
    case Goal::use_most: return std::nullopt;
    case Goal::cheapest: return programme.keep_least_cost();
    case Goal::least_bought: return programme.keep_least_volume_bought();
    case Goal::least_water: return programme.keep_least_water();
  }
  return std::nullopt;
}

void pursue_goal(Programme& programme, const RecipeQuestion& question, double cap, Recipe& recipe) {
  programme.limit_all(cap);
  if (recipe.status == RecipeStatus::not_enough) {
    recipe.stages.push_back({"largest-pile", programme.keep_greatest_volume()});
    return;
  }
  if (const auto least = keep_least(question.options.goal, programme))
    recipe.stages.push_back({std::string(goal_word(question.options.goal)), *least});
  use_most(programme, question, cap, recipe);
  if (!programme.swells()) return;
  keep_comfortable(programme, cap);
  recipe.stages.push_back({"size", programme.keep_least_loose_volume()});
}

/// README, swelling: the usual limit, or a wider one where the other hard limits leave no amounts within that. Nothing where they leave
/// none.
std::optional<double> possible_swelling(const RecipeQuestion& question) {
  if (question.supplies.empty()) return std::nullopt;
  for (double times = usual_swelling; times <= widest_swelling; times *= 2.0) {
    Programme programme(question, {.swelling = times});
    if (programme.possible()) return times;
    if (!programme.swells()) return std::nullopt;
  }
  return std::nullopt;
}

/// README, stages, 1. Nothing where no pile has a distance.
std::optional<double> least_distance(Programme& programme) {
  const std::vector<Aim> aims(all_aims.begin(), all_aims.end());
  const auto least = programme.least_distance(aims);
  if (!least || *least <= hardly_off || !programme.swells()) return least;
  const double widest = programme.hard_limits().swelling;
  programme.limit_swelling(0.5 * widest);
  const auto of_half = programme.least_distance(aims);
  const bool pays_without_end = !of_half || *of_half > *least + pays;
  programme.limit_swelling(swelling_off_target);
  const auto narrow = pays_without_end ? programme.least_distance(aims) : std::nullopt;
  if (!narrow) programme.limit_swelling(widest);
  return narrow ? narrow : least;
}

Cost cost_of(const RecipeQuestion& question, const Amounts& amounts) {
  Cost cost;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) cost += Cost(question.supplies[i].price * amounts.supplies[i]);
  return cost;
}

/// A little more money may buy a much better pile.
std::optional<NextDearer> next_dearer(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe) {
  if (question.options.goal != Goal::cheapest || recipe.status == RecipeStatus::not_enough || !is_positive(recipe.cost))
    return std::nullopt;
  Programme programme(question, hard);
  programme.limit_cost(next_dearer_money * recipe.cost);
  const auto distance = programme.least_distance({all_aims.begin(), all_aims.end()});
  if (!distance || *distance > recipe.distance_from_aim - next_dearer_gain) return std::nullopt;
  programme.limit_all(*distance);
  programme.keep_least_cost();
  return NextDearer{cost_of(question, programme.amounts()), *distance};
}

/// Whether the hard limits can be met at all, and if not, whether only the wanted fill is too much.
RecipeStatus status_before_aims(const RecipeQuestion& question, bool possible, Recipe& recipe) {
  if (question.supplies.empty()) return RecipeStatus::nothing_on_hand;
  if (!gives_a_size(question) && !question.options.fill) return RecipeStatus::no_size;
  if (possible) return RecipeStatus::on_target;
  if (!question.options.fill) return RecipeStatus::limits_clash;
  const auto greatest = Programme(question, {.fill = false}).greatest_volume_of_all();
  if (!greatest || *greatest >= *question.options.fill) return RecipeStatus::limits_clash;
  recipe.missing = Volume(*question.options.fill - *greatest);
  return RecipeStatus::not_enough;
}

void fill_in(Recipe& recipe, const RecipeQuestion& question, const Amounts& amounts) {
  recipe.mix = mix_of(blend_of(question, amounts));
  recipe.water_to_add = amounts.water;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) recipe.amounts.push_back(amount_of(question.supplies[i], amounts.supplies[i]));
  recipe.distance_from_aim = distance_from_aim(*recipe.mix, question.targets);
  recipe.cost = cost_of(question, amounts);
  if (recipe.status == RecipeStatus::not_enough) recipe.missing = Volume(*question.options.fill - *recipe.mix->volume);
}

/// Whether a goal may leave some of what there is to use up: it has the least of something that would go with it.
bool goal_may_limit(const RecipeQuestion& question) {
  const auto any = [&](auto&& has) { return std::any_of(question.supplies.begin(), question.supplies.end(), has); };
  switch (question.options.goal) {
    case Goal::use_most: return false;
    case Goal::cheapest: return any([](const RecipeSupply& supply) { return is_positive(supply.price); });
    case Goal::least_bought: return any([](const RecipeSupply& supply) { return supply.bought || is_sparing(supply.feedstock_class); });
    case Goal::least_water: return true;
  }
  return false;
}

}  // namespace

std::string_view status_word(RecipeStatus status) {
  switch (status) {
    case RecipeStatus::on_target: return "on-target";
    case RecipeStatus::nearest: return "nearest";
    case RecipeStatus::not_enough: return "not-enough";
    case RecipeStatus::limits_clash: return "limits-clash";
    case RecipeStatus::no_size: return "no-size";
    case RecipeStatus::nothing_on_hand: return "nothing-on-hand";
  }
  return "";
}

std::string_view limit_word(Limit limit) {
  switch (limit) {
    case Limit::carbon_to_nitrogen: return "carbon_to_nitrogen";
    case Limit::moisture: return "moisture";
    case Limit::air_space: return "air_space";
    case Limit::share: return "share";
    case Limit::amount: return "amount";
    case Limit::capacity: return "capacity";
    case Limit::water: return "water";
  }
  return "";
}

std::string_view windows_word(FoundWithin windows) {
  switch (windows) {
    case FoundWithin::targets: return "targets";
    case FoundWithin::hardly_off: return "hardly-off";
    case FoundWithin::acceptable: return "acceptable";
  }
  return "";
}

std::string_view counted_word(CarbonCounted counted) {
  switch (counted) {
    case CarbonCounted::all: return "all";
    case CarbonCounted::what_rots: return "what-rots";
  }
  return "";
}

bool RecipeSupply::is_fixed() const { return use == Use::all && available && is_positive(*available); }

bool RecipeSupply::is_raised() const {
  return !bought && use == Use::up_to && available && is_positive(*available) && !is_sparing(feedstock_class);
}

std::string_view size_word(SizeFrom from) {
  switch (from) {
    case SizeFrom::fill: return "fill";
    case SizeFrom::capacity: return "capacity";
    case SizeFrom::room: return "room";
    case SizeFrom::fixed: return "fixed";
    case SizeFrom::on_hand: return "on-hand";
    case SizeFrom::water: return "water";
    case SizeFrom::goal: return "goal";
  }
  return "";
}

SizeSetBy size_set_by(const RecipeQuestion& question, const Recipe& recipe) {
  if (question.options.fill && recipe.status != RecipeStatus::not_enough) return {SizeFrom::fill, {}};
  const std::optional<Volume>& capacity = question.options.capacity;
  if (capacity && (!gives_a_size(question) || *recipe.mix->volume >= used_up * *capacity)) return {SizeFrom::capacity, {}};
  std::vector<std::size_t> to_use_up;
  std::vector<std::size_t> all_used;
  bool raised = false;
  bool some_left = false;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    const RecipeAmount& amount = recipe.amounts[i];
    if (!supply.available) continue;
    const bool all = amount.mass >= used_up * *supply.available;
    some_left = some_left || (supply.is_raised() && !all);
    if (!goes_in(amount, *recipe.mix)) continue;
    raised = raised || supply.is_raised();
    if (!all) continue;
    all_used.push_back(i);
    if (supply.is_fixed() || supply.is_raised()) to_use_up.push_back(i);
  }
  if (!to_use_up.empty() && !raised) return {SizeFrom::fixed, std::move(to_use_up)};
  if (some_left && goal_may_limit(question)) return {SizeFrom::goal, {}};
  const std::optional<WaterMass>& most_water = question.options.most_water;
  const bool dry = recipe.mix->moisture && *recipe.mix->moisture < question.targets.moisture.aim;
  if (some_left && dry && most_water && recipe.water_to_add >= used_up * *most_water) return {SizeFrom::water, {}};
  return {SizeFrom::on_hand, std::move(to_use_up.empty() ? all_used : to_use_up)};
}

AsBuilt as_built(const Recipe& recipe) {
  if (!recipe.whole_containers) return {*recipe.mix, recipe.amounts, recipe.water_to_add, recipe.distance_from_aim, recipe.cost};
  const WholeContainers& whole = *recipe.whole_containers;
  return {whole.mix, whole.amounts, whole.water_to_add, whole.distance_from_aim, whole.cost};
}

bool is_left(const RecipeAmount& amount) {
  constexpr double dust = 1e-3;
  return amount.left_over && *amount.left_over > dust * (amount.volume + *amount.left_over);
}

bool goes_in(const RecipeAmount& amount, const Mix& mix) {
  constexpr double dust = 1e-4;  // what the slack between stages leaves is far below this, what a person can measure far above
  return amount.mass > dust * mix.mass;
}

RecipeQuestion recipe_question(const std::vector<Supply>& supplies, const Targets& targets, const RecipeOptions& options, Date built,
                               const Materials& materials) {
  RecipeQuestion question{{}, targets, options};
  for (const Supply& supply : supplies) {
    if (!supply.density())
      throw TextError("no bulk density of " + supply.feedstock.id + " is known, so it has no place in a pile",
                      "give bulk_density in its table, or weigh a bucketful: weighed = { … }");
    RecipeSupply in_recipe;
    in_recipe.ingredient = supply.ingredient(Mass());
    in_recipe.feedstock_class = supply.feedstock.feedstock_class;
    in_recipe.use = supply.use;
    in_recipe.bought = supply.bought;
    if (comes_fresh(supply)) in_recipe.keeps = supply.feedstock.used_keeps();
    if (const auto load = load_of(supply)) in_recipe.load = supply.mass(*load);
    in_recipe.most_of_volume = supply.most_of_volume;
    const std::optional<Amount> amount = on_hand(supply, built);
    if (amount) in_recipe.available = supply.mass(*amount);
    if (in_recipe.available && *in_recipe.available < least_amount) in_recipe.available = Mass();
    if (!amount && !may_be_there(supply, built)) in_recipe.available = Mass();
    if (supply.priced_amount) in_recipe.price = supply.price / *supply.mass(*supply.priced_amount);
    settle_measure(in_recipe, supply, materials);
    in_recipe.in_a_bucket = density_in_a_bucket(supply, materials);
    in_recipe.full = containerful_of(supply, container_put_in(in_recipe, materials));
    question.supplies.push_back(std::move(in_recipe));
  }
  return question;
}

Recipe solve(const RecipeQuestion& asked) {
  const RecipeQuestion question = with_a_size(asked);
  Recipe recipe;
  recipe.targets = asked.targets;
  recipe.options = asked.options;
  recipe.wanted = question.options.fill;
  recipe.pair = main_pair(asked);
  const std::optional<double> swelling = possible_swelling(question);
  recipe.status = status_before_aims(question, swelling.has_value(), recipe);
  recipe.additions_only = only_additions(question);
  if (recipe.status != RecipeStatus::on_target && recipe.status != RecipeStatus::not_enough) return recipe;
  if (only_additions(question)) {
    recipe.status = question.options.fill ? RecipeStatus::not_enough : RecipeStatus::no_size;
    recipe.missing = question.options.fill;
    return recipe;
  }

  Programme programme(question, {.fill = recipe.status == RecipeStatus::on_target, .swelling = swelling.value_or(usual_swelling)});
  const auto least_found = least_distance(programme);
  if (!least_found) {  // nothing that rots, or hardly any nitrogen
    recipe.status = RecipeStatus::limits_clash;
    recipe.missing.reset();
    return recipe;
  }
  const double least = *least_found;
  recipe.stages.push_back({"least-t", least});
  const double cap = least <= on_the_edge ? 1.0 : least;
  if (recipe.status == RecipeStatus::on_target && least > on_the_edge) recipe.status = RecipeStatus::nearest;

  pursue_goal(programme, question, cap, recipe);
  programme.lower_distances();
  recipe.stages.push_back({"least-t-again", programme.distance(programme.amounts())});
  programme.use_fairly(raised_supplies(question));
  programme.keep_least_volume_bought();
  programme.keep_least_water();
  programme.keep_least_mass();

  fill_in(recipe, question, programme.amounts());
  recipe.everything_in = everything_in(question);
  recipe.held_back_by = held_back_by(question, programme.hard_limits(), recipe);
  recipe.next_dearer = next_dearer(question, programme.hard_limits(), recipe);
  return recipe;
}

}  // namespace heapwright
