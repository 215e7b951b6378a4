#include "heapwright/recipe/proportion.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/constituents.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/recipe/help.hpp"
#include "heapwright/recipe/whole.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_in_a_proportion = 5;  // of more kinds nobody counts parts

Blend blend_of_some(const RecipeQuestion& question, const std::vector<std::size_t>& supplies) {
  Blend blend;
  blend.settling = question.options.settling;
  for (const std::size_t i : supplies) blend.ingredients.push_back(question.supplies[i].ingredient);
  return blend;
}

std::vector<Mass> container_masses(const RecipeQuestion& question, const std::vector<std::size_t>& supplies, const Container& container) {
  std::vector<Mass> masses;
  for (const std::size_t i : supplies) masses.push_back(measured_in(question.supplies[i], so_many(1.0, container)).counted_mass);
  return masses;
}

/// One container for each part, without water.
void set_parts(Blend& blend, const std::vector<int>& parts, const std::vector<Mass>& container) {
  blend.added_water = WaterMass();
  for (std::size_t i = 0; i < parts.size(); ++i) blend.ingredients[i].mass = static_cast<double>(parts[i]) * container[i];
}

/// Whether the C:N of a blend is inside its window: the quick look that most parts fail.
bool has_right_ratio(const Blend& blend, const Targets& targets) {
  Constituents all;
  for (const Ingredient& ingredient : blend.ingredients) all += constituents_of(ingredient);
  const auto& window = targets.carbon_to_nitrogen;
  return at_least(CarbonMass(window.low * all.nitrogen), all.carbon) && at_most(CarbonMass(window.high * all.nitrogen), all.carbon);
}

bool keeps_shares(const Mix& mix, const RecipeQuestion& question, const std::vector<std::size_t>& supplies) {
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    const auto& most = question.supplies[supplies[i]].most_of_volume;
    if (most && !at_most(*most, *mix.parts[i].share)) return false;
  }
  return true;
}

/// Goes on to the next way of sharing a total among parts of one at least; false after the last.
bool next_parts(std::vector<int>& parts, int total) {
  // The last takes what is left, the others count up like an odometer.
  for (std::size_t i = parts.size() - 1; i-- > 0;) {
    ++parts[i];
    int before = 0;
    for (std::size_t j = 0; j <= i; ++j) before += parts[j];
    const int after = static_cast<int>(parts.size() - 1 - i);
    if (before + after <= total) {
      for (std::size_t j = i + 1; j + 1 < parts.size(); ++j) parts[j] = 1;
      parts.back() = total - before - (after - 1);
      return true;
    }
    parts[i] = 1;
  }
  return false;
}

std::optional<Proportion> best_of_total(const RecipeQuestion& question, const std::vector<std::size_t>& supplies, int total,
                                        const Container& container) {
  std::optional<Proportion> best;
  Blend blend = blend_of_some(question, supplies);
  const std::vector<Mass> masses = container_masses(question, supplies, container);
  std::vector<int> parts(supplies.size(), 1);
  parts.back() = total - static_cast<int>(supplies.size()) + 1;
  do {
    set_parts(blend, parts, masses);
    if (!has_right_ratio(blend, question.targets)) continue;
    blend.added_water = water_to(mix_of(blend), question.targets.moisture.aim);
    Mix mix = mix_of(blend);
    const double distance = distance_from_aim(mix, question.targets);
    if (!(distance <= on_the_edge) || (best && best->distance_from_aim <= distance) || !keeps_shares(mix, question, supplies)) continue;
    best = Proportion{{}, container, std::move(mix), blend.added_water, distance};
    for (std::size_t i = 0; i < supplies.size(); ++i) {
      const Ingredient& ingredient = blend.ingredients[i];
      best->parts.push_back({supplies[i], ingredient.id, ingredient.name, parts[i]});
    }
  } while (next_parts(parts, total));
  return best;
}

bool is_green(const RecipeSupply& supply) {
  return supply.feedstock_class == FeedstockClass::clippings || supply.feedstock_class == FeedstockClass::must_go;
}

/// As it lies in the container that it is put in by, and measured in that.
RecipeSupply by_the_containerful(RecipeSupply supply) {
  supply.ingredient = supply.full->ingredient;
  supply.load = supply.ingredient.mass;
  supply.counted_in = supply.full->container;
  supply.counted_mass = *supply.load;
  supply.counted_by_mass = false;
  return supply;
}

/// A week's load where it is known, else a container full.
RecipeSupply load_of(RecipeSupply supply) {
  if (!supply.load) supply = by_the_containerful(std::move(supply));
  supply.available = supply.load;
  supply.use = Use::all;
  return supply;
}

RecipeSupply not_bought(RecipeSupply supply) {
  supply.bought = false;
  supply.price = PricePerMass();
  return supply;
}

/// Browns in the container that the person counts them in, else by the bucket.
RecipeSupply browns_of(RecipeSupply supply, const ContainerCount& bucket) {
  if (!supply.counted_in || supply.in_usual_container) supply = measured_in(std::move(supply), bucket);
  supply.use = Use::unlimited;
  supply.available.reset();
  return not_bought(std::move(supply));
}

std::optional<Card> card_of(const RecipeQuestion& question, std::size_t greens, const std::vector<std::size_t>& browns,
                            const SmallMeasures& measures) {
  RecipeQuestion one_load{{}, question.targets, {}};
  one_load.options.settling = question.options.settling;
  one_load.supplies.push_back(not_bought(load_of(question.supplies[greens])));
  for (const std::size_t i : browns) one_load.supplies.push_back(browns_of(question.supplies[i], measures.container));
  const Recipe recipe = solve(one_load);
  if (recipe.status != RecipeStatus::on_target) return std::nullopt;
  const std::optional<WholeContainers> whole = in_whole_containers(one_load, recipe, measures);
  if (!whole || !whole->inside) return std::nullopt;
  Card card{greens, whole->amounts.front(), {}, whole->water_to_add};
  for (std::size_t i = 1; i < whole->amounts.size(); ++i) {
    if (is_positive(whole->amounts[i].mass)) card.browns.push_back(whole->amounts[i]);
  }
  return card;
}

/// Nothing is left of an example.
void of_no_amount(std::vector<RecipeAmount>& amounts) {
  for (RecipeAmount& amount : amounts) {
    amount.left_over.reset();
    amount.containers_left.reset();
  }
}

}  // namespace

std::vector<std::size_t> main_supplies(const RecipeQuestion& question) {
  std::vector<std::size_t> main;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    const bool none = supply.available && !is_positive(*supply.available);
    if (!is_sparing(supply.feedstock_class) && !none) main.push_back(i);
  }
  return main;
}

std::optional<Proportion> proportion_of(const RecipeQuestion& question, const std::vector<std::size_t>& taking_part,
                                        const Materials& materials) {
  if (taking_part.size() < 2 || taking_part.size() > most_in_a_proportion) return std::nullopt;
  const Container& bucket = known_row(*materials.containers, "bucket");
  for (int total = static_cast<int>(taking_part.size()); total <= most_parts; ++total) {
    if (auto found = best_of_total(question, taking_part, total, bucket)) return found;
  }
  return std::nullopt;
}

std::vector<Card> cards_of(const RecipeQuestion& question, const std::vector<std::size_t>& taking_part, const SmallMeasures& measures) {
  std::vector<std::size_t> browns;
  std::vector<std::size_t> greens;
  for (const std::size_t i : taking_part) (is_green(question.supplies[i]) ? greens : browns).push_back(i);
  std::vector<Card> cards;
  if (browns.empty()) return cards;
  for (const std::size_t i : greens) {
    if (auto card = card_of(question, i, browns, measures)) cards.push_back(std::move(*card));
  }
  return cards;
}

Recipe recipe_without_a_size(const RecipeQuestion& question, Volume example, const SmallMeasures& measures, const Materials& materials,
                             const std::vector<RecipeSupply>& others) {
  const std::vector<std::size_t> main = main_supplies(question);
  const std::optional<Proportion> proportion = proportion_of(question, main, materials);
  if (!proportion) {
    RecipeQuestion of_an_example = question;
    for (const std::size_t i : main) {
      RecipeSupply& supply = of_an_example.supplies[i];
      supply.use = Use::all;
      supply.bought = false;
      supply.available = example * *supply.ingredient.density;
    }
    Recipe recipe = solve(of_an_example);
    if (recipe.mix) recipe.what_would_help = what_would_help(of_an_example, recipe, others);
    recipe.status = RecipeStatus::no_size;
    recipe.example = example;
    if (recipe.mix) recipe.whole_containers = in_whole_containers(of_an_example, recipe, measures);
    if (recipe.whole_containers) of_no_amount(recipe.whole_containers->amounts);
    of_no_amount(recipe.amounts);
    return recipe;
  }
  Recipe recipe = solve(question);
  recipe.proportion = proportion;
  recipe.cards = cards_of(question, main, measures);
  recipe.mix = proportion->mix;
  recipe.water_to_add = proportion->water_to_add;
  recipe.distance_from_aim = proportion->distance_from_aim;
  const ContainerCount one = so_many(1.0, proportion->container);
  for (const RecipeSupply& supply : question.supplies) recipe.amounts.push_back(amount_of(supply, Mass()));
  for (const Part& part : proportion->parts) {
    const RecipeSupply supply = measured_in(question.supplies[part.supply], one);
    recipe.amounts[part.supply] = amount_of(supply, static_cast<double>(part.parts) * supply.counted_mass);
  }
  recipe.whole_containers = WholeContainers{*recipe.mix, recipe.distance_from_aim, true, recipe.amounts, recipe.water_to_add, Cost()};
  return recipe;
}

}  // namespace heapwright
