#include "heapwright/order/tipped_pile.hpp"

#include <cmath>
#include <numbers>

#include "heapwright/error.hpp"

namespace heapwright {

TippedPile tipped_pile(Volume volume) {
  if (!is_positive(volume)) throw DomainError("a load holds something", "give a volume above zero");
  constexpr double degrees_of_rest = 37.0;
  const double slope = std::tan(degrees_of_rest / 180.0 * std::numbers::pi);
  const Length radius = std::cbrt(3.0 * volume.value() / (std::numbers::pi * slope)) * unit::m;
  return {volume, 2.0 * radius, slope * radius};
}

}  // namespace heapwright
