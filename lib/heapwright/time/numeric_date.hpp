#pragma once
/// Dates of three numbers with the year last, "11/7/2026": only all dates of a file together can tell which number is the day.

#include <optional>
#include <string>
#include <string_view>

#include "heapwright/time/date.hpp"

namespace heapwright {

/// "11/7" is November 7 in the first, July 11 in the other.
enum class DayOrder { month_first, day_first };

/// Three numbers of a date as they stand.
struct NumericDate {
  unsigned first = 0;
  unsigned second = 0;
  int year = 0;
  bool short_year = false;  ///< of two digits

  /// The day that it is in an order; it may be none of the calendar.
  Date in(DayOrder order) const;
};

/// "11/7/2026", "11/7/26", "7.11.2026", "7-11-2026"; nothing for other texts.
std::optional<NumericDate> numeric_date(std::string_view text);

/// Which order is the only one that all dates of a file can be in.
class OrderOfDates {
 public:
  /// Counts a text in; one that is no such date tells nothing.
  void take(std::string_view text);
  /// Nothing where they can be in both, or in none. Where years have two digits a first number above 12 may be a year, and tells nothing.
  std::optional<DayOrder> order() const;
  /// The first date that tells it, as it was written. @pre order()
  const std::string& told_by() const { return order() == DayOrder::month_first ? month_first_by_ : day_first_by_; }

 private:
  std::string month_first_by_;  ///< its second number is above 12
  std::string day_first_by_;    ///< its first number is
  bool has_short_year_ = false;
};

/// The day of such a date. @throws TextError where the order is not known and it could be two days, and for what is no day
Date read_numeric_date(std::string_view text, std::optional<DayOrder> order);

}  // namespace heapwright
