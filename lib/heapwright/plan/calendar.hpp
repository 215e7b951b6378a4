#pragma once
/// The chores of a plan with their days, in the order of the trade.

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "heapwright/plan/season_of_yard.hpp"
#include "heapwright/season/chore.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

struct Plan;
struct Topdressing;
struct Yard;

/// Whether the soil is to be tested before compost is spread.
bool wants_soil_test(const Topdressing& spread);
/// The first day on which compost may be spread: not before a soil sample has its answer.
Date earliest_spreading(const Topdressing& spread, Date today);

/// A chore with its days.
struct CalendarChore {
  ChoreText what;
  Date from;
  Date to;                                   ///< its last day
  std::optional<std::chrono::days> every{};  ///< again after so long, till then
  bool about = false;                        ///< its day follows from a forecast: half-months are known, no days
  int batch = 0;                             ///< the filling of a bin that it is of, from 1; 0: of none
  std::optional<WeekOfSeason> week{};        ///< what goes in, of a feeding
  std::vector<RecipeAmount> amounts{};       ///< what is kept, or to get
};

/// From a day on, for a year and a half, in the order of their days. Nothing is left undone before what rests on it:
///
/// - the soil sample eight to six weeks before compost is spread; without a result none is spread within six weeks
/// - order two weeks before it, lines marked one week before it, the screwdriver three
/// - compost rests for the last month before the forecast calls it ready, and is tested then
///
/// Weeks: common practice, no source. It is spread at the times of compost_by_date.hpp. Each filling of a bin has its chores: it is fed by
/// its season, turned as the yard says or squeezed each fortnight, covered in November where it stands open.
std::vector<CalendarChore> calendar_of(const Yard& yard, const Plan& plan, Date today);

}  // namespace heapwright
