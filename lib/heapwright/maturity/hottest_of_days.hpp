#pragma once
/// A log as a chart shows it.

#include <vector>

#include "heapwright/maturity/log_summary.hpp"

namespace heapwright {

/// Of each day the hottest reading, in their order: a probe that logs each minute shows no more on a sheet.
/// @param readings in the order of time
inline std::vector<PileReading> hottest_of_days(const std::vector<PileReading>& readings) {
  std::vector<PileReading> days;
  for (const PileReading& reading : readings) {
    if (days.empty() || days.back().time.day() != reading.time.day())
      days.push_back(reading);
    else if (reading.temperature > days.back().temperature)
      days.back() = reading;
  }
  return days;
}

}  // namespace heapwright
