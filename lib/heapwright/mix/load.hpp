#pragma once
/// What really went into a pile, and on which days.

#include <optional>
#include <vector>

#include "heapwright/mix/supply.hpp"

namespace heapwright {

/// Something that went in on a day: a feedstock with its amount, water, or both.
struct Load {
  Date date;
  std::optional<Supply> supply;  ///< with an amount; nothing where it was water alone
  WaterMass water;               ///< poured on with it
};

/// Most loads of one pile: several a day, for a year.
inline constexpr std::size_t most_loads = 2000;

/// All [[load]] tables of a file, the earliest first. Their supplies are numbered as those of a yard are.
std::vector<Load> read_loads(Table& root, const Materials& materials);

}  // namespace heapwright
