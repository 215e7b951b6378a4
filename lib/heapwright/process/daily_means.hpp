#pragma once
/// Air temperatures of a weather station, a day a row.

#include <optional>
#include <vector>

#include "heapwright/time/date.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

class Csv;

/// A row of such a file.
struct DailyMean {
  Date day;
  TemperaturePoint mean;
  std::optional<Length> rain{};  ///< in all days of a file, or in none
};

/// In the order of the days.
using DailyMeans = std::vector<DailyMean>;

/// Whether a temperature can be the mean of a day: −60 to 60 °C.
bool is_a_daily_mean(TemperaturePoint mean);

/// Reads columns `date` ("2026-11-07") and one whose name ends in its unit ("air degF"), and may have rain ("rain in", "rain mm"); other
/// columns are passed over. Every day from the first to the last stands there, of a year or of more; only 29 February may be left out, as
/// many tables do. All that is wrong becomes problems of the file.
DailyMeans read_daily_means(Csv& csv);

}  // namespace heapwright
