// Days from months: the months' means are kept, and nothing is added to the year that was not in it. Days from a file: as they stand
// there, and every mistake in them at its place.

#include "heapwright/process/weather.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <functional>
#include <numbers>
#include <random>
#include <unistd.h>

#include "heapwright/input/csv.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Contains;
using Catch::Matchers::WithinAbs;
using std::numbers::pi;
namespace chrono = std::chrono;

namespace {

constexpr int a_common_year = 2025;
constexpr int a_leap_year = 2024;
// A sum of some thirty roundings near 300 K, of 6e-14 K each.
constexpr double rounding = 1e-11;

Date date(int year, unsigned month, unsigned day) { return Date(chrono::year(year), chrono::month(month), chrono::day(day)); }

ClimateDescription climate_of(const std::string& keys) {
  Problems problems;
  const Document document = Document::from_text("[climate]\n" + keys, "yard.toml", problems);
  Table root = document.root();
  std::optional<ClimateDescription> climate = read_climate(root, built_in_tables().climates);
  problems.throw_if_any();
  return *climate;
}

std::vector<Date> days_of(int year, unsigned month) {
  std::vector<Date> days;
  for (unsigned day = 1; day <= 31; ++day) {
    if (date(year, month, day).ok()) days.push_back(date(year, month, day));
  }
  return days;
}

std::vector<Date> days_of(int year) {
  std::vector<Date> days;
  for (unsigned month = 1; month <= 12; ++month) {
    for (const Date day : days_of(year, month)) days.push_back(day);
  }
  return days;
}

double mean_of(const Weather& weather, int year, unsigned month) {
  double sum = 0.0;
  for (const Date day : days_of(year, month)) sum += weather.on(day).celsius();
  return sum / static_cast<double>(days_of(year, month).size());
}

std::pair<double, double> coldest_and_warmest(const Weather& weather, int year) {
  double coldest = 1000.0;
  double warmest = -1000.0;
  for (const Date day : days_of(year)) {
    coldest = std::min(coldest, weather.on(day).celsius());
    warmest = std::max(warmest, weather.on(day).celsius());
  }
  return {coldest, warmest};
}

/// The largest step from one day's mean to the next, over New Year too.
double largest_step(const Weather& weather, int year) {
  double before = weather.on(date(year - 1, 12, 31)).celsius();
  double largest = 0.0;
  for (const Date day : days_of(year)) {
    largest = std::max(largest, std::abs(weather.on(day).celsius() - before));
    before = weather.on(day).celsius();
  }
  return largest;
}

MonthlyMeans in_celsius(const std::vector<double>& degrees) {
  MonthlyMeans means;
  for (const double value : degrees) means.push_back(TemperaturePoint::from_celsius(value));
  return means;
}

MonthlyMeans in_fahrenheit(const std::vector<double>& degrees) {
  MonthlyMeans means;
  for (const double value : degrees) means.push_back(TemperaturePoint::from_fahrenheit(value));
  return means;
}

// Invented, in the manner of a station inland.
const std::vector<double> jagged{26, 28, 37, 49, 60, 69, 74, 72, 65, 53, 43, 31};

/// The n-th of a fixed sequence of years: a wave of a year, a smaller one of half a year, and what chance adds to each month.
MonthlyMeans any_year(unsigned n) {
  std::mt19937 random(n);
  const auto within = [&](double low, double high) { return low + (high - low) * (static_cast<double>(random()) / 4294967296.0); };
  const double mean = within(-5.0, 25.0);
  const double swing = within(0.0, 20.0);
  const double half = within(0.0, 3.0);
  const double phase = within(0.0, 2.0 * pi);
  std::vector<double> degrees;
  for (int month = 0; month < 12; ++month) {
    const double angle = 2.0 * pi * month / 12.0;
    degrees.push_back(mean - swing * std::cos(angle - phase) + half * std::sin(2.0 * angle) + within(-1.0, 1.0));
  }
  return in_celsius(degrees);
}

void check_keeps(const MonthlyMeans& means, int year) {
  const Weather weather = Weather::of_months(means);
  for (unsigned month = 1; month <= 12; ++month) {
    CAPTURE(year, month);
    CHECK_THAT(mean_of(weather, year, month), WithinAbs(means[month - 1].celsius(), rounding));
  }
}

}  // namespace

TEST_CASE("the mean of each month is the month's mean, in common and leap years", "[weather]") {
  const int year = GENERATE(a_common_year, a_leap_year, 1900, 2000);
  check_keeps(in_fahrenheit(jagged), year);
  check_keeps(in_celsius(std::vector<double>(12, 11.0)), year);
  check_keeps(in_celsius({50, -60, 50, -60, 50, -60, 50, -60, 50, -60, 50, -60}), year);
  check_keeps(in_celsius({0, 0, 0, 0, 30, 0, 0, 0, 0, 0, 0, 0}), year);
}

TEST_CASE("the mean of each month is the month's mean, of any year", "[weather]") {
  const MonthlyMeans means = any_year(GENERATE(range(0U, 100U)));
  check_keeps(means, a_common_year);
  check_keeps(means, a_leap_year);
  const auto [least, most] = std::minmax_element(means.begin(), means.end());
  const auto [coldest, warmest] = coldest_and_warmest(Weather::of_months(means), a_common_year);
  CHECK(coldest > least->celsius() - 2.0);
  CHECK(warmest < most->celsius() + 2.0);
}

TEST_CASE("the same weather all year is the same each day", "[weather]") {
  const Weather weather = Weather::of_months(in_celsius(std::vector<double>(12, 11.0)));
  for (const int year : {a_common_year, a_leap_year}) {
    for (const Date day : days_of(year)) CHECK_THAT(weather.on(day).celsius(), WithinAbs(11.0, rounding));
  }
}

TEST_CASE("a cosine comes back from its monthly means", "[weather]") {
  // Means of the true days of a year that is coldest on 20 January. A harmonic of one wave is one of the curve's own, so that it comes
  // back but for rounding in the year it was averaged over, and in a leap year as nearly as its days and those of the other lie alike.
  const auto cosine = [](double day, double length) { return 10.0 - 14.0 * std::cos(2.0 * pi * (day + 0.5 - 19.5) / length); };
  std::vector<double> means;
  double day = 0.0;
  for (unsigned month = 1; month <= 12; ++month) {
    double sum = 0.0;
    for (std::size_t i = 0; i < days_of(a_common_year, month).size(); ++i) sum += cosine(day++, 365.0);
    means.push_back(sum / static_cast<double>(days_of(a_common_year, month).size()));
  }
  const Weather weather = Weather::of_months(in_celsius(means));
  day = 0.0;
  for (const Date each : days_of(a_common_year)) CHECK_THAT(weather.on(each).celsius(), WithinAbs(cosine(day++, 365.0), 1e-10));
  for (const Date each : days_of(a_common_year)) {
    const Date leap = date(a_leap_year, static_cast<unsigned>(each.month()), static_cast<unsigned>(each.day()));
    CHECK_THAT(weather.on(leap).celsius(), WithinAbs(weather.on(each).celsius(), 0.25));  // a day of the steepest spring
  }
}

TEST_CASE("a real-looking year is not overshot, and is smooth over New Year", "[weather]") {
  const Weather weather = Weather::of_months(in_fahrenheit(jagged));
  for (const int year : {a_common_year, a_leap_year, a_leap_year + 1}) {
    const auto [coldest, warmest] = coldest_and_warmest(weather, year);
    CHECK(coldest > (26.0 - 32.0) / 1.8 - 1.0);
    CHECK(warmest < (74.0 - 32.0) / 1.8 + 1.0);
    // The steepest two months, 43 to 31 degF, lie 0.22 K a day apart.
    CHECK(largest_step(weather, year) < 0.35);
  }
}

TEST_CASE("two months make a smooth year", "[weather]") {
  ClimateDescription climate;
  climate.coldest_month = TemperaturePoint::from_fahrenheit(30.0);
  climate.warmest_month = TemperaturePoint::from_fahrenheit(76.0);
  const Weather weather = weather_of(climate);
  CHECK_THAT(mean_of(weather, a_common_year, 1), WithinAbs((30.0 - 32.0) / 1.8, rounding));
  CHECK_THAT(mean_of(weather, a_common_year, 7), WithinAbs((76.0 - 32.0) / 1.8, rounding));
  // Coldest in the middle of January, warmest in the middle of July, one way between.
  for (unsigned month = 2; month <= 6; ++month) {
    for (unsigned day = 1; day <= 27; ++day) CHECK(weather.on(date(2025, month, day)) < weather.on(date(2025, month, day + 1)));
  }
  for (unsigned month = 8; month <= 12; ++month) {
    for (unsigned day = 1; day <= 29; ++day) CHECK(weather.on(date(2025, month, day)) > weather.on(date(2025, month, day + 1)));
  }
}

TEST_CASE("a year of two months is coldest on 20 January", "[weather]") {
  ClimateDescription climate;
  climate.coldest_month = TemperaturePoint::from_celsius(-1.0);
  climate.warmest_month = TemperaturePoint::from_celsius(24.0);
  const Weather weather = weather_of(climate);
  double mean = 0.0;
  for (const Date each : days_of(a_common_year)) mean += weather.on(each).celsius() / 365.0;
  // T(t) = Tm − A cos(2π (t − 20)/365), 1.5 at noon on 1 January (climate.hpp), is Tm + A at noon on 21 July. It is one of the curve's own
  // harmonics, so that it comes back from its months but for rounding.
  const double swing = weather.on(date(a_common_year, 7, 21)).celsius() - mean;
  CHECK(swing > 12.5);  // half of what the months lie apart, and what their summits stand above their means
  CHECK(swing < 13.0);
  double noon = 1.5;
  for (const Date each : days_of(a_common_year)) {
    CHECK_THAT(weather.on(each).celsius(), WithinAbs(mean - swing * std::cos(2.0 * pi * (noon - 20.0) / 365.0), 1e-9));
    noon += 1.0;
  }
}

namespace {

Length mm(double number) { return number / 1000.0 * unit::m; }

MonthlyRain even_rain(double mm_a_year) { return MonthlyRain(12, mm(mm_a_year / 12.0)); }

const std::string two_months = "coldest_month = \"30 degF\"\nwarmest_month = \"76 degF\"\n";

std::vector<Problem> problems_of_climate(const std::string& keys) {
  try {
    climate_of(keys);
    return {};
  } catch (const InputError& error) {
    return error.problems();
  }
}

}  // namespace

TEST_CASE("rain of a month, or of twelve", "[weather]") {
  const ClimateDescription even = climate_of(two_months + "rain = \"3 in\"\n");
  REQUIRE(even.rain.size() == 12);
  for (const Length& month : even.rain) CHECK_THAT(month.value(), WithinAbs(0.0762, 1e-12));
  CHECK(monthly_rain(even) == even.rain);

  const ClimateDescription twelve = climate_of(two_months +
                                               "rain = [\"1 in\", \"20 mm\", \"0 in\", \"4 cm\", \"5 mm\", \"6 mm\", \"7 mm\", \"8 mm\", "
                                               "\"9 mm\", \"10 mm\", \"11 mm\", \"2 m\"]\n");
  REQUIRE(twelve.rain.size() == 12);
  CHECK_THAT(twelve.rain[0].value(), WithinAbs(0.0254, 1e-12));
  CHECK_THAT(twelve.rain[1].value(), WithinAbs(0.020, 1e-12));
  CHECK(twelve.rain[2].value() == 0.0);
  CHECK_THAT(twelve.rain[11].value(), WithinAbs(2.0, 1e-12));

  CHECK(climate_of(two_months).rain.empty());
  CHECK(monthly_rain(climate_of(two_months)).empty());
  CHECK(climate_of("like = \"cool\"\nrain = \"2 in\"\n").rain.size() == 12);  // above what the named winter has
  CHECK_THAT(climate_of("like = \"cool\"\nrain = \"2 in\"\n").rain[5].value(), WithinAbs(0.0508, 1e-12));
}

TEST_CASE("what is wrong with rain stands at its place", "[weather]") {
  const auto list_of = [](int months, const std::string& last) {
    std::string list = "[";
    for (int month = 1; month < months; ++month) list += "\"3 in\", ";
    return list + last + "]";
  };
  const auto [value, what, hint] = GENERATE_COPY(table<std::string, std::string, std::string>({
      {list_of(11, "\"3 in\""), "has 11 months", "twelve"},
      {list_of(13, "\"3 in\""), "has 13 months", "twelve"},
      {"\"-3 in\"", "\"-3 in\"", "zero or more"},
      {"\"300 in\"", "\"300 in\" is no month's rain", "0 to 2 m"},
      {"\"3\"", "\"3\"", "unit"},
      {"\"3 lb\"", "\"3 lb\"", ""},
      {"\"wet\"", "\"wet\"", ""},
  }));
  CAPTURE(value);
  const std::vector<Problem> problems = problems_of_climate(two_months + "rain = " + value + "\n");
  for (const Problem& problem : problems) UNSCOPED_INFO(describe(problem));
  REQUIRE(problems.size() == 1);
  CHECK(problems.front().where.line == 4);
  CHECK_THAT(problems.front().what, Contains(what));
  CHECK_THAT(problems.front().hint, Contains(hint));
}

TEST_CASE("one month of twelve that is no rain is told", "[weather]") {
  std::string list = "[\"-1 in\"";
  for (int month = 1; month < 12; ++month) list += ", \"3 in\"";
  const std::vector<Problem> problems = problems_of_climate(two_months + "rain = " + list + "]\n");
  REQUIRE(problems.size() == 1);
  CHECK_THAT(problems.front().what, Contains("-1 in"));
}

TEST_CASE("a day of the weather", "[weather]") {
  const MonthlyMeans means = in_fahrenheit(jagged);
  SECTION("rain is even through each month, in common and leap years") {
    MonthlyRain rain;
    for (int month = 1; month <= 12; ++month) rain.push_back(mm(10.0 * month));
    const Weather weather = Weather::of_months(means, rain);
    for (const int year : {a_common_year, a_leap_year}) {
      for (unsigned month = 1; month <= 12; ++month) {
        double sum = 0.0;
        for (const Date each : days_of(year, month)) {
          const DayOfWeather day = weather.day(each);
          CHECK(day.air == weather.on(each));
          CHECK(day.rain == weather.day(date(year, month, 1)).rain);
          sum += day.rain.value();
        }
        CHECK_THAT(sum, WithinAbs(rain[month - 1].value(), 1e-12));
      }
    }
  }
  SECTION("where nobody tells it is 2.5 mm a day") {
    const DayOfWeather day = Weather::of_months(means).day(date(2025, 7, 4));
    CHECK_THAT(day.rain.value(), WithinAbs(0.0025, 1e-15));
    CHECK(day.humidity == 0.65);
  }
  SECTION("the air of a year of less than 300 mm is dry") {  // section 6a of the model
    CHECK(Weather::of_months(means, even_rain(299.0)).day(date(2025, 7, 4)).humidity == 0.40);
    CHECK(Weather::of_months(means, even_rain(301.0)).day(date(2025, 7, 4)).humidity == 0.65);
    CHECK(Weather::of_months(means, even_rain(0.0)).day(date(2025, 1, 4)).humidity == 0.40);
  }
  SECTION("day by day") {
    const Weather weather = Weather::of_months(means, even_rain(1200.0));
    const DailyWeather days = days_from(weather, date(2023, 12, 30), 64);
    REQUIRE(days.size() == 64);
    CHECK(days[0].air == weather.on(date(2023, 12, 30)));
    CHECK(days[2].air == weather.on(date(2024, 1, 1)));
    CHECK(days[61].air == weather.on(date(2024, 2, 29)));
    CHECK(days[63].rain == weather.day(date(2024, 3, 2)).rain);
  }
  SECTION("no day but those of the calendar, and no rain but of twelve months") {
    CHECK_THROWS_AS(Weather::of_months(means).day(date(2025, 2, 29)), DomainError);
    CHECK_THROWS_AS(Weather::of_months(means, MonthlyRain(11, mm(50.0))), DomainError);
  }
}

TEST_CASE("the year's mean and swing are its two months", "[weather]") {
  const ClimateDescription climate = climate_of("annual_mean = \"53 degF\"\nswing = \"46 degF\"\n");
  CHECK_THAT(climate.coldest_month->fahrenheit(), WithinAbs(30.0, rounding));
  CHECK_THAT(climate.warmest_month->fahrenheit(), WithinAbs(76.0, rounding));
  CHECK(assumption_of(climate)->evidence == "your year's mean and swing");
  const ClimateDescription months = climate_of("coldest_month = \"30 degF\"\nwarmest_month = \"76 degF\"\n");
  const Weather ours = weather_of(climate);
  const Weather theirs = weather_of(months);
  for (const Date day : days_of(a_common_year)) CHECK_THAT(ours.on(day).celsius(), WithinAbs(theirs.on(day).celsius(), rounding));

  const ClimateDescription even = climate_of("annual_mean = \"20 degC\"\nswing = \"0 degC\"\n");
  CHECK_THAT(weather_of(even).on(date(2025, 7, 1)).celsius(), WithinAbs(20.0, rounding));
}

namespace {

/// The temperatures of the invented files: the number of the day in its month, and a tenth of a degree for each year after 2000.
double degrees_on(Date day) { return static_cast<double>(static_cast<unsigned>(day.day())) + 0.1 * (static_cast<int>(day.year()) - 2000); }

std::string row_of(Date day) { return print_date(day) + "," + print_number(degrees_on(day), 6) + "\n"; }

/// The rows of all days from one to another, but for some.
std::string rows(
    Date first, Date last, const std::function<bool(Date)>& leave_out = [](Date) { return false; }) {
  std::string text;
  for (chrono::sys_days day = first; day <= chrono::sys_days(last); day += chrono::days(1)) {
    if (!leave_out(day)) text += row_of(day);
  }
  return text;
}

bool is_leap_day(Date day) { return day.month() == chrono::February && day.day() == chrono::day(29); }

const std::string names = "date,air degC\n";

DailyMeans days_in(const std::string& text) {
  Problems problems;
  Csv csv(text, "daily.csv", problems);
  DailyMeans days = read_daily_means(csv);
  problems.throw_if_any();
  return days;
}

std::vector<Problem> problems_in(const std::string& text) {
  try {
    days_in(text);
    return {};
  } catch (const InputError& error) {
    return error.problems();
  }
}

/// A folder of the test's own, gone with it.
class Folder {
 public:
  Folder() : path_(std::filesystem::temp_directory_path() / ("heapwright-weather-test-" + std::to_string(getpid()))) {
    std::filesystem::create_directories(path_);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { std::filesystem::remove_all(path_); }
  std::string write(const std::string& name, const std::string& content) const {
    std::filesystem::create_directories((path_ / name).parent_path());
    std::ofstream(path_ / name, std::ios::binary) << content;
    return (path_ / name).string();
  }

 private:
  std::filesystem::path path_;
};

}  // namespace

TEST_CASE("days of a file are as they stand there, others the mean of their day", "[weather]") {
  const Weather weather = Weather::of_days(days_in(names + rows(date(2023, 3, 1), date(2025, 4, 15))));
  CHECK_THAT(weather.on(date(2023, 3, 1)).celsius(), WithinAbs(3.3, rounding));
  CHECK_THAT(weather.on(date(2025, 4, 15)).celsius(), WithinAbs(17.5, rounding));
  CHECK_THAT(weather.on(date(2024, 2, 29)).celsius(), WithinAbs(31.4, rounding));
  CHECK_THAT(weather.on(date(2026, 4, 15)).celsius(), WithinAbs(15.0 + (2.3 + 2.4 + 2.5) / 3.0, rounding));
  CHECK_THAT(weather.on(date(2026, 4, 16)).celsius(), WithinAbs(16.0 + (2.3 + 2.4) / 2.0, rounding));
  CHECK_THAT(weather.on(date(2023, 2, 28)).celsius(), WithinAbs(28.0 + (2.4 + 2.5) / 2.0, rounding));
  CHECK_THAT(weather.on(date(2028, 2, 29)).celsius(), WithinAbs(31.4, rounding));
  CHECK_THAT(weather.on(date(2028, 12, 31)).celsius(), WithinAbs(31.0 + (2.3 + 2.4) / 2.0, rounding));
}

TEST_CASE("a year is enough, from any day, with or without 29 February", "[weather]") {
  const auto [first, last] = GENERATE(table<Date, Date>({
      {date(2023, 1, 1), date(2023, 12, 31)},
      {date(2024, 1, 1), date(2024, 12, 31)},
      {date(2023, 3, 1), date(2024, 2, 28)},
      {date(2023, 3, 1), date(2024, 2, 29)},
      {date(2024, 2, 29), date(2025, 2, 28)},
      {date(2023, 7, 4), date(2024, 7, 3)},
  }));
  CAPTURE(print_date(first), print_date(last));
  for (const bool leap_day_left_out : {false, true}) {
    const auto leave_out = [&](Date day) { return leap_day_left_out && is_leap_day(day) && day != first; };
    const DailyMeans days = days_in(names + rows(first, last, leave_out));
    const Weather weather = Weather::of_days(days);
    for (const DailyMean& each : days) CHECK(weather.on(each.day) == each.mean);
    const bool has_leap_day = std::any_of(days.begin(), days.end(), [](const DailyMean& each) { return is_leap_day(each.day); });
    if (!has_leap_day) CHECK(weather.on(date(2032, 2, 29)) == weather.on(date(2032, 2, 28)));
    const Date day_before = chrono::sys_days(last) - chrono::days(1);
    CHECK(problems_in(names + rows(first, day_before, is_leap_day)).empty() == is_leap_day(last));
  }
}

TEST_CASE("a station's file as it comes", "[weather]") {
  const auto [what, header] = GENERATE(table<std::string, std::string>({
      {"degF", "date,air degF"},
      {"°F", "\xEF\xBB\xBF\"Date\",air °F"},
      {"in words", "date,mean air degrees Fahrenheit"},
      {"in brackets", "date,TAVG (F)"},
      {"the unit alone", "date,degF"},
      {"underlined", "DATE,air_temp_degF"},
      {"comments", "# a station in the valley\n\ndate , air degF "},
  }));
  CAPTURE(what);
  std::string text = header + "\r\n";
  for (const Date day : days_of(a_common_year)) text += print_date(day) + ", \"50\"\r\n";
  const Weather weather = weather_of([&] {
    ClimateDescription climate;
    climate.days = days_in(text);
    return climate;
  }());
  CHECK_THAT(weather.on(date(2030, 5, 1)).celsius(), WithinAbs(10.0, rounding));
}

TEST_CASE("other columns are passed over", "[weather]") {
  std::string text = "station,date,snow,air degC,note\n";
  for (const Date day : days_of(a_common_year))
    text += "valley," + print_date(day) + ",trace," + print_number(degrees_on(day), 6) + ",\"hot, dry\"\n";
  CHECK(days_in(text).size() == 365);
  CHECK_THAT(days_in(text)[3].mean.celsius(), WithinAbs(6.5, rounding));
}

namespace {

/// Rows with a column of rain: as many of its unit a day as the number of the month.
std::string rows_with_rain(const std::string& header, const std::string& third = {}) {
  std::string text = header + "\n";
  for (const Date day : days_of(2023)) {
    const std::string rain = third.empty() ? std::to_string(static_cast<unsigned>(day.month())) : third;
    text += print_date(day) + "," + print_number(degrees_on(day), 6) + "," + rain + "\n";
  }
  return text;
}

}  // namespace

TEST_CASE("rain of a file of days", "[weather]") {
  const auto [header, millimetres] = GENERATE(table<std::string, double>({{"date,air degC,rain mm", 1.0},
                                                                          {"date,air degC,rain in", 25.4},
                                                                          {"date,air degC,Rain (mm)", 1.0},
                                                                          {"date,air degC,rainfall_in", 25.4},
                                                                          {"date,air degC,precip [cm]", 10.0},
                                                                          {"DATE,TAVG (C),Precipitation inches", 25.4}}));
  CAPTURE(header);
  ClimateDescription climate;
  climate.days = days_in(rows_with_rain(header));
  REQUIRE(climate.days.size() == 365);
  const MonthlyRain rain = monthly_rain(climate);
  REQUIRE(rain.size() == 12);
  for (unsigned month = 1; month <= 12; ++month) {
    const auto days = static_cast<double>(days_of(2023, month).size());
    CHECK_THAT(1000.0 * rain[month - 1].value(), WithinAbs(millimetres * days * month, 1e-9));
  }
  const Weather weather = weather_of(climate);
  CHECK_THAT(1000.0 * weather.day(date(2031, 5, 7)).rain.value(), WithinAbs(5.0 * millimetres, 1e-9));
  CHECK(weather.day(date(2031, 5, 7)).humidity == 0.65);

  SECTION("what is told beside it stands above it") {
    climate.rain = even_rain(240.0);
    CHECK(monthly_rain(climate) == climate.rain);
    CHECK_THAT(1000.0 * weather_of(climate).day(date(2031, 6, 7)).rain.value(), WithinAbs(20.0 / 30.0, 1e-9));
    CHECK(weather_of(climate).day(date(2031, 6, 7)).humidity == 0.40);
  }
}

TEST_CASE("a file of days without rain has none", "[weather]") {
  ClimateDescription climate;
  climate.days = days_in(names + rows(date(2023, 1, 1), date(2023, 12, 31)));
  CHECK(monthly_rain(climate).empty());
  CHECK_THAT(weather_of(climate).day(date(2031, 5, 7)).rain.value(), WithinAbs(0.0025, 1e-15));
}

TEST_CASE("what is wrong with the rain of a file of days", "[weather]") {
  const auto [text, at, what, hint] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {rows_with_rain("date,air degC,rain"), "1:15", "does not say its unit", "rain mm"},
      {rows_with_rain("date,air degC,rain lb"), "1:15", "does not say its unit", "rain in"},
      {rows_with_rain("date,air degC,rain mm,precip in", "1,0.04"), "1:23", "second column of rain, beside \"rain mm\"", "leave one"},
  }));
  CAPTURE(text.substr(0, 60));
  const std::vector<Problem> problems = problems_in(text);
  for (const Problem& problem : problems) UNSCOPED_INFO(describe(problem));
  REQUIRE(problems.size() == 1);
  CHECK(std::to_string(problems.front().where.line) + ":" + std::to_string(problems.front().where.column) == at);
  CHECK_THAT(problems.front().what, Contains(what));
  CHECK_THAT(problems.front().hint, Contains(hint));
}

TEST_CASE("a day's rain that is none stands at its place", "[weather]") {
  const std::string rain = GENERATE(as<std::string>(), "-1", "trace", "", "3000", "nan", "-", "inf");
  CAPTURE(rain);
  std::string text = rows_with_rain("date,air degC,rain mm");
  const std::string row = "2023-03-05,7.3,3";
  text.replace(text.find(row), row.size(), "2023-03-05,7.3," + rain);
  const std::vector<Problem> problems = problems_in(text);
  for (const Problem& problem : problems) UNSCOPED_INFO(describe(problem));
  REQUIRE(problems.size() == 1);
  CHECK(problems.front().where.line == 65);
}

TEST_CASE("what is wrong with a file of days stands at its place", "[weather]") {
  const std::string year = rows(date(2023, 1, 1), date(2023, 12, 31));
  const auto with = [&](const std::string& row, const std::string& instead) {
    std::string text = names + year;
    return text.replace(text.find(row), row.size(), instead);
  };
  const auto [text, at, what, hint] = GENERATE_COPY(table<std::string, std::string, std::string, std::string>({
      {"", "0:0", "the file has no rows", "names"},
      {names, "0:0", "no days below", "every day of a year"},
      {year, "1:1", "no names above the rows", "date,air degF"},
      {"day,air degC\n" + year, "1:1", "no column is named \"date\"", "date,air degF"},
      {"date,date,air degC\n", "1:6", "second column of that name", "leave one"},
      {"date,air\n" + year, "1:6", "does not say its unit", "air degF"},
      {"date,air K\n" + year, "1:6", "does not say its unit", "air degC"},
      {"date,rain\n" + year, "1:1", "no column has temperatures", "date,air degF"},
      {"date,high degF,low degF\n", "1:16", "second column of temperatures, beside \"high degF\"", "mean"},
      {"date\tair degC\n2023-01-01\t3.5\n", "1:1", "parted by tabs", "parted by commas"},
      {with("2023-01-05,7.3", "2023-01-05,7.3x"), "6:12", "\"7.3x\" is not a number alone", "decimal point"},
      {with("2023-01-05,7.3", "2023-01-05,\"7,3\""), "6:12", "comma", "decimal point"},
      {with("2023-01-05,7.3", "2023-01-05,"), "6:12", "\"\" is no reading, and every day wants one", "number"},
      {with("2023-01-05,7.3", "2023-01-05,n/a"), "6:12", "\"n/a\" is no reading", "number"},
      {with("2023-01-05,7.3", "2023-01-05,inf"), "6:12", "\"inf\" is infinite", "leave it empty"},
      {with("2023-01-05,7.3", "2023-01-05,nan"), "6:12", "\"nan\" is no reading, and every day wants one", "number"},
      {with("2023-01-05,7.3", "2023-01-05,-9999"), "6:12", "\"-9999\" is no day's mean", "-60 to 60 degC"},
      {with("2023-01-05,7.3", "2023-01-05,60.1"), "6:12", "\"60.1\" is no day's mean", "140 degF"},
      {with("2023-01-05,", "2023-1-5,"), "6:1", "\"2023-1-5\" is no date", "2026-11-07"},
      {with("2023-02-28,", "2023-02-30,"), "60:1", "\"2023-02-30\" is no day of the calendar", "2026-11-07"},
      {with("2023-01-05,", "2023-01-04,"), "6:1", "2023-01-04 stands twice", "once"},
      {with("2023-01-05,", "2022-01-05,"), "6:1", "2022-01-05 stands after 2023-01-04", "order"},
      {with("2023-01-05,7.3\n", ""), "6:1", "2023-01-05 is missing before this", "every day"},
      {with("2023-01-05,7.3", "2023-01-05"), "6:1", "1 field where the header has 2", "each column"},
      {with("2023-02-28,30.3\n2023-03-01,3.3\n", ""), "60:1", "2023-02-28 is missing before this", "every day"},
      {names + rows(date(2024, 1, 1), date(2025, 1, 1), [](Date day) { return is_leap_day(day) || day == date(2024, 3, 1); }), "61:1",
       "2024-03-01 is missing before this", "every day"},
      {with("2023-12-31,33.3\n", ""), "0:0", "2023-01-01 to 2023-12-30 are less than a year", "every day of a year"},
  }));
  CAPTURE(text.substr(0, 200), what);
  const std::vector<Problem> problems = problems_in(text);
  for (const Problem& problem : problems) UNSCOPED_INFO(describe(problem));
  REQUIRE(problems.size() == 1);
  const Problem& problem = problems.front();
  CHECK(problem.where.file == "daily.csv");
  CHECK(std::to_string(problem.where.line) + ":" + std::to_string(problem.where.column) == at);
  CHECK_THAT(problem.what, Contains(what));
  CHECK_THAT(problem.hint, Contains(hint));
}

TEST_CASE("days of a spreadsheet with decimal commas", "[weather]") {
  std::string text = names + rows(date(2023, 1, 1), date(2023, 12, 31));
  std::replace(text.begin(), text.end(), ',', ';');
  std::replace(text.begin(), text.end(), '.', ',');
  const DailyMeans days = days_in(text);
  const DailyMeans same = days_in(names + rows(date(2023, 1, 1), date(2023, 12, 31)));
  REQUIRE(days.size() == same.size());
  CHECK(std::equal(days.begin(), days.end(), same.begin(),
                   [](const DailyMean& one, const DailyMean& other) { return one.mean == other.mean; }));
}

TEST_CASE("a hundred years of days are read, more are not", "[weather]") {
  CHECK(days_in(names + rows(date(1901, 1, 1), date(2000, 12, 31))).size() == 36525);
  const std::vector<Problem> problems = problems_in(names + rows(date(1901, 1, 1), date(2001, 1, 1)));
  REQUIRE(problems.size() == 1);
  CHECK_THAT(problems.front().what, Contains("more than a hundred years"));
}

TEST_CASE("all that is wrong with a file of days is told at once", "[weather]") {
  std::string text = names + rows(date(2023, 1, 1), date(2023, 12, 31), [](Date day) { return day == date(2023, 9, 1); });
  text.replace(text.find("2023-03-05,7.3"), 14, "2023-03-05,cold");
  text.replace(text.find("2023-04-05,7.3"), 14, "2023-04-05,-99 ");
  std::vector<std::string> places;
  for (const Problem& problem : problems_in(text))
    places.push_back(std::to_string(problem.where.line) + ":" + std::to_string(problem.where.column));
  CHECK(places == std::vector<std::string>{"65:12", "96:12", "245:1"});
}

TEST_CASE("a file of days is found from the folder of its yard", "[weather]") {
  const Folder folder;
  folder.write("weather/daily.csv", names + rows(date(2023, 1, 1), date(2023, 12, 31)));
  const std::string yard = folder.write("yard.toml", "[climate]\nfile = \"weather/daily.csv\"\n");
  const ClimateDescription climate = *read_yard(yard, built_in_tables()).climate;
  CHECK(climate.file == "weather/daily.csv");
  CHECK(climate.days.size() == 365);
  CHECK_FALSE(monthly_means(climate));
  CHECK_FALSE(assumption_of(climate));
  CHECK_THAT(weather_of(climate).on(date(2023, 7, 4)).celsius(), WithinAbs(6.3, rounding));

  // A yard that is a text has no folder: the path is as it stands.
  CHECK_THROWS_WITH(read_yard_text("[climate]\nfile = \"weather/daily.csv\"\n", yard, built_in_tables()),
                    Contains("weather/daily.csv: there is no such file"));
  const std::string whole = folder.write("other.csv", names + rows(date(2023, 1, 1), date(2023, 12, 31)));
  CHECK(read_yard_text("[climate]\nfile = \"" + whole + "\"\n", "yard.toml", built_in_tables()).climate->days.size() == 365);

  const std::string faulty = folder.write("faulty.toml", "titel = \"x\"\n[climate]\nfile = \"faulty.csv\"\n");
  folder.write("faulty.csv", names + rows(date(2023, 1, 1), date(2023, 12, 31)) + "2024-01-01,hot\n");
  CHECK_THROWS_WITH(read_yard(faulty, built_in_tables()),
                    Contains("faulty.csv:367:12: air degC: \"hot\" is not a number") && Contains("faulty.toml:1:9: titel"));
}

TEST_CASE("days that make no weather", "[weather]") {
  DailyMeans days = days_in(names + rows(date(2023, 1, 1), date(2023, 12, 31)));
  CHECK_THROWS_AS(Weather::of_days({}), DomainError);
  SECTION("a day is missing") { days.erase(days.begin() + 100); }
  SECTION("not a number") { days[100].mean = TemperaturePoint::from_celsius(std::nan("")); }
  SECTION("no such day") { days[100].day = date(2023, 2, 30); }
  CHECK_THROWS_AS(Weather::of_days(days), DomainError);
}

TEST_CASE("weather that cannot be made", "[weather]") {
  CHECK_THROWS_AS(Weather::of_months({}), DomainError);
  CHECK_THROWS_AS(Weather::of_months(in_celsius(std::vector<double>(11, 3.0))), DomainError);
  std::vector<double> hole(12, 3.0);
  hole[4] = std::nan("");
  CHECK_THROWS_AS(Weather::of_months(in_celsius(hole)), DomainError);
  CHECK_THROWS_AS(Weather::of_months(in_celsius(std::vector<double>(12, 60.0))), DomainError);
  CHECK_THROWS_AS(weather_of({}), DomainError);
  CHECK_THROWS_AS(Weather::of_months(in_fahrenheit(jagged)).on(date(2025, 2, 29)), DomainError);
}
