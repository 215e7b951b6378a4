#include "heapwright/maturity/log_summary.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::seconds;

std::optional<Reheat> reheat_after(const WrittenTime& turned, const std::vector<PileReading>& readings) {
  std::optional<Reheat> reheat;
  // A log may note a turning at each of its rows: only the readings of its own week are looked at.
  auto reading_at = std::lower_bound(readings.begin(), readings.end(), turned,
                                     [](const PileReading& one, const WrittenTime& time) { return one.time.at() < time.at(); });
  for (; reading_at != readings.end(); ++reading_at) {
    const PileReading& reading = *reading_at;
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

std::optional<TooHot> too_hot_in(const std::vector<PileReading>& readings, seconds gap) {
  std::optional<TooHot> found;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (!(readings[i].temperature > too_hot_above)) continue;
    if (!found) found = TooHot{readings[i].time, {}};
    if (i == 0 || !(readings[i - 1].temperature > too_hot_above)) continue;
    const seconds since = readings[i].time.at() - readings[i - 1].time.at();
    if (since <= gap) found->length += since;
  }
  return found;
}

void tell_heating(const std::vector<PileReading>& readings, LogSummary& seen) {
  for (const PileReading& reading : readings) {
    if (reading.temperature >= heated) {
      if (!seen.first_heated) seen.first_heated = reading.time;
      seen.cool_since.reset();
    } else if (seen.first_heated && !seen.cool_since) {
      seen.cool_since = reading.time;
    }
  }
}

void tell_near_fire(const std::vector<PileReading>& readings, LogSummary& seen) {
  for (const PileReading& reading : readings) {
    if (reading.temperature >= near_fire_from) seen.near_fire_at = reading;
  }
}

void tell_gap(const std::vector<PileReading>& readings, LogSummary& seen) {
  for (std::size_t i = 1; i < readings.size(); ++i) {
    const seconds gap = readings[i].time.at() - readings[i - 1].time.at();
    if (gap <= seen.longest_gap) continue;
    seen.longest_gap = gap;
    seen.gap_from = readings[i - 1].time;
  }
}

bool is_turned_in_vain(const LogSummary& seen) {
  if (seen.reheats.empty()) return false;
  const Reheat& last = seen.reheats.back();
  return last.highest < heated + reheat_step && !last.warmed && seen.last.at() - last.turned.at() >= time_to_heat;
}

}  // namespace

std::string_view activity_word(PileActivity state) {
  switch (state) {
    case PileActivity::is_too_hot: return "too-hot";
    case PileActivity::slowing: return "slowing";
    case PileActivity::working: return "working";
    case PileActivity::has_not_heated: return "has-not-heated";
    case PileActivity::too_early: return "too-early";
    case PileActivity::turned_in_vain: return "turned-in-vain";
    case PileActivity::turned_lately: return "turned-lately";
    case PileActivity::cooled_for_good: return "cooled-for-good";
    case PileActivity::cooling: return "cooling";
  }
  return "";
}

ReheatOutcome outcome_of(const Reheat& reheat, const WrittenTime& last) {
  if (last.at() == reheat.turned.at()) return ReheatOutcome::not_measured_since;
  if (reheat.warmed) return ReheatOutcome::warmed;
  if (std::min(reheat.lowest, reheat.latest) >= heated) return ReheatOutcome::stayed_hot;
  if (reheat.latest < reheat.lowest && reheat.highest >= heated) return ReheatOutcome::went_on_cooling;
  return last.at() - reheat.turned.at() < time_to_warm_again ? ReheatOutcome::not_yet : ReheatOutcome::did_not_warm;
}

FeltActivity FeltByHand::state() const {
  switch (core) {
    case HandWarmth::hot: return FeltActivity::working;
    case HandWarmth::warm: return FeltActivity::slowing;
    case HandWarmth::cold: break;
  }
  if (has_heated) return FeltActivity::cooled;
  return long_enough ? FeltActivity::has_not_heated : FeltActivity::too_early;
}

PileActivity LogSummary::state() const {
  if (latest.temperature > too_hot_above || was_near_fire_by(last)) return PileActivity::is_too_hot;
  const bool turned_of_late = last_turned && last.at() - last_turned->at() < time_to_heat;
  if (latest.temperature >= heated) {
    const bool was_hotter = peak.temperature >= turned_below && latest.temperature < turned_below;
    return was_hotter && !turned_of_late ? PileActivity::slowing : PileActivity::working;
  }
  if (!cool_since) return last.at() - first.at() >= time_to_heat ? PileActivity::has_not_heated : PileActivity::too_early;
  if (is_turned_in_vain(*this)) return PileActivity::turned_in_vain;
  if (turned_of_late) return PileActivity::turned_lately;
  return last.at() - cool_since->at() >= days(7) ? PileActivity::cooled_for_good : PileActivity::cooling;
}

std::vector<PileReading> hottest_readings(const TemperatureLog& log) {
  constexpr seconds round = std::chrono::hours(1);
  std::vector<PileReading> hottest;
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

std::optional<LogSummary> log_summary_of(const TemperatureLog& log, seconds gap) {
  const std::vector<PileReading> readings = hottest_readings(log);
  if (readings.empty()) return std::nullopt;
  const auto cooler = [](const PileReading& one, const PileReading& other) { return one.temperature < other.temperature; };
  LogSummary seen{readings.front().time,
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
