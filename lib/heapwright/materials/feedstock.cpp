#include "heapwright/materials/feedstock.hpp"

#include <algorithm>

namespace heapwright {

std::string_view evidence_word(Evidence evidence) {
  switch (evidence) {
    case Evidence::seen: return "seen";
    case Evidence::secondary: return "secondary";
    case Evidence::memory: return "memory";
    case Evidence::judged: return "judged";
    case Evidence::own: return "own";
  }
  return "";
}

const std::vector<std::pair<std::string, LeftOver>>& left_over_words() {
  static const std::vector<std::pair<std::string, LeftOver>> words{{"nothing", LeftOver::nothing},
                                                                   {"covered", LeftOver::covered},
                                                                   {"under-browns", LeftOver::under_browns},
                                                                   {"on-the-lawn", LeftOver::on_the_lawn},
                                                                   {"yard-waste-cart", LeftOver::yard_waste_cart},
                                                                   {"leaf-mold", LeftOver::leaf_mold},
                                                                   {"mulch", LeftOver::mulch},
                                                                   {"wood-mulch", LeftOver::wood_mulch}};
  return words;
}

LeftOver usual_left_over(FeedstockClass feedstock_class) {
  switch (feedstock_class) {
    case FeedstockClass::must_go: return LeftOver::under_browns;
    case FeedstockClass::clippings: return LeftOver::yard_waste_cart;
    case FeedstockClass::keeper: return LeftOver::mulch;
    case FeedstockClass::supplement:
    case FeedstockClass::mineral: return LeftOver::nothing;
  }
  return LeftOver::nothing;
}

std::string_view class_word(FeedstockClass feedstock_class) {
  switch (feedstock_class) {
    case FeedstockClass::must_go: return "must-go";
    case FeedstockClass::clippings: return "clippings";
    case FeedstockClass::keeper: return "keeper";
    case FeedstockClass::supplement: return "supplement";
    case FeedstockClass::mineral: return "mineral";
  }
  return "";
}

const std::vector<std::pair<std::string, RottingMaterial>>& rotting_material_words() {
  static const std::vector<std::pair<std::string, RottingMaterial>> words{{"leaves", RottingMaterial::leaves},
                                                                          {"grass", RottingMaterial::grass},
                                                                          {"food", RottingMaterial::food},
                                                                          {"wood-chips", RottingMaterial::wood_chips},
                                                                          {"sawdust", RottingMaterial::sawdust},
                                                                          {"straw", RottingMaterial::straw},
                                                                          {"paper", RottingMaterial::paper},
                                                                          {"manure", RottingMaterial::manure},
                                                                          {"horse-bedding", RottingMaterial::horse_bedding},
                                                                          {"coffee", RottingMaterial::coffee},
                                                                          {"shrub", RottingMaterial::shrub},
                                                                          {"yard-trimmings", RottingMaterial::yard_trimmings},
                                                                          {"nothing", RottingMaterial::nothing}};
  return words;
}

bool Feedstock::has_tag(std::string_view tag) const { return std::find(tags.begin(), tags.end(), tag) != tags.end(); }

bool Feedstock::carbon_follows() const { return !used(carbon) && used(nitrogen) && used(carbon_to_nitrogen); }
bool Feedstock::nitrogen_follows() const { return used(carbon) && used(carbon_to_nitrogen); }
bool Feedstock::organic_matter_follows() const { return !used(volatile_solids) && used_carbon(); }

std::optional<CarbonDryBasis> Feedstock::used_carbon() const {
  if (!carbon_follows()) return used(carbon);
  return *used(nitrogen) * *used(carbon_to_nitrogen);
}

std::optional<NitrogenDryBasis> Feedstock::used_nitrogen() const {
  if (!nitrogen_follows()) return used(nitrogen);
  return *used(carbon) / *used(carbon_to_nitrogen);
}

std::optional<CarbonNitrogenRatio> Feedstock::used_carbon_to_nitrogen() const {
  if (const auto ratio = used(carbon_to_nitrogen)) return ratio;
  const auto c = used(carbon);
  const auto n = used(nitrogen);
  if (!c || !n || !is_positive(*n)) return std::nullopt;
  return *c / *n;
}

std::optional<OrganicMatterDryBasis> Feedstock::used_organic_matter() const {
  if (!organic_matter_follows()) return used(volatile_solids);
  const OrganicMatterDryBasis by_carbon = organic_matter_per_carbon * (unit::kg_organic / unit::kg_carbon) * *used_carbon();
  return std::min(organic_dry_basis(1.0), by_carbon);
}

std::optional<Properties> Feedstock::properties() const {
  const auto water = used(moisture);
  const auto c = used_carbon();
  const auto n = used_nitrogen();
  const auto organic = used_organic_matter();
  if (!water || !c || !n || !organic) return std::nullopt;
  return Properties{*water, *c, *n, *organic, particle_density.value_or(particle_density_of(*organic))};
}

Duration Feedstock::used_keeps() const {
  return used(keeps).value_or((feedstock_class == FeedstockClass::clippings ? 3.0 : 14.0) * unit::day);
}

const Packing* Feedstock::find_packing(std::string_view packing) const {
  const auto found = std::find_if(packings.begin(), packings.end(), [&](const Packing& known) { return known.name == packing; });
  return found == packings.end() ? nullptr : &*found;
}

std::optional<BulkDensity> Feedstock::density(std::string_view packing) const {
  const Packing* found = find_packing(packing.empty() ? std::string_view(usual_packing) : packing);
  return found == nullptr ? std::nullopt : used(found->values);
}

std::vector<std::string> Feedstock::lacks() const {
  std::vector<std::string> missing;
  if (!used(moisture)) missing.emplace_back("moisture");
  if (!used_carbon()) missing.emplace_back("carbon");
  if (!used_nitrogen()) missing.emplace_back("C:N");
  if (!density()) missing.emplace_back("bulk density");
  return missing;
}

ParticleDensity organic_particle_density() { return particle_density(1500.0); }
ParticleDensity ash_particle_density() { return particle_density(2650.0); }

ParticleDensity particle_density_of(OrganicMatterDryBasis organic_matter) {
  const DryMass dry = 1.0 * unit::kg_dry;
  const OrganicMass organic = dry * organic_matter;
  const Volume volume = as_dry_mass(organic) / organic_particle_density() + ash_mass(dry, organic) / ash_particle_density();
  return dry / volume;
}

BulkDensity density_without_air(MoistureWetBasis moisture, ParticleDensity particle_density) {
  const Mass mass = 1.0 * unit::kg;
  const WaterMass water = mass * moisture;
  const Volume volume = dry_mass(mass, moisture) / particle_density + water / water_density();
  return mass / volume;
}

}  // namespace heapwright
