#include "heapwright/lawn/compost_analysis.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/read_feedstock.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/maturity/test_value.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/units/wet_basis.hpp"

namespace heapwright {
namespace {

/// "1.5 %", "15000 mg/kg", "15000 ppm".
template <class Content>
Content read_content(std::string_view text) {
  const std::optional<CountedWords> counted = counted_words(text);
  const bool in_millionths = counted && (counted->words == "mg/kg" || counted->words == "ppm");
  if (!in_millionths) return Content::from_value(read_percentage(text));
  if (!(counted->number <= 1e6)) throw TextError("\"" + std::string(text) + "\" is more than all of it", "write \"15000 mg/kg\"");
  return Content::from_value(1e-6 * counted->number);
}

/// A content under either of its keys, as of dry matter.
template <class DryBasis, class WetBasis>
std::optional<DryBasis> read_either_basis(Table& table, const std::string& stem, const std::optional<MoistureWetBasis>& moisture) {
  const std::string dry_key = stem + "_dry_basis";
  const std::string wet_key = stem + "_wet_basis";
  const std::optional<DryBasis> dry = table.read(dry_key, read_content<DryBasis>);
  const std::optional<WetBasis> wet = table.read(wet_key, read_content<WetBasis>);
  if (!wet) return dry;
  if (dry) {
    table.problem_at(wet_key, "is told twice, beside " + dry_key, "keep the one that the report prints");
  } else if (!moisture) {
    table.problem_at(wet_key, "of the compost as received needs its moisture too", "write moisture_wet_basis = \"45 %\"");
  } else {
    return to_dry_basis(*wet, *moisture);
  }
  return std::nullopt;
}

/// An oxide under its own keys or, by the weights of atoms, under those of its element.
template <class DryBasis, class WetBasis>
std::optional<DryBasis> read_oxide(Table& table, const std::string& oxide, const std::string& element, double oxide_per_element,
                                   const std::optional<MoistureWetBasis>& moisture) {
  const auto as_oxide = read_either_basis<DryBasis, WetBasis>(table, oxide, moisture);
  const auto as_element = read_either_basis<DryBasis, WetBasis>(table, element, moisture);
  if (!as_element) return as_oxide;
  if (as_oxide) table.problem(fmt::format("{} and {} are one nutrient told twice", oxide, element), "keep the one that the report prints");
  return oxide_per_element * *as_element;
}

/// "moisture_wet_basis" below 100 %, since nothing is left of a compost of water alone.
std::optional<MoistureWetBasis> read_moisture_of_analysis(Table& table) {
  const auto moisture = table.read("moisture_wet_basis", read_moisture_wet_basis);
  if (!moisture || *moisture < wet_basis(1.0)) return moisture;
  table.problem_at("moisture_wet_basis", "a compost has dry matter too", "write moisture_wet_basis = \"45 %\"");
  return std::nullopt;
}

/// The weight as received; a dry one beside it has to agree, and gives it where it stands alone.
std::optional<BulkDensity> read_densities(Table& table, const std::optional<MoistureWetBasis>& moisture) {
  const auto wet = table.read("bulk_density", read_some_density);
  const auto dry = table.read("dry_bulk_density", read_dry_density);
  if (!dry) return wet;
  if (!moisture) {
    table.problem_at("dry_bulk_density", "needs the moisture too", "write moisture_wet_basis = \"45 %\"");
    return wet;
  }
  if (!wet) return wet_density_of(*dry, *moisture);
  const DryBulkDensity expected = dry_density_of(*wet, *moisture);
  if (apart(*dry, expected) <= densities_agree_within * expected) return wet;
  const auto pounds = [](double kg_per_m3) { return print_number(value_in(unit::pound / unit::cubic_yard, bulk_density(kg_per_m3)), 3); };
  table.problem_at("dry_bulk_density",
                   fmt::format("is {} lb/yd3, and bulk_density less the water of moisture_wet_basis is {} × (1 − {}) = {} lb/yd3",
                               pounds(dry->value()), pounds(wet->value()), print_number(moisture->value(), 3), pounds(expected.value())),
                   "one of the three is wrong, or of another sample: read the report again");
  return wet;
}

std::vector<Salts> read_salts(Table& table) {
  const std::vector<std::pair<std::string, SaltsMethod>> keys{
      {"salts_1to5", SaltsMethod::slurry_1to5}, {"salts_1to2", SaltsMethod::slurry_1to2}, {"salts_paste", SaltsMethod::saturated_paste}};
  std::vector<Salts> salts;
  for (const auto& [key, method] : keys) {
    const auto value = table.read(key, [](std::string_view text) {
      return std::get<ElectricConductivity>(read_test_value(TestQuantity::electric_conductivity, text));
    });
    if (value) salts.push_back({method, *value});
  }
  return salts;
}

/// Figures that no compost has.
void check_contents(Table& table, const CompostAnalysis& analysis) {
  if (analysis.nitrogen && *analysis.nitrogen > most_nitrogen)
    table.problem(fmt::format("{} nitrogen of dry matter is more than any compost has", print_percent(*analysis.nitrogen, 3)),
                  "check the decimal point, and whether it is of dry matter or as received");
  const double parts = (analysis.organic_matter ? analysis.organic_matter->value() : 0.0) +
                       (analysis.phosphate ? analysis.phosphate->value() : 0.0) + (analysis.potash ? analysis.potash->value() : 0.0);
  if (!(parts <= 1.0))
    table.problem(fmt::format("organic matter, P2O5 and K2O come to {} of dry matter", print_percent(parts, 3)),
                  "check which of them are of dry matter and which as received");
}

/// No more than its own solids and water weigh without any air; as if it were all ash where its organic matter is not told.
void check_weight_of_analysis(Table& table, const CompostAnalysis& analysis) {
  if (!analysis.moisture || !analysis.bulk_density) return;
  const ParticleDensity solids = analysis.organic_matter ? particle_density_of(*analysis.organic_matter) : ash_particle_density();
  const BulkDensity most = density_without_air(*analysis.moisture, solids);
  if (*analysis.bulk_density <= most) return;
  table.problem(fmt::format("a compost of {} is heavier than its own solids and water without any air, {}",
                            print_density(*analysis.bulk_density, 4), print_density(most, 4)),
                "check bulk_density and moisture_wet_basis");
}

template <class Quantity>
CompostFigure<Quantity> by_supplier(Quantity figure, std::string whose = "the supplier's analysis") {
  CompostFigure<Quantity> told;
  told.typical = figure;
  told.whose = std::move(whose);
  return told;
}

/// What the analysis says, else the first figure of the table.
template <class Quantity>
std::optional<CompostFigure<Quantity>> told_or_usual(const std::optional<Quantity>& told, const PublishedValues<Quantity>& usual,
                                                     const Materials& materials) {
  if (told) return by_supplier(*told);
  if (!used(usual)) return std::nullopt;
  return CompostFigure<Quantity>{usual.front(), source_words(materials, usual.front())};
}

std::optional<CompostFigure<CarbonNitrogenRatio>> ratio_of(const CompostAnalysis& told, const Compost& compost,
                                                           const Materials& materials) {
  if (told.carbon_to_nitrogen || !told.organic_matter || !told.nitrogen || !is_positive(*told.nitrogen))
    return told_or_usual(told.carbon_to_nitrogen, compost.carbon_to_nitrogen, materials);
  const CarbonDryBasis carbon = carbon_dry_basis(told.organic_matter->value() / organic_matter_per_carbon);
  return by_supplier(CarbonNitrogenRatio(carbon / *told.nitrogen),
                     "the supplier's organic matter, taken as 1.8 times its carbon, over the supplier's nitrogen");
}

}  // namespace

std::string_view salts_method_words(SaltsMethod method) {
  switch (method) {
    case SaltsMethod::slurry_1to5: return "1:5 slurry";
    case SaltsMethod::slurry_1to2: return "1:2 slurry";
    case SaltsMethod::saturated_paste: return "saturated paste";
  }
  return "";
}

std::optional<CompostAnalysis> read_compost_analysis(Table& topdressing) {
  std::optional<Table> table = topdressing.table("analysis");
  if (!table) return std::nullopt;
  CompostAnalysis analysis;
  const auto moisture = analysis.moisture = read_moisture_of_analysis(*table);
  analysis.bulk_density = read_densities(*table, moisture);
  analysis.carbon_to_nitrogen = table->read("carbon_to_nitrogen", read_carbon_to_nitrogen);
  if (analysis.carbon_to_nitrogen && !is_positive(*analysis.carbon_to_nitrogen))
    table->problem_at("carbon_to_nitrogen", "a C:N is above zero", "write carbon_to_nitrogen = \"15:1\"");
  analysis.organic_matter = read_either_basis<OrganicMatterDryBasis, OrganicMatterWetBasis>(*table, "organic_matter", moisture);
  analysis.nitrogen = read_either_basis<NitrogenDryBasis, NitrogenWetBasis>(*table, "nitrogen", moisture);
  analysis.phosphate = read_oxide<PhosphateDryBasis, PhosphateWetBasis>(*table, "p2o5", "phosphorus", phosphate_per_phosphorus, moisture);
  analysis.potash = read_oxide<PotashDryBasis, PotashWetBasis>(*table, "k2o", "potassium", potash_per_potassium, moisture);
  for (const char* basis : {"_dry_basis", "_wet_basis"}) {  // which are nearer to the elements' keys than to their own
    table->renamed(std::string("phosphate") + basis, std::string("is called p2o5") + basis, std::string("write p2o5") + basis);
    table->renamed(std::string("potash") + basis, std::string("is called k2o") + basis, std::string("write k2o") + basis);
  }
  analysis.salts = read_salts(*table);
  check_contents(*table, analysis);
  check_weight_of_analysis(*table, analysis);
  table->finish();
  return analysis;
}

CompostContents contents_of(const Compost& compost, const std::optional<CompostAnalysis>& analysis, const Materials& materials) {
  const CompostAnalysis told = analysis.value_or(CompostAnalysis());
  const auto moisture = told_or_usual(told.moisture, compost.moisture, materials);
  const auto density = told_or_usual(told.bulk_density, compost.bulk_density, materials);
  if (!moisture || !density) throw DomainError(compost.name + " has no moisture or no weight in the tables");
  return {compost.name,
          *moisture,
          *density,
          ratio_of(told, compost, materials),
          told_or_usual(told.nitrogen, compost.nitrogen, materials),
          told_or_usual(told.phosphate, compost.phosphate, materials),
          told_or_usual(told.potash, compost.potash, materials),
          told.salts};
}

}  // namespace heapwright
