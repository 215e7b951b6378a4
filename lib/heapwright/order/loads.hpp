#pragma once
/// An order, load by load.

#include <algorithm>
#include <vector>

#include "heapwright/order/order.hpp"

namespace heapwright {

/// More of them nobody can tell apart in a drawing.
inline constexpr int most_loads_drawn = 24;

/// How many a line makes: what makes no load comes as one.
inline int count_of_loads(const OrderLine& line) { return std::max(1, line.loads); }

/// What each load of a line brings: all the same, since nobody knows how a yard fills its trucks.
inline Volume one_load_of(const OrderLine& line) { return line.volume / static_cast<double>(count_of_loads(line)); }

/// The loads of a line as they are drawn: each by itself, or all of them as one where there are more than most_loads_drawn.
inline std::vector<Volume> loads_to_draw(const OrderLine& line) {
  const int loads = count_of_loads(line);
  if (loads > most_loads_drawn) return {line.volume};
  return std::vector<Volume>(static_cast<std::size_t>(loads), one_load_of(line));
}

}  // namespace heapwright
