#pragma once
/// The chores of a plan with their days, in the order of the trade.

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "heapwright/season/chore.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

struct Plan;
struct Yard;

struct CalendarChore {
  ChoreText what;
  Date from;
  Date to;                                   ///< its last day
  std::optional<std::chrono::days> every{};  ///< again after so long, till then
  bool about = false;                        ///< its day follows from a forecast: half-months are known, no days
};

/// From a day on, for a year and a half, in the order of their days. Nothing is left undone before what rests on it:
///
/// - the soil sample eight to six weeks before compost is spread; without a result none is spread within six weeks
/// - order two weeks before it, lines marked one week before it, the screwdriver three
/// - compost rests for the last month before the forecast calls it ready, and is tested then
///
/// Weeks: common practice, no source. It is spread in the months of the plan, else in September, of warm-season grass in May.
std::vector<CalendarChore> calendar_of(const Yard& yard, const Plan& plan, Date today);

}  // namespace heapwright
