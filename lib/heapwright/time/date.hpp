#pragma once
/// Days of the calendar and their months, as people write and read them.

#include <array>
#include <chrono>
#include <string>
#include <string_view>

namespace heapwright {

/// A day of the calendar; it may be none, as 30 February is: read_date() gives none such.
using Date = std::chrono::year_month_day;

/// English names, January and Sunday first.
inline constexpr std::array<std::string_view, 12> month_names{"January", "February", "March",     "April",   "May",      "June",
                                                              "July",    "August",   "September", "October", "November", "December"};
inline constexpr std::array<std::string_view, 7> weekday_names{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                               "Thursday", "Friday", "Saturday"};

/// "2026-11-07".
std::string print_date(Date date);
/// A day that somebody who composts may mean: from 1900 to 2200, judged. @throws TextError
Date sensible_date(Date date);
/// "2026-11-07", ISO 8601 with hyphens, a sensible_date(). @throws TextError
Date read_date(std::string_view text);
/// Whether read_date() reads a text.
bool is_date(std::string_view text);

/// "Oct" or "October". @throws TextError
std::chrono::month read_month(std::string_view text);
/// "Oct".
std::string_view month_name(std::chrono::month month);
/// "Saturday".
std::string_view weekday_name(Date date);

/// Whether a day is of the early half of its month: to the 15th.
bool is_early(Date date);
bool is_same_half_month(Date one, Date other);

}  // namespace heapwright
