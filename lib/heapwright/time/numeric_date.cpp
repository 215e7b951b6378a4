#include "heapwright/time/numeric_date.hpp"

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

constexpr unsigned months_of_a_year = 12;
constexpr const char* written_right = "write year-month-day: 2026-11-07";

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Takes a number of at most so many digits from the front.
std::optional<unsigned> take_number(std::string_view& text, std::size_t most_digits) {
  std::size_t digits = 0;
  unsigned number = 0;
  while (digits < text.size() && digits < most_digits && is_digit(text[digits]))
    number = 10 * number + static_cast<unsigned>(text[digits++] - '0');
  text.remove_prefix(digits);
  return digits > 0 ? std::optional(number) : std::nullopt;
}

bool take(std::string_view& text, char c) {
  if (!text.starts_with(c)) return false;
  text.remove_prefix(1);
  return true;
}

/// "Nov 7"
std::string in_words(Date day) { return std::string(month_name(day.month())) + " " + std::to_string(static_cast<unsigned>(day.day())); }

}  // namespace

Date NumericDate::in(DayOrder order) const {
  const unsigned month = order == DayOrder::month_first ? first : second;
  const unsigned day = order == DayOrder::month_first ? second : first;
  return {std::chrono::year(year), std::chrono::month(month), std::chrono::day(day)};
}

std::optional<NumericDate> numeric_date(std::string_view text) {
  NumericDate date;
  const auto first = take_number(text, 2);
  const char between = text.empty() ? '\0' : text.front();
  if (!first || (between != '/' && between != '.' && between != '-')) return std::nullopt;
  take(text, between);
  const auto second = take_number(text, 2);
  if (!second || !take(text, between)) return std::nullopt;
  const std::size_t digits_of_year = text.size();
  const auto year = take_number(text, 4);
  if (!year || !text.empty() || (digits_of_year != 2 && digits_of_year != 4)) return std::nullopt;
  date.first = *first;
  date.second = *second;
  date.short_year = digits_of_year == 2;
  date.year = static_cast<int>(*year) + (date.short_year ? 2000 : 0);
  return date;
}

void OrderOfDates::take(std::string_view text) {
  const std::optional<NumericDate> date = numeric_date(text);
  if (!date) return;
  has_short_year_ = has_short_year_ || date->short_year;
  if (date->second > months_of_a_year && month_first_by_.empty()) month_first_by_ = text;
  if (date->first > months_of_a_year && day_first_by_.empty()) day_first_by_ = text;
}

std::optional<DayOrder> OrderOfDates::order() const {
  if (month_first_by_.empty() == day_first_by_.empty()) return std::nullopt;
  if (!month_first_by_.empty()) return DayOrder::month_first;
  return has_short_year_ ? std::nullopt : std::optional(DayOrder::day_first);
}

Date read_numeric_date(std::string_view text, std::optional<DayOrder> order) {
  const std::optional<NumericDate> date = numeric_date(text);
  const std::string quoted = "\"" + std::string(text) + "\"";
  if (!date) throw TextError(quoted + " is no date", written_right);
  if (!order && date->first != date->second) {
    const Date month_first = date->in(DayOrder::month_first);
    const Date day_first = date->in(DayOrder::day_first);
    if (month_first.ok() && day_first.ok())
      throw TextError(quoted + " may be " + in_words(month_first) + " or " + in_words(day_first) + ", and no other date of the file tells",
                      written_right);
    throw TextError(quoted + " does not tell its order of day, month and year together with the other dates of the file", written_right);
  }
  const Date day = date->in(order.value_or(DayOrder::month_first));
  if (!day.ok()) throw TextError(quoted + " is no day of the calendar", written_right);
  return sensible_date(day);
}

}  // namespace heapwright
