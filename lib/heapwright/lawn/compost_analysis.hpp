#pragma once
/// What a compost holds: by the supplier's analysis, and by the tables where that says nothing.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// Soluble salts, with how they were measured: figures of two methods do not compare, nor convert.
enum class SaltsMethod { slurry_1to5, slurry_1to2, saturated_paste };
/// "1:5 slurry".
std::string_view salts_method_words(SaltsMethod method);
struct Salts {
  SaltsMethod method;
  ElectricConductivity value;
};

/// What the laboratory of a supplier found. Contents that it tells of the compost as received are of dry matter here.
struct CompostAnalysis {
  std::optional<MoistureWetBasis> moisture;
  std::optional<BulkDensity> bulk_density;  ///< as received
  std::optional<CarbonNitrogenRatio> carbon_to_nitrogen;
  std::optional<OrganicMatterDryBasis> organic_matter;
  std::optional<NitrogenDryBasis> nitrogen;
  std::optional<PhosphateDryBasis> phosphate;
  std::optional<PotashDryBasis> potash;
  std::vector<Salts> salts;
};

/// P2O5 over phosphorus and K2O over potassium, by atomic weights: a report that gives the elements gives less than half of the first.
inline constexpr double phosphate_per_phosphorus = 2.2914;
inline constexpr double potash_per_potassium = 1.2046;
/// A wet and a dry density that a laboratory tells agree within this, for rounding. Judged.
inline constexpr double densities_agree_within = 0.02;

/// Reads the table of [topdressing] that is called analysis. Each content has its basis in its key: nitrogen_dry_basis or
/// nitrogen_wet_basis, p2o5_…, k2o_…, the elements phosphorus_… and potassium_…, organic_matter_…; salts have their method: salts_1to5,
/// salts_1to2, salts_paste. Contents are percentages or mg/kg. Problems: a content told twice, one of the wet compost without its moisture,
/// a dry_bulk_density that is not bulk_density × (1 − moisture), and what no compost can be.
std::optional<CompostAnalysis> read_compost_analysis(Table& topdressing);

/// A figure of a compost, and whose it is as it may be shown.
template <class Quantity>
struct CompostFigure : PublishedValue<Quantity> {
  std::string whose;
};

/// A figure with its range, where it has both ends.
template <class Quantity>
Assumption assumed_of_compost(std::string what, const CompostFigure<Quantity>& figure) {
  Assumption assumption{std::move(what), *figure.typical, std::nullopt, std::nullopt, figure.whose, std::nullopt};
  if (figure.low && figure.high) {
    assumption.low = *figure.low;
    assumption.high = *figure.high;
  }
  return assumption;
}

/// The figures that a topdressing is worked out with.
struct CompostContents {
  std::string name;
  CompostFigure<MoistureWetBasis> moisture;
  CompostFigure<BulkDensity> bulk_density;
  std::optional<CompostFigure<CarbonNitrogenRatio>> carbon_to_nitrogen;
  std::optional<CompostFigure<NitrogenDryBasis>> nitrogen;
  std::optional<CompostFigure<PhosphateDryBasis>> phosphate;
  std::optional<CompostFigure<PotashDryBasis>> potash;
  std::vector<Salts> salts;
};

/// The analysis, and the row of the table for what it leaves out. Without a C:N it follows from the analysis' organic matter, which is 1.8
/// times its carbon, and nitrogen. @throws DomainError for a row without moisture or weight
CompostContents contents_of(const Compost& compost, const std::optional<CompostAnalysis>& analysis, const Materials& materials);

}  // namespace heapwright
