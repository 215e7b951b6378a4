#include "heapwright/maturity/log_summary.hpp"

#include <algorithm>

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::seconds;

/// Takes in a reading of the time after a turning.
void take(const PileReading& reading, Reheat& reheat) {
  const TemperaturePoint now = reading.temperature;
  const bool was_hot = reheat.coolest >= heated;
  const bool first_day = reading.time.at() - reheat.turned.at() <= days(1);
  if (first_day && now < reheat.lowest) {
    reheat.lowest = reheat.highest = now;
  } else {
    reheat.highest = reheat.measured ? std::max(reheat.highest, now) : now;
  }
  reheat.measured = true;
  reheat.coolest = std::min(reheat.coolest, now);
  if (was_hot && now >= heated) reheat.hot_until = reading.time;
  reheat.latest = now;
}

/// @param until the next turning, or the end
std::optional<Reheat> reheat_after(const WrittenTime& turned, std::chrono::sys_seconds until, const std::vector<PileReading>& readings) {
  // A log may note a turning at each of its rows: only the readings of its own week are looked at.
  auto reading = std::lower_bound(readings.begin(), readings.end(), turned,
                                  [](const PileReading& one, const WrittenTime& time) { return one.time.at() < time.at(); });
  if (reading == readings.end() || reading->time.at() >= until || reading->time.at() - turned.at() > days(1)) return std::nullopt;
  const TemperaturePoint first = reading->temperature;
  Reheat reheat{turned, first, first, first, first, turned};
  if (reading->time.at() == turned.at()) ++reading;  // it was read, then turned
  for (; reading != readings.end() && reading->time.at() < until && reading->time.at() - turned.at() <= days(7); ++reading)
    take(*reading, reheat);
  reheat.warmed = reheat.highest - reheat.lowest >= reheat_step;
  return reheat;
}

void tell_turnings(const TemperatureLog& log, const std::vector<PileReading>& readings, LogSummary& seen) {
  std::vector<WrittenTime> turned;
  for (const LogRow& row : log.rows) {
    if (row.turned) turned.push_back(row.time);
  }
  if (!turned.empty()) seen.last_turned = turned.back();
  for (std::size_t i = 0; i < turned.size(); ++i) {
    const bool again = i + 1 < turned.size();
    std::optional<Reheat> reheat = reheat_after(turned[i], again ? turned[i + 1].at() : std::chrono::sys_seconds::max(), readings);
    if (!reheat) continue;
    reheat->turned_again = again && turned[i + 1].at() - turned[i].at() <= days(7);
    seen.reheats.push_back(*reheat);
  }
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
    if (reading.temperature < heated) {
      if (!seen.hot_spells.empty() && !seen.cool_since) seen.cool_since = reading.time;
      continue;
    }
    if (seen.hot_spells.empty() || seen.cool_since) seen.hot_spells.push_back({reading.time, reading.time, reading});
    seen.cool_since.reset();
    HotSpell& spell = seen.hot_spells.back();
    spell.to = reading.time;
    if (reading.temperature > spell.hottest.temperature) spell.hottest = reading;
  }
  if (!seen.hot_spells.empty()) seen.first_heated = seen.hot_spells.front().from;
}

/// Whether it was turned or watered from one time on to before another.
bool was_worked(const TemperatureLog& log, const WrittenTime& from, const WrittenTime& before) {
  auto row = std::lower_bound(log.rows.begin(), log.rows.end(), from,
                              [](const LogRow& one, const WrittenTime& time) { return one.time.at() < time.at(); });
  for (; row != log.rows.end() && row->time.at() < before.at(); ++row) {
    if (row->turned || row->watered) return true;
  }
  return false;
}

/// A reading far off the ones before and after it, which are alike.
bool stands_alone(const TemperatureLog& log, const PileReading& before, const PileReading& one, const PileReading& after) {
  constexpr days near(2);
  const TemperatureDifference alike = 0.5 * odd_step;
  const TemperatureDifference above = std::min(one.temperature - before.temperature, one.temperature - after.temperature);
  const TemperatureDifference below = std::min(before.temperature - one.temperature, after.temperature - one.temperature);
  if (!(above >= odd_step || below >= odd_step)) return false;
  if (!(before.temperature - after.temperature <= alike && after.temperature - before.temperature <= alike)) return false;
  if (before.probe != one.probe || after.probe != one.probe) return false;
  if (one.time.at() - before.time.at() > near || after.time.at() - one.time.at() > near) return false;
  return !was_worked(log, before.time, after.time);
}

/// By how much the latest reading fell in a day where nothing was done to a hot pile: nobody can yet say whether it stands alone.
TemperatureDifference unexplained_fall(const TemperatureLog& log, const std::vector<PileReading>& readings) {
  constexpr TemperatureDifference a_lot = 25.0 * unit::kelvin;  // judged
  if (readings.size() < 2) return {};
  const PileReading& before = readings[readings.size() - 2];
  const PileReading& latest = readings.back();
  const TemperatureDifference fall = before.temperature - latest.temperature;
  const bool at_once = latest.time.at() - before.time.at() <= usual_gap && before.probe == latest.probe;
  if (!(before.temperature >= heated && latest.temperature < heated && fall >= a_lot && at_once)) return {};
  return was_worked(log, before.time, latest.time) ? TemperatureDifference() : fall;
}

/// The hottest of each of the last days, the last day first: over a day a thermometer near the edge goes with the sun.
std::vector<TemperaturePoint> hottest_of_last_days(const std::vector<PileReading>& readings) {
  constexpr days few(4);  // judged
  std::vector<TemperaturePoint> hottest;
  std::optional<std::chrono::sys_days> of_day;
  const std::chrono::sys_days last = readings.back().time.day();
  for (auto reading = readings.rbegin(); reading != readings.rend(); ++reading) {
    const std::chrono::sys_days day = reading->time.day();
    if (last - day > few) break;
    if (day != of_day) hottest.push_back(reading->temperature);
    hottest.back() = std::max(hottest.back(), reading->temperature);
    of_day = day;
  }
  return hottest;
}

bool is_warming(const std::vector<PileReading>& readings) {
  const std::vector<TemperaturePoint> hottest = hottest_of_last_days(readings);
  const auto [coolest, warmest] = std::minmax_element(hottest.begin(), hottest.end());
  return *warmest - hottest.front() < hardly_warmer && hottest.front() - *coolest >= reheat_step;
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
  const bool is_last = seen.last_turned && seen.last_turned->at() == last.turned.at();
  return is_last && last.measured && last.highest < heated + reheat_step && !last.warmed &&
         seen.last.at() - last.turned.at() >= time_to_heat;
}

}  // namespace

std::string_view activity_word(PileActivity state) {
  switch (state) {
    case PileActivity::is_too_hot: return "too-hot";
    case PileActivity::slowing: return "slowing";
    case PileActivity::working: return "working";
    case PileActivity::measure_again: return "measure-again";
    case PileActivity::warming: return "warming";
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
  const TemperatureDifference rise = reheat.highest - reheat.lowest;
  if (!reheat.measured) return last.at() == reheat.turned.at() ? ReheatOutcome::not_measured_since : ReheatOutcome::not_measured;
  if (reheat.warmed) return ReheatOutcome::warmed;
  if (reheat.coolest >= heated) return ReheatOutcome::stayed_hot;
  if (reheat.hot_until.at() - reheat.turned.at() >= time_hot_again) return ReheatOutcome::stayed_hot_for_days;
  const bool never_rose = rise < hardly_warmer && reheat.latest - reheat.coolest < hardly_warmer;
  if (never_rose && reheat.latest < reheat.lowest && reheat.highest >= heated) return ReheatOutcome::went_on_cooling;
  if (!reheat.turned_again && last.at() - reheat.turned.at() < time_to_warm_again) return ReheatOutcome::not_yet;
  return rise < hardly_warmer ? ReheatOutcome::did_not_warm : ReheatOutcome::hardly_warmed;
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
    const bool was_hotter = hot_spells.back().hottest.temperature >= turned_below && latest.temperature < turned_below;
    return was_hotter && !turned_of_late ? PileActivity::slowing : PileActivity::working;
  }
  if (is_positive(fell_by)) return PileActivity::measure_again;
  if (warms) return PileActivity::warming;
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

namespace {

SoundReadings sound_ones(const TemperatureLog& log, const std::vector<PileReading>& all) {
  SoundReadings readings;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const bool is_odd = i > 0 && i + 1 < all.size() && stands_alone(log, all[i - 1], all[i], all[i + 1]);
    (is_odd ? readings.set_aside : readings.sound).push_back(all[i]);
  }
  return readings;
}

}  // namespace

SoundReadings sound_readings(const TemperatureLog& log) { return sound_ones(log, hottest_readings(log)); }

std::optional<LogSummary> log_summary_of(const TemperatureLog& log, seconds gap) {
  const std::vector<PileReading> all = hottest_readings(log);
  SoundReadings readings = sound_ones(log, all);
  const std::vector<PileReading>& sound = readings.sound;
  if (sound.empty()) return std::nullopt;
  const auto cooler = [](const PileReading& one, const PileReading& other) { return one.temperature < other.temperature; };
  LogSummary seen{all.front().time, all.back().time, static_cast<int>(all.size()), *std::max_element(sound.begin(), sound.end(), cooler),
                  sound.back()};
  seen.too_hot = too_hot_in(sound, gap);
  tell_turnings(log, sound, seen);
  tell_heating(sound, seen);
  tell_near_fire(all, seen);
  seen.fell_by = unexplained_fall(log, sound);
  seen.warms = is_warming(sound);
  tell_gap(all, seen);
  seen.set_aside = std::move(readings.set_aside);
  return seen;
}

}  // namespace heapwright
