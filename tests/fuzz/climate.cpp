/// Days of a weather station, and the climate that they make.

#include "heapwright/process/climate.hpp"

#include "checks.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/process/daily_means.hpp"
#include "heapwright/process/weather.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

void check_climate(const ClimateDescription& climate) {
  for (const DailyMean& day : climate.days) {
    require(day.day.ok(), "a day is one of the calendar");
    require(is_a_daily_mean(day.mean), "a mean is one of a day");
    require(!day.rain || (std::isfinite(day.rain->value()) && day.rain->value() >= 0.0), "rain falls down");
  }
  for (const Length& rain : monthly_rain(climate)) require(std::isfinite(rain.value()) && rain.value() >= 0.0, "rain falls down");
}

}  // namespace

void read_climate_days(std::string_view text) {
  ends_well([&] {
    Problems problems;
    Csv csv{std::string(text), "days.csv", problems};
    ClimateDescription climate;
    climate.days = read_daily_means(csv);
    problems.throw_if_any();
    check_climate(climate);
    count_answered();
  });
}

}  // namespace heapwright::fuzz
