#pragma once
/// An order, load by load.

#include <algorithm>
#include <vector>

#include "heapwright/order/order.hpp"

namespace heapwright {

/// What each load of a line brings: all the same, since nobody knows how a yard fills its trucks. What makes no load comes as one.
inline std::vector<Volume> loads_of(const OrderLine& line) {
  const int loads = std::max(1, line.loads);
  return std::vector<Volume>(static_cast<std::size_t>(loads), line.volume / static_cast<double>(loads));
}

}  // namespace heapwright
