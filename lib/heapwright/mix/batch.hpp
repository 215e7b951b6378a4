#pragma once
/// What a mix was made of, kept with it so that its working can be shown.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/mix/supply.hpp"

namespace heapwright {

/// A supply and how much of it went in.
struct Portion {
  Supply supply;
  Mass mass;
  std::optional<Amount> counted;  ///< that mass as the person counts it; nothing where it is by weight alone
  std::string whose;              ///< who says that it is so much
};

/// All portions of a mix, with its water.
struct Batch {
  std::vector<Portion> portions;
  WaterMass added_water;
  std::string whose_water;
  ShareOfLooseVolume settling = ShareOfLooseVolume::of(1.0);
};

/// All that is on hand of a supply.
Portion portion_on_hand(const Supply& supply, const Amount& on_hand);

}  // namespace heapwright
