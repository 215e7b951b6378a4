#pragma once
/// What was really spread, and what it says of the next time.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/lawn/lawn.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;
struct Materials;
struct TopdressingPlan;

/// Compost that is on the ground.
struct Spread {
  std::string of;  ///< the job or the zone that it was spread on; empty: all of the lawn
  std::optional<Date> date;
  Volume used;
  Area area;     ///< that it was spread on
  Length aim;    ///< how deep it was meant to lie
  Length depth;  ///< how deep it lies: used/area
  /// depth/aim − 1, the aim above zero.
  double over() const { return static_cast<double>(depth / aim) - 1.0; }  ///< 0.1 where a tenth more was used than meant
};

/// Judged.
inline constexpr double most_learned_allowance = 0.25;

/// A spread that is off by more than this factor, either way, is likely of another lawn, or a slip. Judged.
inline constexpr double spread_likely_a_slip = 2.0;

/// Reads [[spread]]: used, with its date, its job or zone, and its depth where it was another than the file's.
std::vector<Spread> read_spreads(Table& root, const std::optional<Lawn>& lawn, const TopdressingPlan& plan, const Materials& materials);

/// What to allow for, after what the same hands used before, none below zero:
///
///     allowance = Σ used / Σ (area × aim) − 1
///
/// At most most_learned_allowance: beyond it compost was no loss but lies too deep. Nothing without a spread.
std::optional<ShareOfVolume> allowance_after(const std::vector<Spread>& spreads);

/// The one of the latest day, of those without a day the last. @pre there is one
const Spread& latest(const std::vector<Spread>& spreads);

/// How much of it lies on a zone since eleven months before a day: who spreads once a year may be some weeks early.
Length spread_since_last_year(const Zone& zone, const std::vector<Spread>& spreads, Date day);

}  // namespace heapwright
