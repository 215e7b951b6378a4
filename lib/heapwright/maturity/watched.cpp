#include "heapwright/maturity/watched.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::seconds;

std::optional<Reheat> reheat_after(const WrittenTime& turned, const std::vector<HeapReading>& readings) {
  std::optional<Reheat> reheat;
  // A log may note a turning at each of its rows: only the readings of its own week are looked at.
  auto reading_at = std::lower_bound(readings.begin(), readings.end(), turned,
                                     [](const HeapReading& one, const WrittenTime& time) { return one.time.at() < time.at(); });
  for (; reading_at != readings.end(); ++reading_at) {
    const HeapReading& reading = *reading_at;
    const seconds after = reading.time.at() - turned.at();
    if (after > days(7)) break;
    if (!reheat) {
      if (after > days(1)) return std::nullopt;
      reheat = Reheat{turned, reading.temperature, reading.temperature, reading.temperature, false};
    }
    if (after <= days(1) && reading.temperature < reheat->lowest) reheat->lowest = reheat->highest = reading.temperature;
    reheat->highest = std::max(reheat->highest, reading.temperature);
    reheat->latest = reading.temperature;
  }
  if (reheat) reheat->warmed = reheat->highest - reheat->lowest >= reheat_step;
  return reheat;
}

std::optional<TooHot> too_hot_in(const std::vector<HeapReading>& readings, seconds gap) {
  std::optional<TooHot> found;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (!(readings[i].temperature > too_hot)) continue;
    if (!found) found = TooHot{readings[i].time, {}};
    if (i == 0 || !(readings[i - 1].temperature > too_hot)) continue;
    const seconds since = readings[i].time.at() - readings[i - 1].time.at();
    if (since <= gap) found->length += since;
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

void tell_near_fire(const std::vector<HeapReading>& readings, Watched& seen) {
  for (const HeapReading& reading : readings) {
    if (reading.temperature >= near_fire) seen.near_fire_at = reading;
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

bool is_turned_in_vain(const Watched& seen) {
  if (seen.reheats.empty()) return false;
  const Reheat& last = seen.reheats.back();
  return last.highest < heated + reheat_step && !last.warmed && seen.last.at() - last.turned.at() >= time_to_heat;
}

}  // namespace

std::string_view heap_state_word(HeapState state) {
  switch (state) {
    case HeapState::is_too_hot: return "too-hot";
    case HeapState::slowing: return "slowing";
    case HeapState::working: return "working";
    case HeapState::has_not_heated: return "has-not-heated";
    case HeapState::too_early: return "too-early";
    case HeapState::turned_in_vain: return "turned-in-vain";
    case HeapState::turned_lately: return "turned-lately";
    case HeapState::cooled_for_good: return "cooled-for-good";
    case HeapState::cooling: return "cooling";
  }
  return "";
}

HeapState Watched::state() const {
  if (latest.temperature > heapwright::too_hot || was_near_fire_by(last)) return HeapState::is_too_hot;
  const bool turned_of_late = last_turned && last.at() - last_turned->at() < time_to_heat;
  if (latest.temperature >= heated) {
    const bool was_hotter = peak.temperature >= turned_below && latest.temperature < turned_below;
    return was_hotter && !turned_of_late ? HeapState::slowing : HeapState::working;
  }
  if (!cool_since) return last.at() - first.at() >= time_to_heat ? HeapState::has_not_heated : HeapState::too_early;
  if (is_turned_in_vain(*this)) return HeapState::turned_in_vain;
  if (turned_of_late) return HeapState::turned_lately;
  return last.at() - cool_since->at() >= days(7) ? HeapState::cooled_for_good : HeapState::cooling;
}

std::vector<HeapReading> hottest_readings(const TemperatureLog& log) {
  constexpr seconds round = std::chrono::hours(1);
  std::vector<HeapReading> hottest;
  std::vector<bool> shown(log.probes.size(), false);  // in this round
  std::optional<seconds> begun;
  for (const LogRow& row : log.rows) {
    for (std::size_t probe = 0; probe < row.probes.size(); ++probe) {
      const std::optional<TemperaturePoint>& reading = row.probes[probe];
      if (!reading) continue;
      const seconds now = row.time.at().time_since_epoch();
      if (!begun || shown[probe] || now - *begun >= round) {
        begun = now;
        std::fill(shown.begin(), shown.end(), false);
        hottest.push_back({*reading, row.time, probe});
      }
      shown[probe] = true;
      if (*reading > hottest.back().temperature) hottest.back() = {*reading, row.time, probe};
    }
  }
  return hottest;
}

std::optional<Watched> watched(const TemperatureLog& log, seconds gap) {
  const std::vector<HeapReading> readings = hottest_readings(log);
  if (readings.empty()) return std::nullopt;
  const auto cooler = [](const HeapReading& one, const HeapReading& other) { return one.temperature < other.temperature; };
  Watched seen{readings.front().time,
               readings.back().time,
               static_cast<int>(readings.size()),
               *std::max_element(readings.begin(), readings.end(), cooler),
               {},
               too_hot_in(readings, gap),
               {},
               {},
               {},
               {},
               readings.back(),
               {},
               {}};
  for (const LogRow& row : log.rows) {
    if (!row.turned) continue;
    seen.last_turned = row.time;
    if (const auto reheat = reheat_after(row.time, readings)) seen.reheats.push_back(*reheat);
  }
  tell_heating(readings, seen);
  tell_near_fire(readings, seen);
  tell_gap(readings, seen);
  return seen;
}

}  // namespace heapwright
