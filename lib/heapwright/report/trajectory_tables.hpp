#pragma once
/// Look-ups of any length: what a forecast has for each week, and for each day.

#include <string>

#include "heapwright/plan/answers.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

/// Week by week, for a screen.
std::string table_of_forecast(const YardForecast& answer, const Show& show);
/// Day by day, as CSV in SI units.
std::string csv_of_forecast(const YardForecast& answer);

}  // namespace heapwright
