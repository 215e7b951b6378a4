#include <fmt/format.h>

#include <cmath>

#include "heapwright/page/forecast_parts.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/trajectory_tables.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::string whole(double number) { return std::isfinite(number) ? fmt::format("{:.0f}", std::round(number)) : "-"; }

std::vector<std::string> week_row(const Forecast& forecast, std::size_t day, const Show& show) {
  const DayOfForecast& one = forecast.days[day];
  const auto temperature = [&](double celsius) { return show.temperature(TemperaturePoint::from_celsius(celsius)); };
  return {print_date(date_of(forecast, static_cast<int>(day))),
          temperature(one.air_degc),
          temperature(one.state.core_degc),
          temperature(one.state.edge_degc),
          show_percent(one.state.moisture),
          show_percent(1.0 - one.state.volatile_solids_loss),
          whole(one.state.carbon_to_nitrogen),
          whole(one.state.respiration_worst)};
}

}  // namespace

std::string table_of_forecast(const YardForecast& answer, const Show& show) {
  if (!answer.forecast) return wrap(show.words(why_no_forecast(answer)));
  const Forecast& forecast = *answer.forecast;
  std::vector<std::vector<std::string>> rows{{"week of", "air", "core", "edge", "moisture", "left", "C:N", "breath"}};
  for (std::size_t day = 0; day < forecast.days.size(); day += 7) rows.push_back(week_row(forecast, day, show));
  return fmt::format(
      "{}\n{}", columns(rows),
      wrap(fmt::format("left: of the organic matter. breath: mg CO2-C per g organic matter and day, of the rawest part; once "
                       "it is down to {:.0f} and has cured three weeks it is ready for turf, at {:.0f} mature.",
                       turf_limits.respiration, mature_limits.respiration)));
}

}  // namespace heapwright
