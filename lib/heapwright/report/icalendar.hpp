#pragma once
/// A calendar as other programs read it: RFC 5545.

#include <string>
#include <vector>

#include "heapwright/materials/materials.hpp"
#include "heapwright/plan/calendar.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

/// Each chore as an event of whole days. @param written the day on which it is written
/// @param show in which units its amounts are told
std::string icalendar_of(const std::string& title, const std::vector<CalendarChore>& chores, Date written, const Materials& materials,
                         const Show& show);

}  // namespace heapwright
