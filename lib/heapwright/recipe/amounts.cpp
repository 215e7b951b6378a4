#include "heapwright/recipe/amounts.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {
namespace {

std::optional<Volume> left_over(const RecipeSupply& supply, Volume used) {
  if (supply.bought || !supply.available) return std::nullopt;
  const Volume had(*supply.available / *supply.ingredient.density);
  return std::max(Volume(), Volume(had - used));
}

/// An amount in the person's container, by its weight: it may lie fluffier or denser in the pile than in the bag.
std::optional<ContainerCount> in_containers(const RecipeSupply& supply, Mass mass) {
  if (!supply.counted_in || !(supply.counted_in->count > 0.0)) return std::nullopt;
  const ContainerCount& counted = *supply.counted_in;
  return ContainerCount{counted.container, counted.count * mass / supply.counted_mass, counted.each, counted.packings};
}

}  // namespace

RecipeSupply measured_in(RecipeSupply supply, const ContainerCount& container) {
  supply.counted_in = container;
  supply.counted_mass = container.each * supply.in_a_bucket.value_or(*supply.ingredient.density) * container.count;
  supply.counted_by_mass = false;
  return supply;
}

Mass measure_of(const RecipeSupply& supply, Mass about) {
  constexpr double few_containers = 10.0;
  if (!supply.counted_in) return std::pow(10.0, std::floor(std::log10(about / (1.0 * unit::kg))) - 1.0) * unit::kg;
  const Mass container = supply.counted_mass / supply.counted_in->count;
  return supply.bought || about >= few_containers * container ? container : 0.5 * container;
}

RecipeAmount amount_of(const RecipeSupply& supply, Mass mass) {
  RecipeAmount amount;
  amount.id = supply.ingredient.id;
  amount.name = supply.ingredient.name;
  amount.supply = supply.ingredient.supply;
  amount.feedstock_class = supply.feedstock_class;
  amount.mass = mass;
  amount.volume = amount.mass / *supply.ingredient.density;
  amount.containers = in_containers(supply, amount.mass);
  amount.left_over = left_over(supply, amount.volume);
  if (amount.left_over) {
    amount.mass_left = *amount.left_over * *supply.ingredient.density;
    amount.containers_left = in_containers(supply, *amount.mass_left);
  }
  amount.counted_by_mass = supply.counted_by_mass;
  amount.bought = supply.bought;
  amount.keeps = supply.keeps;
  return amount;
}

Blend blend_of(const RecipeQuestion& question, const Amounts& amounts) {
  Blend blend;
  blend.settling = question.options.settling;
  blend.added_water = amounts.water;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    blend.ingredients.push_back(question.supplies[i].ingredient);
    blend.ingredients.back().mass = amounts.supplies[i];
  }
  return blend;
}

}  // namespace heapwright
