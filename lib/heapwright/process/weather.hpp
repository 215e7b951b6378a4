#pragma once
/// The weather that a pile stands in, day by day.

#include <utility>
#include <vector>

#include "heapwright/process/air.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/process/daily_means.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// Air and rain of a day.
struct DayOfWeather {
  TemperaturePoint air;  ///< its mean
  Length rain{};
  double humidity = usual_humidity;  ///< 1, relative
};

/// The days from the one on which a pile is built.
using DailyWeather = std::vector<DayOfWeather>;

/// Mean air temperature and rain of each day of any year. Rain is even through each month; a year of less than 300 mm has dry air.
class Weather {
 public:
  /// A smooth curve through the year, taken at the middle of each day, whose mean over the days of each month is that month's mean, in
  /// years of 365 days and of 366. See weather.cpp for the curve.
  /// @throws DomainError unless there are twelve that can be monthly means
  /// @param rain of twelve months; usual_rain_a_day where there is none
  static Weather of_months(const MonthlyMeans& means, MonthlyRain rain = {});
  /// The days themselves where they are given; any other day is the mean of that day of the calendar over the years given. 29 February,
  /// where no year has it, is as 28 February.
  /// @throws DomainError unless they have every other day of the calendar, and each can be a day's mean
  static Weather of_days(DailyMeans days, MonthlyRain rain = {});

  /// Mean air of a day. @throws DomainError for a date that is not in the calendar
  TemperaturePoint on(Date day) const;
  /// All of a day's weather: air, its share of the month's rain, humidity. @throws DomainError likewise
  DayOfWeather day(Date day) const;

 private:
  /// Of each day from 1 January.
  using Year = std::vector<TemperaturePoint>;
  Weather(Year common, Year leap, DailyMeans own, MonthlyRain rain);

  Year common_;
  Year leap_;
  DailyMeans own_;  ///< in order
  MonthlyRain rain_;
  double humidity_;
};

/// @throws DomainError where the description says nothing of the weather
Weather weather_of(const ClimateDescription& climate);

/// So many days from one on.
DailyWeather days_from(const Weather& weather, Date first, int count);

}  // namespace heapwright
