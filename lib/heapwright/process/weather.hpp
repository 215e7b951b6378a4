#pragma once
/// The air that a heap stands in, day by day.

#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// Mean air temperature of each day of any year.
class Weather {
 public:
  /// A smooth curve through the year, taken at the middle of each day, whose mean over the days of each month is that month's mean, in
  /// years of 365 days and of 366. See weather.cpp for the curve.
  /// @throws DomainError unless there are twelve that can be monthly means
  static Weather of_months(const MonthlyMeans& means);

  /// @throws DomainError for a date that is not in the calendar
  TemperaturePoint on(Date day) const;

 private:
  /// Of each day from 1 January.
  using Year = std::vector<TemperaturePoint>;
  Weather(Year common, Year leap) : common_(std::move(common)), leap_(std::move(leap)) {}

  Year common_;
  Year leap_;
};

/// @throws DomainError where the description says nothing of the weather
Weather weather_of(const ClimateDescription& climate);

}  // namespace heapwright
