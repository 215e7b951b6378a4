#pragma once
/// A day in the words that people say it in.

#include <string>

#include "heapwright/time/date.hpp"

namespace heapwright {

/// "today", "Saturday", "12/5", "11/7/2026", "Dec 5", "the 5th of December", "in 2 weeks", "2026-11-07". Month before day,
/// as Americans write; without a year the next such day, or one not more than a month past. @throws TextError with what to type: for what
/// is no one day ("next week", "spring"), no day of the calendar, more than a year ago or five years ahead, or in either of two years
/// or orders
/// @param plain in its plain form (plain_answer())
Date read_said_date(const std::string& plain, Date today);

}  // namespace heapwright
