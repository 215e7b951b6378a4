// Days from months: the months' means are kept, and nothing is added to the year that was not in it.

#include "heapwright/process/weather.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

#include "heapwright/input/problems.hpp"
#include "heapwright/units/text.hpp"

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
  std::optional<ClimateDescription> climate = read_climate(root);
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
