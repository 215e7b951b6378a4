#pragma once
/// The compost of a yard by date, against what its lawn wants then.

#include <vector>

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/plan/batches.hpp"

namespace heapwright {

/// Days of one month.
struct SpreadingTime {
  Date from;
  Date to;
};

/// The months of a plan, else September, of warm-season grass May, each from a day on and with a week and more of it left, in a year and a
/// half.
std::vector<SpreadingTime> times_to_spread(const TopdressingPlan& plan, Date after);

/// One spreading of a lawn: what is ready and screened by then of its own, what that covers, and what to buy.
struct LawnByDate {
  SpreadingTime time;
  Volume needed;
  CompostYield own{};  ///< of it at most what is needed; the rest is there for the next time
  Area covers;
  Volume to_buy;  ///< at the likely yield
};
/// What is ready two weeks before the time ends counts, by its likely day.
/// @param after the first day on which may be spread
std::vector<LawnByDate> lawn_by_date(const Topdressing& spread, const std::vector<CompostBatch>& batches, Date after);

}  // namespace heapwright
