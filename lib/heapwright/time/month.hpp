#pragma once
/// Months of the calendar from day to day.

#include "heapwright/time/date.hpp"

namespace heapwright {

/// The first day of the month that is so many after that of a day.
Date first_of_month(Date day, int later = 0);
/// The last day of it.
Date end_of_month(Date day, int later = 0);
/// So many as its month has.
int days_in_month(Date day);
/// From the month of one day to that of another; below 0 where that is before.
int months_between(Date from, Date to);

/// Of the days of its month those up to a day, itself included.
double share_of_month_over(Date day);
/// Those from a day on, itself included.
double share_of_month_left(Date day);

}  // namespace heapwright
