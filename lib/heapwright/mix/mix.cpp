#include "heapwright/mix/mix.hpp"

#include <algorithm>

namespace heapwright {
namespace {

/// Loose volume of all ingredients; nothing where one with a mass has no density.
std::optional<Volume> loose_volume(const std::vector<Ingredient>& ingredients) {
  Volume sum;
  for (const Ingredient& ingredient : ingredients) {
    if (!ingredient.density && is_positive(ingredient.mass)) return std::nullopt;
    if (ingredient.density) sum += Volume(ingredient.mass / *ingredient.density);
  }
  return sum;
}

Volume solids_volume(const std::vector<Ingredient>& ingredients) {
  Volume sum;
  for (const Ingredient& ingredient : ingredients)
    sum += Volume(dry_mass(ingredient.mass, ingredient.properties.moisture) / ingredient.properties.particle_density);
  return sum;
}

MixPart part_of(const Ingredient& ingredient, std::optional<Volume> loose) {
  const DryMass dry = dry_mass(ingredient.mass, ingredient.properties.moisture);
  MixPart part{
      ingredient.id, ingredient.name, ingredient.mass, std::nullopt, std::nullopt, dry, dry * ingredient.properties.organic_matter};
  if (!ingredient.density) return part;
  part.volume = ingredient.mass / *ingredient.density;
  if (loose && is_positive(*loose)) part.share = ShareOfLooseVolume::of(std::min(1.0, part.volume->value() / loose->value()));
  return part;
}

}  // namespace

Mix mix_of(const Blend& blend) {
  Mix mix;
  mix.water = blend.added_water;
  for (const Ingredient& ingredient : blend.ingredients) {
    const Properties& properties = ingredient.properties;
    const DryMass dry = dry_mass(ingredient.mass, properties.moisture);
    mix.dry += dry;
    mix.water += WaterMass(ingredient.mass * properties.moisture);
    mix.carbon += CarbonMass(dry * properties.carbon);
    mix.nitrogen += NitrogenMass(dry * properties.nitrogen);
    mix.organic_matter += OrganicMass(dry * properties.organic_matter);
  }
  mix.mass = as_is_mass(mix.dry, mix.water);
  if (is_positive(mix.nitrogen)) mix.carbon_to_nitrogen = mix.carbon / mix.nitrogen;
  if (is_positive(mix.mass)) mix.moisture = mix.water / mix.mass;

  const std::optional<Volume> loose = loose_volume(blend.ingredients);
  for (const Ingredient& ingredient : blend.ingredients) mix.parts.push_back(part_of(ingredient, loose));
  if (!loose) return mix;
  mix.volume = blend.settling.value() * *loose;
  if (!is_positive(*mix.volume)) return mix;
  mix.bulk_density = mix.mass / *mix.volume;
  const Volume filled = solids_volume(blend.ingredients) + Volume(mix.water / water_density());
  mix.air_space = AirLeft::of(1.0 - filled.value() / mix.volume->value());
  return mix;
}

WaterMass water_to(const Mix& mix, MoistureWetBasis goal) {
  const double wanted = mix.dry.value() * goal.value() / (1.0 - goal.value()) - mix.water.value();
  return (wanted > 0.0 ? wanted : 0.0) * unit::kg_water;
}

}  // namespace heapwright
