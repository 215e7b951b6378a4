#pragma once
/// How so much of a feedstock answers when a figure of it is another, while the person does as the screen says: so many containers where
/// they count containers, so many pounds where they weigh.

#include <optional>
#include <span>

#include "heapwright/materials/assumption.hpp"
#include "heapwright/mix/supply.hpp"

namespace heapwright {

/// An ingredient of an answer and the supply that it is taken from.
struct Taken {
  const Supply* supply;
  std::optional<Mass> available;  ///< nothing: as much as wanted
};

/// What of some matter figures may move, of one or of many alike. Without a density it is empty.
struct MovableFigures {
  std::span<Mass> mass;
  std::span<BulkDensity> density;
  std::span<MoistureWetBasis> moisture;
  std::span<CarbonDryBasis> carbon;
  std::span<NitrogenDryBasis> nitrogen;
};

/// A figure that varies, in SI, and what of an ingredient it moves.
class Variation {
 public:
  /// Nothing where the assumption is without a range.
  static std::optional<Variation> of(const Assumption& assumption, const Ingredient& ingredient, const Taken& taken);

  /// In SI.
  double low() const { return low_; }
  double typical() const { return typical_; }
  double high() const { return high_; }

  /// Changes what it moves to what it would be at a number in place of the typical one; or at several, one for each.
  void apply(double number, Matter& matter) const;
  void apply(std::span<const double> numbers, const MovableFigures& figures) const;

 private:
  /// How the mass follows the figure's ratio to the typical one.
  enum class MassFollows {
    nothing,
    ratio,
    ratio_up_to_available,  ///< no more than there is
    at_most_what_there_is,  ///< as given, while the ratio leaves so much
  };
  enum class DensityFollows { nothing, ratio, inverse, number };

  Variation(const Assumption& assumption, double low, double typical, double high);
  void follow_amount(const Ingredient& ingredient, const Taken& taken);
  void follow_density(const Ingredient& ingredient, const Taken& taken);
  void follow_container(const Taken& taken);

  Figure figure_;
  double low_;
  double typical_;
  double high_;
  MassFollows mass_ = MassFollows::nothing;
  DensityFollows density_ = DensityFollows::nothing;
  Mass available_;
  bool known_dry_ = false;         ///< of trees the dry leaves are known: moister ones weigh more
  bool nitrogen_follows_ = false;  ///< carbon, where the C:N is known
};

}  // namespace heapwright
