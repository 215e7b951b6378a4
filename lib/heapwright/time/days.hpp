#pragma once
/// Days counted from one to another.

#include "heapwright/time/date.hpp"

namespace heapwright {

/// The day so many after another.
inline Date later_by(Date day, int days) { return Date(std::chrono::sys_days(day) + std::chrono::days(days)); }
/// Days from one to another; below 0 where the second comes first.
inline int days_from_to(Date from, Date to) { return static_cast<int>((std::chrono::sys_days(to) - std::chrono::sys_days(from)).count()); }

}  // namespace heapwright
