#include "heapwright/process/daily_means.hpp"

#include <algorithm>
#include <chrono>
#include <optional>
#include <string>

#include "heapwright/input/columns.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/input/no_reading.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::sys_days;

constexpr const char* names_wanted = "write the columns' names in the first row: date,air degF";
constexpr const char* days_wanted = "give every day of a year, or of more";
constexpr std::size_t most_days = 36525;  // of a hundred years: past that a file is a slip

struct Columns {
  std::size_t date;
  std::size_t mean;
  TemperatureScale scale;
  std::optional<std::size_t> rain;
  Length rain_unit{};
};

/// Whether a column seems to be meant, though it lacks its unit.
bool sounds_like_air(const std::string& name) {
  const std::string plain = plain_name(name);
  const auto has = [&](const char* word) { return plain.find(word) != std::string::npos; };
  return has("air") || has("temp") || has("mean");
}

std::optional<std::size_t> mean_column(Csv& csv) {
  const std::vector<std::size_t> means = columns_that(scale_at_end, csv);
  if (means.size() == 1) return means.front();
  if (means.size() > 1) {
    csv.problem_of_column(means[1], "is a second column of temperatures, beside \"" + csv.header()[means[0]] + "\"",
                          "leave one: the mean air temperature of each day");
    return std::nullopt;
  }
  const std::vector<std::size_t> without_unit = columns_that(sounds_like_air, csv);
  if (without_unit.empty()) {
    csv.problem_of_header("no column has temperatures, by a name that ends in their unit", names_wanted);
  } else {
    csv.problem_of_column(without_unit.front(), "does not say its unit", "end the name in it: \"air degF\" or \"air degC\"");
  }
  return std::nullopt;
}

/// What stands after the word "rain" or "precipitation" in a column's name: "mm" of "rain (mm)"; nothing of other names, "rainy days".
std::optional<std::string> after_rain(const std::string& name) {
  std::string plain = plain_name(name);
  std::erase_if(plain, [](char letter) { return std::string_view("()[]").find(letter) != std::string_view::npos; });
  for (const std::string_view word : {"rainfall", "rain", "precipitation", "precip"}) {
    const bool ends_there = name.size() == word.size() ||
                            (name.size() > word.size() && std::string_view(" _([").find(name[word.size()]) != std::string_view::npos);
    if (plain.starts_with(word) && ends_there) return plain.substr(word.size());
  }
  return std::nullopt;
}

/// Nothing where it is none that rain is measured in.
std::optional<Length> unit_of_rain(const std::string& name) {
  const std::string word = after_rain(name).value_or("");
  if (word == "mm") return 0.001 * unit::m;
  if (word == "cm") return 0.01 * unit::m;
  if (word == "in" || word == "inch" || word == plain_name("inches")) return unit::inch;
  return std::nullopt;
}

bool is_rain(const std::string& name) { return after_rain(name).has_value(); }

std::optional<std::size_t> rain_column(Csv& csv) {
  const std::vector<std::size_t> rain = columns_that(is_rain, csv);
  if (rain.empty()) return std::nullopt;
  if (rain.size() > 1) {
    csv.problem_of_column(rain[1], "is a second column of rain, beside \"" + csv.header()[rain[0]] + "\"", "leave one");
  } else if (!unit_of_rain(csv.header()[rain[0]])) {
    csv.problem_of_column(rain[0], "does not say its unit", "end the name in it: \"rain in\" or \"rain mm\"");
  } else {
    return rain[0];
  }
  return std::nullopt;
}

std::optional<Columns> columns_of(Csv& csv) {
  if (!has_names(is_date, csv, names_wanted)) return std::nullopt;
  const std::optional<std::size_t> date = column_called("date", csv, names_wanted);
  const std::optional<std::size_t> mean = mean_column(csv);
  if (!date || !mean) return std::nullopt;
  Columns columns{*date, *mean, *scale_at_end(csv.header()[*mean]), {}, {}};
  columns.rain = rain_column(csv);
  if (columns.rain) columns.rain_unit = *unit_of_rain(csv.header()[*columns.rain]);
  return columns;
}

/// The day after, but for 29 February.
Date next_wanted(Date day) {
  const Date next = sys_days(day) + std::chrono::days(1);
  const bool is_leap_day = next.month() == std::chrono::February && next.day() == std::chrono::day(29);
  return is_leap_day ? Date(sys_days(next) + std::chrono::days(1)) : next;
}

bool follows(Date day, Date before) { return sys_days(day) == sys_days(before) + std::chrono::days(1) || day == next_wanted(before); }

/// Follows the dates from row to row.
class Calendar {
 public:
  explicit Calendar(std::size_t column) : column_(column) {}

  std::optional<Date> take(Csv& csv) {
    const std::optional<Date> day = csv.read(column_, read_date);
    if (!day) {
      sound_ = false;
      return day;
    }
    if (last_) compare(*day, *last_, csv);
    if (!first_) first_ = day;
    last_ = day;
    return day;
  }

  /// What is missing; of a file of which some days were not understood that is not known.
  void finish(Csv& csv) const {
    if (!sound_ || csv.flawed()) return;
    if (gap_) {
      csv.problem_at(gap_->before, csv.header()[column_], print_date(gap_->missing) + " is missing before this",
                     "give every day from the first to the last");
    } else if (!first_) {
      csv.problem_of_file("there are no days below the columns' names", days_wanted);
    } else if (sys_days(next_wanted(*last_)) < sys_days(*first_ + std::chrono::years(1))) {
      csv.problem_of_file("the days from " + print_date(*first_) + " to " + print_date(*last_) + " are less than a year", days_wanted);
    }
  }

 private:
  struct Gap {
    Date missing;
    Position before;
  };

  void compare(Date day, Date last, Csv& csv) {
    if (day <= last) {
      sound_ = false;
      csv.problem(column_, day == last ? print_date(day) + " stands twice" : print_date(day) + " stands after " + print_date(last),
                  "give each day once, in their order");
    } else if (!gap_ && !follows(day, last)) {
      gap_ = Gap{next_wanted(last), csv.position(column_)};
    }
  }

  std::size_t column_;
  std::optional<Date> first_;
  std::optional<Date> last_;
  std::optional<Gap> gap_;  ///< the first
  bool sound_ = true;
};

/// A day without a reading is a day that is missing. @throws TextError
void refuse_no_reading(std::string_view text) {
  refuse_infinite(text);
  if (is_no_reading(text))
    throw TextError("\"" + std::string(text) + "\" is no reading, and every day wants one",
                    "write a number, as the days beside it suggest it");
}

TemperaturePoint read_mean(std::string_view text, TemperatureScale scale) {
  refuse_no_reading(text);
  const TemperaturePoint mean = TemperaturePoint::on(scale, read_number(text));
  if (!is_a_daily_mean(mean))
    throw TextError("\"" + std::string(text) + "\" is no day's mean on this earth",
                    "write the mean air temperature, from -60 to 60 degC or -76 to 140 degF");
  return mean;
}

/// A station writes T where a trace fell.
Length read_rain(std::string_view text, Length in_unit) {
  refuse_no_reading(text);
  const bool is_trace = text == "T" || text == "t";
  const double number = is_trace ? 0.0 : read_number(text);
  const Length rain = number * in_unit;
  if (!(number >= 0.0 && rain <= 2.0 * unit::m))
    throw TextError("\"" + std::string(text) + "\" is no day's rain", "write a number in the unit of its column, 0 where none fell");
  return rain;
}

}  // namespace

bool is_a_daily_mean(TemperaturePoint mean) {
  return mean >= TemperaturePoint::from_celsius(-60.0) && mean <= TemperaturePoint::from_celsius(60.0);
}

DailyMeans read_daily_means(Csv& csv) {
  const std::optional<Columns> columns = columns_of(csv);
  if (!columns) return {};
  DailyMeans means;
  Calendar calendar(columns->date);
  for (std::size_t rows = 0; csv.next(); ++rows) {
    if (rows == most_days) {
      csv.problem_of_file("there are more than a hundred years of days", "leave out the first of them");
      return means;
    }
    const std::optional<Date> day = calendar.take(csv);
    const auto mean =
        csv.read(columns->mean, [&](std::string_view text) { return read_mean(csv.with_decimal_point(text), columns->scale); });
    std::optional<Length> rain;
    const auto read_rain_of = [&](std::string_view text) { return read_rain(csv.with_decimal_point(text), columns->rain_unit); };
    if (columns->rain) rain = csv.read(*columns->rain, read_rain_of);
    if (day && mean) means.push_back({*day, *mean, rain});
  }
  calendar.finish(csv);
  return means;
}

}  // namespace heapwright
