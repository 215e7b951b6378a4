#pragma once
/// A user's figures against the range of all values of the row they are like, and the slip that a wrong one most likely is.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/materials.hpp"

namespace heapwright {

/// What a slip made of a figure.
enum class Slip {
  fraction_for_percentage,  ///< "0.8 %" for 80 %
  wet_basis,                ///< a share of the as-is mass where one of dry matter is wanted
  upside_down,              ///< nitrogen to carbon
  dry_matter_for_moisture,  ///< the dry share where the water's is wanted
  dry_basis_moisture,       ///< water per dry matter
  organic_for_carbon,       ///< organic matter, 1.8 times its carbon
  protein_for_nitrogen,     ///< crude protein, 6.25 times its nitrogen
  ash_for_organic,          ///< the one where the other is wanted
  per_cubic_foot,           ///< lb/ft3 written as lb/yd3
  metric_for_us,            ///< kg/m3 written as lb/yd3
  us_for_metric,            ///< lb/yd3 written as kg/m3
};

/// "wet-basis".
std::string_view slip_word(Slip slip);
/// In words: "a share of the whole wet mass, not of dry matter".
std::string_view slip_words(Slip slip);

/// One value of a row. Numbers are SI, fractions 0 to 1.
struct CheckedValue {
  std::string key;  ///< as in the file: "nitrogen_dry_basis", "bulk_density.loose"
  double value = 0.0;
  std::optional<double> low;  ///< of all values of the row it is like; none where it has none
  std::optional<double> high;
  std::string whose;           ///< whose figures the two ends are
  std::optional<bool> inside;  ///< none without a range
  std::optional<Slip> slip;
  std::optional<double> meant;  ///< the value without the slip
};

/// A row with each of its values held against another.
struct CheckedFeedstock {
  std::string id;
  std::string like;
  std::vector<CheckedValue> values;
  std::vector<std::string> impossible;  ///< why a figure cannot be true, where no slip explains it
  bool disagree = false;                ///< carbon, nitrogen and C:N stand beside each other and do not agree, and no slip explains it
};

/// Holds each feedstock of a file against the row that `like` names, else the one of its own id or name.
/// Figures that cannot be true are outside their ranges, not refused: this is where one looks for what went wrong.
/// @throws InputError for what cannot be read
std::vector<CheckedFeedstock> check_materials_file(const Materials& materials, const std::string& path);

/// A row against another.
CheckedFeedstock check(const Feedstock& row, const Feedstock& like, const Materials& materials);

/// Whether a slip is named, a figure cannot be true, or carbon, nitrogen and C:N disagree.
bool has_slip(const CheckedFeedstock& checked);

}  // namespace heapwright
