#pragma once
/// A laboratory's test of a lawn's soil, in the laboratory's own words.

#include <optional>
#include <string>

#include "heapwright/materials/nutrients.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// Nitrogen on an area, kg/m².
using NitrogenPerArea = detail::Ratio<detail::KgNitrogen, boost::units::si::area>;

/// What [soil_test] says.
struct SoilTest {
  std::optional<Date> date;
  std::string phosphorus;                               ///< as the laboratory wrote it: its word, its figure with the method, or both
  std::string phosphorus_level;                         ///< id of the PhosphorusWord that says what it means; empty where none is known
  bool phosphorus_is_high = false;                      ///< no compost until an extension office clears it
  std::optional<NitrogenPerArea> nitrogen_recommended;  ///< by the laboratory, for a year
};

/// Reads [soil_test]. A phosphorus word that is near to a known one and is none of them is a problem of the file; any other is kept.
std::optional<SoilTest> read_soil_test(Table& root, const NutrientKnowledge& knowledge);

/// Whether the phosphorus is a figure, such as "62 ppm Mehlich 3", without a word that says what it means. No threshold of ours stands in
/// for the word: methods differ, and so do soils.
bool is_figure_alone(const SoilTest& test);

/// How old a test is on a day.
enum class SoilTestAge { not_known, holds, too_old, after_today };
SoilTestAge age_of(const SoilTest& test, const std::optional<Date>& today, const NutrientKnowledge& knowledge);

}  // namespace heapwright
