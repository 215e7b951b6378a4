#include "heapwright/input/words.hpp"

#include <algorithm>
#include <array>
#include <string>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {
constexpr std::array<std::string_view, 12> months{"January", "February", "March",     "April",   "May",      "June",
                                                  "July",    "August",   "September", "October", "November", "December"};
}

std::chrono::month read_month(std::string_view text) {
  const std::string plain = plain_name(text);
  for (unsigned i = 0; i < months.size(); ++i) {
    if (plain == plain_name(months[i]) || plain == plain_name(months[i].substr(0, 3)) || (i == 8 && plain == "sept"))
      return std::chrono::month(i + 1);
  }
  throw TextError("\"" + std::string(text) + "\" is no month", "write Jan, Feb, Mar, Apr, May, Jun, Jul, Aug, Sep, Oct, Nov or Dec");
}

std::vector<std::chrono::month> read_months(Table& table, std::string_view key) {
  std::vector<std::chrono::month> listed;
  for (const Value& value : table.list(key)) {
    const auto month = value.read(read_month);
    if (!month) continue;
    if (std::find(listed.begin(), listed.end(), *month) != listed.end()) {
      value.problem("names a month twice", "write each month once");
    } else {
      listed.push_back(*month);
    }
  }
  return listed;
}

std::string_view month_name(std::chrono::month month) { return months.at(static_cast<unsigned>(month) - 1).substr(0, 3); }

bool is_early(Date date) { return date.day() <= std::chrono::day(15); }

bool is_same_half_month(Date one, Date other) {
  return one.year() == other.year() && one.month() == other.month() && is_early(one) == is_early(other);
}

std::vector<std::string> words_of(std::string_view text) {
  const auto is_letter = [](char one) { return (one >= 'a' && one <= 'z') || (one >= 'A' && one <= 'Z'); };
  std::vector<std::string> words;
  for (auto from = text.begin(); from != text.end();) {
    from = std::find_if(from, text.end(), is_letter);
    const auto to = std::find_if_not(from, text.end(), is_letter);
    if (from != to) words.push_back(plain_name(std::string_view(&*from, static_cast<std::size_t>(to - from))));
    from = to;
  }
  return words;
}

}  // namespace heapwright
