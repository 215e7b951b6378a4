#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <cmath>

#include "heapwright/report/trajectory_tables.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// Nothing where there is none: the C:N of what has no nitrogen.
std::string cell(double number) { return std::isfinite(number) ? print_number(number, 5) : std::string(); }

std::string day_row(const Forecast& forecast, std::size_t day) {
  const DayOfForecast& one = forecast.days[day];
  const PileState& state = one.state;
  const std::array cells{cell(one.air.celsius()),
                         cell(state.core.celsius()),
                         cell(one.core_low.celsius()),
                         cell(one.core_high.celsius()),
                         cell(state.edge.celsius()),
                         cell(state.moisture.value()),
                         cell(1.0 - state.volatile_solids_loss),
                         cell(value_in(mg_carbon_per_g_and_day, state.respiration_worst)),
                         cell(state.carbon_to_nitrogen.value()),
                         cell(state.relative_volume)};
  return fmt::format("{},{},{}\n", print_date(date_of(forecast, static_cast<int>(day))), day, fmt::join(cells, ","));
}

}  // namespace

std::string csv_of_forecast(const YardForecast& answer) {
  std::string text =
      "date,day,air_degc,core_degc,core_low_degc,core_high_degc,edge_degc,moisture_fraction,volatile_solids_left_fraction,"
      "respiration_mg_co2c_per_g_om_day,carbon_to_nitrogen,relative_volume\n";
  if (!answer.forecast) return text;
  for (std::size_t day = 0; day < answer.forecast->days.size(); ++day) text += day_row(*answer.forecast, day);
  return text;
}

}  // namespace heapwright
