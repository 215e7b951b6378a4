#pragma once
/// What compost brings to a lawn, as materials/nutrients.toml knows it: how much of its nitrogen comes free in the first year, and what
/// laboratories call the phosphorus of a soil.

#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/materials/published_value.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// A share of all nitrogen in a compost that comes free in its first year on the ground; below zero where it is tied up.
class FreedShare {
 public:
  /// @throws DomainError unless −1 <= value <= 1 (NaN fails too)
  static FreedShare of(double value);
  double value() const { return value_; }
  friend auto operator<=>(const FreedShare&, const FreedShare&) = default;
  /// So much of some nitrogen.
  template <class Unit>
  friend boost::units::quantity<Unit, double> operator*(FreedShare share, const boost::units::quantity<Unit, double>& all) {
    return share.value_ * all;
  }

 private:
  explicit FreedShare(double value) : value_(value) {}
  double value_;
};

/// "4 %", "-5 %". @throws TextError
FreedShare read_freed_share(std::string_view text);

/// A row of the table by C:N.
struct NitrogenRelease {
  CarbonNitrogenRatio at_most;                           ///< it holds up to here, above the row before it
  std::optional<PublishedValue<FreedShare>> first_year;  ///< with its range; none where nitrogen is tied up
  std::string note;
};

/// Something published, in a few words.
struct Finding {
  std::string text;
  std::string source;
  Evidence evidence = Evidence::judged;
};

/// What laboratories may call the phosphorus of a soil, all words of one meaning.
struct PhosphorusWord {
  std::string id;
  bool hold = false;               ///< no compost until an extension office clears it
  std::vector<std::string> words;  ///< whole phrases
};

/// All of nutrients.toml.
struct NutrientKnowledge {
  std::vector<NitrogenRelease> nitrogen_release;  ///< by rising C:N
  std::vector<Finding> nitrogen_findings;
  std::optional<Finding> salts;
  int soil_test_years = 3;  ///< for which a soil test holds
  Finding soil_test_years_of{};
  std::vector<PhosphorusWord> phosphorus_words;
};

/// Reads the tables of nutrients.toml onto those that are there. Of a C:N table the whole takes the place of the one before.
void read_nutrients(Table& root, NutrientKnowledge& knowledge);

/// The row of a C:N; nothing above the last. @throws DomainError for a C:N that is not above zero (NaN too)
const NitrogenRelease* release_at(const NutrientKnowledge& knowledge, CarbonNitrogenRatio ratio);

/// What a laboratory's text calls phosphorus: "high", "VH", "62 ppm Mehlich 3 (very high)". Of several words the one that holds. Nothing
/// where none is known.
const PhosphorusWord* phosphorus_word_in(std::string_view text, const NutrientKnowledge& knowledge);
/// The known word that a text most likely misspells; nothing where it has a figure, or is like none.
std::optional<std::string> misspelt_phosphorus_word(std::string_view text, const NutrientKnowledge& knowledge);

}  // namespace heapwright
