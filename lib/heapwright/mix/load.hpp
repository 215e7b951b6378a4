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

/// All [[load]] tables of a file, the earliest first, those of a day as they stand. Their supplies are none of the yard's: they have no
/// number, and two of one feedstock need no names of their own, since their days tell them apart.
std::vector<Load> read_loads(Table& root, const Materials& materials);

/// Puts loads in their order, those of a day as they stand.
void sort_by_day(std::vector<Load>& loads);

/// Whether two loads may be one that was written down twice: the same on the same day.
bool are_alike(const Load& one, const Load& other);

/// Two amounts together; nothing where they are counted in different measures.
std::optional<Amount> sum_of(const Amount& one, const Amount& other);

/// What went in of a feedstock that is counted in one measure.
struct LoadedInAll {
  Feedstock feedstock;
  Amount amount;
};
/// All loads together: a feedstock with a place for each measure that it is counted in, in the order of their first days.
struct AllLoaded {
  std::vector<LoadedInAll> things;
  WaterMass water;
};
AllLoaded sum_of(const std::vector<Load>& loads);

}  // namespace heapwright
