#include "heapwright/maturity/watched.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::seconds;

std::optional<HeapReading> hottest_of(const LogRow& row) {
  std::optional<HeapReading> hottest;
  for (std::size_t probe = 0; probe < row.probes.size(); ++probe) {
    const std::optional<TemperaturePoint>& reading = row.probes[probe];
    if (reading && (!hottest || *reading > hottest->temperature)) hottest = HeapReading{*reading, row.time, probe};
  }
  return hottest;
}

std::vector<HeapReading> hottest_readings(const TemperatureLog& log) {
  std::vector<HeapReading> readings;
  for (const LogRow& row : log.rows) {
    if (const auto hottest = hottest_of(row)) readings.push_back(*hottest);
  }
  return readings;
}

std::optional<Reheat> reheat_after(const WrittenTime& turned, const std::vector<HeapReading>& readings) {
  std::optional<Reheat> reheat;
  for (const HeapReading& reading : readings) {
    const seconds after = reading.time.at() - turned.at();
    if (after < seconds(0) || after > days(7)) continue;
    if (!reheat) {
      if (after > days(1)) return std::nullopt;
      reheat = Reheat{turned, reading.temperature, reading.temperature, false};
    }
    if (after <= days(1) && reading.temperature < reheat->lowest) reheat->lowest = reheat->highest = reading.temperature;
    reheat->highest = std::max(reheat->highest, reading.temperature);
  }
  if (reheat) reheat->warmed = reheat->highest - reheat->lowest >= reheat_step;
  return reheat;
}

std::optional<TooHot> too_hot_in(const std::vector<HeapReading>& readings) {
  std::optional<TooHot> found;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (!(readings[i].temperature > too_hot)) continue;
    if (!found) found = TooHot{readings[i].time, {}};
    if (i > 0 && readings[i - 1].temperature > too_hot) found->length += readings[i].time.at() - readings[i - 1].time.at();
  }
  return found;
}

void tell_heating(const std::vector<HeapReading>& readings, Watched& seen) {
  for (const HeapReading& reading : readings) {
    if (reading.temperature >= heated) {
      if (!seen.first_heated) seen.first_heated = reading.time;
      seen.cool_since.reset();
    } else if (seen.first_heated && !seen.cool_since) {
      seen.cool_since = reading.time;
    }
  }
}

void tell_gap(const std::vector<HeapReading>& readings, Watched& seen) {
  for (std::size_t i = 1; i < readings.size(); ++i) {
    const seconds gap = readings[i].time.at() - readings[i - 1].time.at();
    if (gap <= seen.longest_gap) continue;
    seen.longest_gap = gap;
    seen.gap_from = readings[i - 1].time;
  }
}

}  // namespace

std::optional<Watched> watched(const TemperatureLog& log) {
  const std::vector<HeapReading> readings = hottest_readings(log);
  if (readings.empty()) return std::nullopt;
  const auto cooler = [](const HeapReading& one, const HeapReading& other) { return one.temperature < other.temperature; };
  Watched seen{readings.front().time,
               readings.back().time,
               static_cast<int>(readings.size()),
               *std::max_element(readings.begin(), readings.end(), cooler),
               {},
               too_hot_in(readings),
               {},
               {},
               readings.back(),
               {},
               {}};
  for (const LogRow& row : log.rows) {
    if (!row.turned) continue;
    if (const auto reheat = reheat_after(row.time, readings)) seen.reheats.push_back(*reheat);
  }
  tell_heating(readings, seen);
  tell_gap(readings, seen);
  return seen;
}

}  // namespace heapwright
