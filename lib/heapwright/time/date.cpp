#include "heapwright/time/date.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <optional>
#include <string>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {
constexpr const char* right_form = "write year-month-day: 2026-11-07";

bool is_sensible(Date date) { return date.year() >= std::chrono::year(1900) && date.year() <= std::chrono::year(2200); }

/// Digits at their places, whatever day they make; nothing for other texts.
std::optional<Date> date_as_written(std::string_view text) {
  constexpr std::string_view pattern = "dddd-dd-dd";
  const auto fits = [](char c, char place) { return place == 'd' ? c >= '0' && c <= '9' : c == place; };
  if (!std::equal(text.begin(), text.end(), pattern.begin(), pattern.end(), fits)) return std::nullopt;
  const auto number = [&](std::size_t begin, std::size_t end) {
    int value = 0;
    for (std::size_t i = begin; i < end; ++i) value = 10 * value + (text[i] - '0');
    return value;
  };
  return Date(std::chrono::year(number(0, 4)), std::chrono::month(static_cast<unsigned>(number(5, 7))),
              std::chrono::day(static_cast<unsigned>(number(8, 10))));
}
}  // namespace

std::string print_date(Date date) {
  std::array<char, 16> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                static_cast<unsigned>(date.day()));
  return text.data();
}

Date sensible_date(Date date) {
  if (!date.ok()) throw TextError("there is no such day in the calendar", right_form);
  if (!is_sensible(date)) throw TextError(print_date(date) + " is outside the years 1900 to 2200", right_form);
  return date;
}

Date read_date(std::string_view text) {
  const std::optional<Date> date = date_as_written(text);
  if (!date) throw TextError("\"" + std::string(text) + "\" is no date", right_form);
  if (!date->ok()) throw TextError("\"" + std::string(text) + "\" is no day of the calendar", right_form);
  return sensible_date(*date);
}

bool is_date(std::string_view text) {
  const std::optional<Date> date = date_as_written(text);
  return date && date->ok() && is_sensible(*date);
}

std::chrono::month read_month(std::string_view text) {
  const std::string plain = plain_name(text);
  for (unsigned i = 0; i < month_names.size(); ++i) {
    if (plain == plain_name(month_names[i]) || plain == plain_name(month_names[i].substr(0, 3)) || (i == 8 && plain == "sept"))
      return std::chrono::month(i + 1);
  }
  throw TextError("\"" + std::string(text) + "\" is no month", "write Jan, Feb, Mar, Apr, May, Jun, Jul, Aug, Sep, Oct, Nov or Dec");
}

std::string_view month_name(std::chrono::month month) { return month_names.at(static_cast<unsigned>(month) - 1).substr(0, 3); }

std::string_view weekday_name(Date date) { return weekday_names.at(std::chrono::weekday(std::chrono::sys_days(date)).c_encoding()); }

bool is_early(Date date) { return date.day() <= std::chrono::day(15); }

bool is_same_half_month(Date one, Date other) {
  return one.year() == other.year() && one.month() == other.month() && is_early(one) == is_early(other);
}

}  // namespace heapwright
