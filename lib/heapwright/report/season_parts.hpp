#pragma once
/// What JSON and CSV tell of a season. Not installed: users of the library get text.

#include "heapwright/season/year.hpp"

namespace heapwright {

/// A supply's month in cubic meters, as it lies when it is put in.
struct SupplyInMonth {
  double in;
  double bought;
  double used;
  double stored;  ///< at the end of the month
  double unused;
};

SupplyInMonth supply_in_month(const Ingredient& ingredient, const MonthOfSupply& month);

}  // namespace heapwright
