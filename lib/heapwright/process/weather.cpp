#include "heapwright/process/weather.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "heapwright/error.hpp"
#include "heapwright/process/rain.hpp"

// Days from months
//
// A curve drawn through the months' means at their middles is too flat: the mean of a month that holds a summit is below the summit.
// The curve here is a sum of harmonics of the year, a constant, cosines and sines of one to five waves and a sine of six:
// twelve terms for twelve means. Over a month of a twelfth of the year the mean of a harmonic of k waves is its value at the middle of
// the month times sin(πk/12)/(πk/12), so each harmonic of the twelve means, divided by that, is the harmonic of the curve. (Of six waves
// the cosine's mean is nothing in every month, so that only the sine can be known.)
//
// Months are not quite twelfths of a year. What the means of the curve lack of the months' means goes through the same again, and is
// added, until nothing is lacking; each round leaves a tenth or less, whatever the means are.
//
// The manner is that of E. S. Epstein, "On obtaining daily climatological values from monthly means", Journal of Climate 4 (1991), of whose
// harmonics we know from memory only; the feeding back and its check (the months' means, in the tests) are our own.

namespace heapwright {
namespace {

using std::numbers::pi;

constexpr std::size_t months = 12;
using ByMonth = std::array<double, months>;
using Days = std::vector<double>;  ///< of a year

constexpr std::array<std::size_t, months> common_months{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
constexpr std::array<std::size_t, months> leap_months{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/// How much of a harmonic of so many waves is left in its means over twelfths of the year.
double left_in_means(int waves) {
  const double half_a_month = pi * waves / months;
  return std::sin(half_a_month) / half_a_month;
}

double middle_of(std::size_t month) { return 2.0 * pi * (static_cast<double>(month) + 0.5) / months; }

/// One of the harmonics, at angles from 1 January.
struct Harmonic {
  int waves;
  double cosine;
  double sine;
  double at(double angle) const { return cosine * std::cos(waves * angle) + sine * std::sin(waves * angle); }
};

/// The harmonics whose means over twelfths of a year are these.
std::vector<Harmonic> harmonics_of(const ByMonth& means) {
  std::vector<Harmonic> harmonics{{0, std::accumulate(means.begin(), means.end(), 0.0) / months, 0.0}};
  for (int waves = 1; waves <= 6; ++waves) {
    Harmonic harmonic{waves, 0.0, 0.0};
    // Of twelve values the wave of two months takes one term, each of the others two.
    const double share = (waves == 6 ? 1.0 : 2.0) / months / left_in_means(waves);
    for (std::size_t month = 0; month < months; ++month) {
      if (waves < 6) harmonic.cosine += share * means[month] * std::cos(waves * middle_of(month));
      harmonic.sine += share * means[month] * std::sin(waves * middle_of(month));
    }
    harmonics.push_back(harmonic);
  }
  return harmonics;
}

Days middays(const std::vector<Harmonic>& harmonics, std::size_t length) {
  Days days(length, 0.0);
  for (std::size_t day = 0; day < length; ++day) {
    const double angle = 2.0 * pi * (static_cast<double>(day) + 0.5) / static_cast<double>(length);
    for (const Harmonic& harmonic : harmonics) days[day] += harmonic.at(angle);
  }
  return days;
}

ByMonth means_of(const Days& days, const std::array<std::size_t, months>& lengths) {
  ByMonth means{};
  auto begin = days.begin();
  for (std::size_t month = 0; month < months; ++month) {
    const auto end = begin + static_cast<std::ptrdiff_t>(lengths[month]);
    means[month] = std::accumulate(begin, end, 0.0) / static_cast<double>(lengths[month]);
    begin = end;
  }
  return means;
}

Days days_from(const ByMonth& means, const std::array<std::size_t, months>& lengths) {
  constexpr int rounds = 20;  // a tenth or less is left after each: far below the rounding of a double
  Days days(std::accumulate(lengths.begin(), lengths.end(), std::size_t{0}), 0.0);
  for (int round = 0; round < rounds; ++round) {
    ByMonth lacking = means_of(days, lengths);
    for (std::size_t month = 0; month < months; ++month) lacking[month] = means[month] - lacking[month];
    const Days more = middays(harmonics_of(lacking), days.size());
    for (std::size_t day = 0; day < days.size(); ++day) days[day] += more[day];
  }
  return days;
}

std::vector<TemperaturePoint> points(const Days& celsius) {
  std::vector<TemperaturePoint> points;
  points.reserve(celsius.size());
  for (const double value : celsius) points.push_back(TemperaturePoint::from_celsius(value));
  return points;
}

ByMonth checked(const MonthlyMeans& means) {
  if (means.size() != months || !std::all_of(means.begin(), means.end(), is_a_monthly_mean))
    throw DomainError("a year of weather is made from twelve monthly means");
  ByMonth celsius{};
  std::transform(means.begin(), means.end(), celsius.begin(), [](TemperaturePoint mean) { return mean.celsius(); });
  return celsius;
}

/// Days since 1 January.
std::size_t day_of_year(Date day) {
  using std::chrono::sys_days;
  const Date new_year(day.year(), std::chrono::January, std::chrono::day(1));
  return static_cast<std::size_t>((sys_days(day) - sys_days(new_year)).count());
}

constexpr std::ptrdiff_t leap_day = 31 + 28;

/// The means of each day of a leap year's calendar over the years.
Days calendar_means(const DailyMeans& days) {
  Days sums(366, 0.0);
  std::vector<int> years(sums.size(), 0);
  for (const DailyMean& each : days) {
    const std::size_t day = day_of_year(Date(std::chrono::year(2000), each.day.month(), each.day.day()));
    sums[day] += each.mean.celsius();
    ++years[day];
  }
  if (years[leap_day] == 0) {
    sums[leap_day] = sums[leap_day - 1];
    years[leap_day] = years[leap_day - 1];
  }
  for (std::size_t day = 0; day < sums.size(); ++day) {
    if (years[day] == 0) throw DomainError("the days of the weather leave out a day of the year", "give every day of a year, or of more");
    sums[day] /= years[day];
  }
  return sums;
}

}  // namespace

Weather::Weather(Year common, Year leap, DailyMeans own, MonthlyRain rain)
    : common_(std::move(common)), leap_(std::move(leap)), own_(std::move(own)), rain_(std::move(rain)) {
  const Length dry_year = 0.3 * unit::m;
  if (!rain_.empty() && rain_.size() != months) throw DomainError("a year of rain is made from twelve months");
  humidity_ = !rain_.empty() && std::accumulate(rain_.begin(), rain_.end(), Length()) < dry_year ? dry_humidity : usual_humidity;
}

Weather Weather::of_months(const MonthlyMeans& means, MonthlyRain rain) {
  const ByMonth celsius = checked(means);
  return {points(days_from(celsius, common_months)), points(days_from(celsius, leap_months)), {}, std::move(rain)};
}

Weather Weather::of_days(DailyMeans days, MonthlyRain rain) {
  if (!std::all_of(days.begin(), days.end(), [](const DailyMean& each) { return each.day.ok() && is_a_daily_mean(each.mean); }))
    throw DomainError("a day of the weather is not in the calendar, or its temperature is none of air");
  std::stable_sort(days.begin(), days.end(), [](const DailyMean& a, const DailyMean& b) { return a.day < b.day; });
  Days leap = calendar_means(days);
  Days common = leap;
  common.erase(common.begin() + leap_day);
  return {points(common), points(leap), std::move(days), std::move(rain)};
}

TemperaturePoint Weather::on(Date day) const {
  if (!day.ok()) throw DomainError("there is no such day");
  const auto own = std::lower_bound(own_.begin(), own_.end(), day, [](const DailyMean& each, Date wanted) { return each.day < wanted; });
  if (own != own_.end() && own->day == day) return own->mean;
  return (day.year().is_leap() ? leap_ : common_)[day_of_year(day)];
}

DayOfWeather Weather::day(Date day) const {
  const TemperaturePoint air = on(day);
  if (rain_.empty()) return {air, usual_rain_a_day, humidity_};
  const std::size_t month = static_cast<unsigned>(day.month()) - 1;
  const auto& lengths = day.year().is_leap() ? leap_months : common_months;
  return {air, rain_[month] / static_cast<double>(lengths[month]), humidity_};
}

DailyWeather days_from(const Weather& weather, Date first, int count) {
  DailyWeather days;
  for (int day = 0; day < count; ++day) days.push_back(weather.day(Date(std::chrono::sys_days(first) + std::chrono::days(day))));
  return days;
}

Weather weather_of(const ClimateDescription& climate) {
  if (!climate.days.empty()) return Weather::of_days(climate.days, monthly_rain(climate));
  const std::optional<MonthlyMeans> means = monthly_means(climate);
  if (!means) throw DomainError("nothing is known of the weather", "give twelve means, or two months, or like, or a file of days");
  return Weather::of_months(*means, monthly_rain(climate));
}

}  // namespace heapwright
