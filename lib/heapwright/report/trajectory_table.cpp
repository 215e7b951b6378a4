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
  return {print_date(date_of(forecast, static_cast<int>(day))),
          show.temperature(one.air),
          show.temperature(one.state.core),
          show.temperature(one.state.edge),
          show_percent(one.state.moisture.value()),
          show_percent(1.0 - one.state.volatile_solids_loss),
          whole(one.state.carbon_to_nitrogen.value()),
          whole(value_in(mg_carbon_per_g_and_day, one.state.respiration_worst))};
}

}  // namespace

std::string table_of_forecast(const YardForecast& answer, const Show& show) {
  if (!answer.forecast) return wrap(show.words(why_no_forecast(answer)));
  const Forecast& forecast = *answer.forecast;
  std::vector<std::vector<std::string>> rows{{"week of", "air", "core", "edge", "moisture", "left", "C:N", "breath"}};
  for (std::size_t day = 0; day < forecast.days.size(); day += 7) rows.push_back(week_row(forecast, day, show));
  return fmt::format(
      "{}\n{}", columns(rows),
      wrap(fmt::format("left: of the organic matter that went in. breath: mg CO2-C per g organic matter and day, of the rawest part; once "
                       "it is down to {:.0f} and has cured three weeks it is ready for turf, at {:.0f} mature.",
                       value_in(mg_carbon_per_g_and_day, turf_limits.respiration),
                       value_in(mg_carbon_per_g_and_day, mature_limits.respiration))));
}

}  // namespace heapwright
