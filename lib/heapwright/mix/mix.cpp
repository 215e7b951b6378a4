#include "heapwright/mix/mix.hpp"

#include <algorithm>

#include "heapwright/mix/constituents.hpp"

namespace heapwright {
namespace {

/// @param loose volume of all ingredients; nothing where it is not known
MixPart part_of(const Ingredient& ingredient, const Constituents& own, Volume loose) {
  MixPart part{ingredient.id,      ingredient.name,   ingredient.mass, std::nullopt, std::nullopt, own.dry,
               own.organic_matter, ingredient.supply, own.water,       own.carbon,   own.nitrogen};
  if (!ingredient.density) return part;
  part.volume = own.loose;
  if (is_positive(loose)) part.share = ShareOfLooseVolume::of(std::min<double>(1.0, own.loose / loose));
  return part;
}

}  // namespace

bool has_volume(const Blend& blend) {
  return std::all_of(blend.ingredients.begin(), blend.ingredients.end(),
                     [](const Ingredient& ingredient) { return ingredient.density || !is_positive(ingredient.mass); });
}

Mix mix_of(const Blend& blend) {
  Constituents all;
  all.water = blend.added_water;
  std::vector<Constituents> own;
  own.reserve(blend.ingredients.size());
  for (const Ingredient& ingredient : blend.ingredients) all += own.emplace_back(constituents_of(ingredient));

  Mix mix;
  mix.mass = all.mass();
  mix.dry = all.dry;
  mix.water = all.water;
  mix.carbon = all.carbon;
  mix.nitrogen = all.nitrogen;
  mix.organic_matter = all.organic_matter;
  if (is_positive(mix.nitrogen)) mix.carbon_to_nitrogen = mix_formula::carbon_to_nitrogen(mix.carbon, mix.nitrogen);
  if (is_positive(mix.mass)) mix.moisture = mix_formula::moisture(mix.water, mix.mass);

  const bool poured = has_volume(blend);
  for (std::size_t i = 0; i < own.size(); ++i) mix.parts.push_back(part_of(blend.ingredients[i], own[i], poured ? all.loose : Volume()));
  if (!poured) return mix;
  mix.volume = blend.settling * all.loose;
  if (!is_positive(*mix.volume)) return mix;
  mix.bulk_density = mix.mass / *mix.volume;
  mix.air_space = AirLeft::of(share_of_air(all, *mix.volume));
  return mix;
}

WaterMass water_to(const Mix& mix, MoistureWetBasis goal) {
  const WaterMass wanted = WaterMass(mix.dry * to_dry_basis(goal)) - mix.water;
  return is_positive(wanted) ? wanted : WaterMass();
}

}  // namespace heapwright
