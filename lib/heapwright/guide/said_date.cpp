#include "heapwright/guide/said_date.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/time/numeric_date.hpp"
#include "heapwright/units/nearest.hpp"

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr days longest_past(366);       // judged: an older pile is finished, or the year is a slip
constexpr days longest_ahead(5 * 366);  // judged: a slip of the pen
constexpr days soon(270);               // judged: a day further ahead is meant only with its year
constexpr days taken_as_this_year(31);  // a day without a year that is not further back is this year's

Date after(Date day, int count) { return Date(sys_days(day) + days(count)); }

std::string hint_of(Date today) { return "write " + print_date(today) + ", Nov 7, 11/7, or today"; }

bool is_number(const std::string& text, std::size_t least_digits, std::size_t most_digits) {
  return text.size() >= least_digits && text.size() <= most_digits && text.find_first_not_of("0123456789") == std::string::npos;
}

/// "5" of "5th".
std::string without_ordinal(const std::string& word) {
  for (const std::string_view ending : {"st", "nd", "rd", "th"}) {
    if (word.size() > ending.size() && word.ends_with(ending) && is_number(word.substr(0, word.size() - 2), 1, 2))
      return word.substr(0, word.size() - 2);
  }
  return word;
}

/// "Decemeber".
bool is_one_slip_off(std::string_view word, std::string_view name) {
  constexpr std::size_t long_enough = 6;
  return word.size() >= long_enough && name.size() >= long_enough && edit_distance(word, name) <= 1;
}

/// Which of some names a word is, in full, with a slip, or shortened to three letters and more: "Weds" too.
template <std::size_t n>
std::optional<unsigned> place_among(std::string word, const std::array<std::string_view, n>& names) {
  if (word.ends_with('.')) word.pop_back();
  constexpr std::size_t shortest = 3;
  constexpr std::size_t longest_short = 5;
  for (unsigned i = 0; i < names.size(); ++i) {
    const std::string name = plain_answer(names[i]);
    const std::size_t most = word.ends_with('s') ? word.size() - 1 : word.size();  // "Weds", "Tues"
    const bool shortened =
        word.size() >= shortest && word.size() <= longest_short && name.starts_with(word.substr(0, most)) && most >= shortest;
    if (word == name || shortened || is_one_slip_off(word, name)) return i;
  }
  return std::nullopt;
}

std::optional<std::chrono::weekday> weekday_of(const std::string& word) {
  const auto place = place_among(word, weekday_names);
  return place ? std::optional(std::chrono::weekday(*place)) : std::nullopt;
}

std::optional<std::chrono::month> month_of(const std::string& word) {
  const auto place = place_among(word, month_names);
  return place ? std::optional(std::chrono::month(*place + 1)) : std::nullopt;
}

/// "5" of "fifth".
std::string ordinal_in_digits(const std::string& word) {
  constexpr auto ordinals =
      std::to_array<std::string_view>({"first",     "second",    "third",       "fourth",     "fifth",      "sixth",      "seventh",
                                       "eighth",    "ninth",     "tenth",       "eleventh",   "twelfth",    "thirteenth", "fourteenth",
                                       "fifteenth", "sixteenth", "seventeenth", "eighteenth", "nineteenth", "twentieth"});
  const auto found = std::find(ordinals.begin(), ordinals.end(), word);
  return found == ordinals.end() ? word : std::to_string(found - ordinals.begin() + 1);
}

/// On the day itself, or the next such.
Date coming(std::chrono::weekday weekday, Date today) { return Date(sys_days(today) + (weekday - std::chrono::weekday(sys_days(today)))); }

/// Without a year: the next such day, or one not more than a month past. @throws TextError for one longer past, which may be either year's
template <class DayOfYear>
Date this_or_next(DayOfYear day_of, Date today) {
  const Date date = day_of(today.year());
  const Date next = day_of(today.year() + std::chrono::years(1));
  if (!date.ok()) return next;
  const bool long_past = sys_days(date) + taken_as_this_year < sys_days(today);
  const bool long_ahead = sys_days(next) > sys_days(today) + soon;
  if (long_past && long_ahead)
    throw TextError(print_date(date) + " is past: which year?", "write the year too: " + print_date(date) + ", or " + print_date(next));
  return long_past ? next : date;
}

Date this_or_next_year(std::chrono::month month, unsigned day, Date today) {
  return this_or_next([&](std::chrono::year year) { return Date(year, month, std::chrono::day(day)); }, today);
}

/// A holiday: of a day of a month, or of such a weekday of it, the last where it is the fifth.
struct Holiday {
  std::string_view name;
  unsigned month;
  unsigned day;      ///< or which of the weekdays
  int weekday = -1;  ///< from Sunday, 0
};
constexpr unsigned last_of_month = 5;
constexpr auto holidays = std::to_array<Holiday>(
    {{"new year's day", 1, 1},  {"new years day", 1, 1},     {"new year's", 1, 1},        {"valentine's day", 2, 14},
     {"valentines day", 2, 14}, {"presidents day", 2, 3, 1}, {"st patrick's day", 3, 17}, {"st patricks day", 3, 17},
     {"earth day", 4, 22},      {"mother's day", 5, 2, 0},   {"mothers day", 5, 2, 0},    {"memorial day", 5, last_of_month, 1},
     {"juneteenth", 6, 19},     {"father's day", 6, 3, 0},   {"fathers day", 6, 3, 0},    {"independence day", 7, 4},
     {"fourth of july", 7, 4},  {"labor day", 9, 1, 1},      {"columbus day", 10, 2, 1},  {"halloween", 10, 31},
     {"veterans day", 11, 11},  {"veteran's day", 11, 11},   {"thanksgiving", 11, 4, 4},  {"thanksgiving day", 11, 4, 4},
     {"christmas eve", 12, 24}, {"christmas", 12, 25},       {"christmas day", 12, 25},   {"new year's eve", 12, 31},
     {"new years eve", 12, 31}});

Date day_of(const Holiday& holiday, std::chrono::year year) {
  const std::chrono::month month(holiday.month);
  if (holiday.weekday < 0) return Date(year, month, std::chrono::day(holiday.day));
  const std::chrono::weekday weekday(static_cast<unsigned>(holiday.weekday));
  if (holiday.day == last_of_month) return Date(sys_days(year / month / weekday[std::chrono::last]));
  return Date(sys_days(year / month / weekday[holiday.day]));
}

std::optional<Date> on_holiday(std::string said, Date today) {
  for (const std::string_view before : {"on ", "this "}) {
    if (said.starts_with(before)) said = said.substr(before.size());
  }
  for (const Holiday& holiday : holidays) {
    if (said == holiday.name) return this_or_next([&](std::chrono::year year) { return day_of(holiday, year); }, today);
  }
  return std::nullopt;
}

Date existing(Date date, const std::string& said, Date today) {
  if (!date.ok()) throw TextError("\"" + said + "\" is no day of the calendar", hint_of(today));
  return date;
}

/// A date with its year, the month first; a point between them tells that the day is, where it can be no month. @throws TextError for one
/// that is past with the month first and to come with the day first
std::optional<Date> with_year(const std::string& said, Date today) {
  const std::optional<NumericDate> date = numeric_date(said);
  if (!date) return std::nullopt;
  const bool is_day_first = said.find('.') != std::string::npos && date->first > 12;
  const Date day = existing(date->in(is_day_first ? DayOrder::day_first : DayOrder::month_first), said, today);
  const Date other = date->in(DayOrder::day_first);
  const bool is_past = sys_days(day) + taken_as_this_year < sys_days(today);
  if (is_past && other.ok() && sys_days(other) >= sys_days(today))
    throw TextError("\"" + said + "\" is " + print_date(day) + " with the month first, which is past",
                    "write it as " + print_date(day) + ", or as " + print_date(other));
  return day;
}

/// "11/7", "11-7": the month first.
std::optional<Date> without_year(const std::string& said, Date today) {
  const std::vector<std::string> parts = split(said, {"/", "-"});
  if (parts.size() != 2 || !is_number(parts[0], 1, 2) || !is_number(parts[1], 1, 2)) return std::nullopt;
  const auto month = static_cast<unsigned>(std::stoi(parts[0]));
  const auto day = static_cast<unsigned>(std::stoi(parts[1]));
  if (month > 12 && day <= 12)
    throw TextError("\"" + said + "\" has no month " + parts[0], "write the month first: " + parts[1] + "/" + parts[0]);
  return existing(this_or_next_year(std::chrono::month(month), day, today), said, today);
}

/// "2026-11-07", "2026/11/7".
std::optional<Date> year_first(const std::string& said, Date today) {
  const std::vector<std::string> parts = split(said, {"/", "-"});
  if (parts.size() != 3 || !is_number(parts[0], 4, 4) || !is_number(parts[1], 1, 2) || !is_number(parts[2], 1, 2)) return std::nullopt;
  return existing(Date(std::chrono::year(std::stoi(parts[0])), std::chrono::month(static_cast<unsigned>(std::stoi(parts[1]))),
                       std::chrono::day(static_cast<unsigned>(std::stoi(parts[2])))),
                  said, today);
}

/// "in 2 weeks", "2 weeks from now", "in a week".
std::optional<Date> from_now(std::string said, Date today) {
  bool ahead = false;
  for (const std::string_view before : {"in ", "within "}) {
    if (!said.starts_with(before)) continue;
    said = said.substr(before.size());
    ahead = true;
  }
  for (const std::string_view behind : {" from now", " from today", " time", " out"}) {
    if (!said.ends_with(behind)) continue;
    said.erase(said.size() - behind.size());
    ahead = true;
  }
  for (const std::string_view one : {"a", "an"}) replace_first_word(said, one, "1");
  const std::vector<std::string> words = split(said, {" "});
  const bool ago = words.size() == 3 && words[2] == "ago";
  if ((!ahead && !ago) || words.size() != (ago ? 3U : 2U) || !is_number(words[0], 1, 3)) return std::nullopt;
  const int count = (ago ? -1 : 1) * std::stoi(words[0]);
  if (words[1] == "month" && count == 1) return Date(sys_days(today) + days(30));
  if (words[1].starts_with("day")) return after(today, count);
  if (words[1].starts_with("week")) return after(today, 7 * count);
  return std::nullopt;
}

/// "dec 5" of "dec5".
std::string letters_and_digits_apart(const std::string& said) {
  std::string apart;
  for (const char c : said) {
    const bool digit = c >= '0' && c <= '9';
    const bool after_letter = !apart.empty() && apart.back() >= 'a' && apart.back() <= 'z';
    if (digit && after_letter) apart += ' ';
    apart += c;
  }
  return apart;
}

/// "Dec 5", "5 December 2026", "Saturday, December 5th", "the 5th of December".
std::optional<Date> in_words(const std::string& said, Date today) {
  std::optional<std::chrono::month> month;
  std::optional<unsigned> day;
  std::optional<std::chrono::year> year;
  std::optional<std::chrono::weekday> weekday;
  for (const std::string& word : split(letters_and_digits_apart(said), {", ", ",", " "})) {
    const std::string bare = ordinal_in_digits(without_ordinal(word));
    const bool says_little = bare.empty() || bare == "the" || bare == "of" || bare == "on" || bare == "by" || bare == "around";
    if (says_little) continue;
    if (const auto named = weekday_of(bare); named && !month_of(bare)) {
      weekday = named;
      continue;
    }
    if (const auto named = month_of(bare); named && !month) {
      month = named;
    } else if (is_number(bare, 1, 2) && !day) {
      day = static_cast<unsigned>(std::stoi(bare));
    } else if (is_number(bare, 4, 4) && !year) {
      year = std::chrono::year(std::stoi(bare));
    } else {
      return std::nullopt;
    }
  }
  if (!month || !day) return std::nullopt;
  const Date date = existing(year ? Date(*year, *month, std::chrono::day(*day)) : this_or_next_year(*month, *day, today), said, today);
  if (weekday && std::chrono::weekday(sys_days(date)) != *weekday)
    throw TextError(print_date(date) + " is a " + std::string(weekday_name(date)), "write the date alone: " + print_date(date));
  return date;
}

std::optional<Date> by_weekday(std::string said, Date today) {
  for (const std::string_view before : {"on ", "this ", "this coming ", "coming ", "this next "}) {
    if (said.starts_with(before)) said = said.substr(before.size());
  }
  int weeks = 0;
  if (said.starts_with("a week from ")) {
    said = said.substr(12);
    weeks = 1;
  }
  const bool last = said.starts_with("last ");
  if (last) said = said.substr(5);
  const auto weekday = weekday_of(said);
  if (!weekday) return std::nullopt;
  return last ? Date(sys_days(coming(*weekday, after(today, -7)))) : after(coming(*weekday, today), 7 * weeks);
}

std::optional<Date> day_meant(const std::string& said, Date today) {
  constexpr auto todays = std::to_array<std::string_view>(
      {"today", "now", "right now", "right away", "tonight", "this afternoon", "this morning", "this evening"});
  if (is_one_of(said, todays)) return today;
  const std::string first = said.substr(0, said.find(' '));
  if (first == "tomorrow" || is_one_slip_off(first, "tomorrow")) return after(today, 1);
  if (said == "day after tomorrow" || said == "the day after tomorrow") return after(today, 2);
  if (said == "yesterday") return after(today, -1);
  if (auto date = by_weekday(said, today)) return date;
  if (auto date = on_holiday(said, today)) return date;
  if (auto date = year_first(said, today)) return date;
  if (auto date = with_year(said, today)) return date;
  if (auto date = without_year(said, today)) return date;
  if (auto date = from_now(said, today)) return date;
  return in_words(said, today);
}

}  // namespace

Date read_said_date(const std::string& plain, Date today) {
  const std::optional<Date> date = day_meant(plain, today);
  if (!date) {
    const bool sounds_like_time = std::any_of(plain.begin(), plain.end(), [](char c) { return c >= 'a' && c <= 'z'; });
    throw TextError("\"" + plain + "\" is no one day" + (sounds_like_time ? "" : " of the calendar"), "which day? " + hint_of(today));
  }
  const Date sensible = sensible_date(*date);
  if (sys_days(sensible) + longest_past < sys_days(today))
    throw TextError("\"" + plain + "\" is more than a year ago", "which day? " + hint_of(today));
  if (sys_days(sensible) > sys_days(today) + longest_ahead)
    throw TextError("\"" + plain + "\" is more than five years ahead", "which day? " + hint_of(today));
  return sensible;
}

}  // namespace heapwright
