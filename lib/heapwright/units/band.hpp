#pragma once
/// Between what most of many values lie.

#include <algorithm>
#include <cstddef>
#include <vector>

namespace heapwright {

/// Two ends.
template <class Quantity>
struct Band {
  Quantity low;
  Quantity high;
};

/// What is likely, and between what it lies.
template <class Quantity>
struct LikelyBand {
  Quantity low;
  Quantity likely;
  Quantity high;
};

/// What leaves out the lowest tenth and the highest, of some values in any order: eight of ten lie in it.
/// @pre there are some
template <class Quantity>
Band<Quantity> eight_of_ten(std::vector<Quantity> values) {
  const auto left_out = static_cast<std::ptrdiff_t>(values.size() / 10);
  const auto low = values.begin() + left_out;
  const auto high = values.end() - 1 - left_out;
  std::nth_element(values.begin(), low, values.end());
  if (low != high) std::nth_element(low + 1, high, values.end());  // the low end stays where it is
  return {*low, *high};
}

}  // namespace heapwright
