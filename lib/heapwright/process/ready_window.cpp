#include "heapwright/process/ready_window.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {
namespace {

constexpr double earlier = 0.7;
constexpr double later = 1.7;
const TemperaturePoint works_from = TemperaturePoint::from_celsius(10.0);  // judged

std::optional<int> cured(std::optional<int> day) { return day ? std::optional(*day + cure) : std::nullopt; }

std::optional<int> within_horizon(std::optional<int> day) { return day && *day <= horizon ? day : std::nullopt; }

/// The day on which a share of the days is done that a pile works on its way to a day: while it rests in the cold it gets no sooner
/// ready, nor before the least age and the cure of what went in last.
int sooner(const Trajectory& trajectory, int ready, double share) {
  const auto works = [&](int day) { return trajectory.days[static_cast<std::size_t>(day)].core >= works_from; };
  ready = std::min(ready, static_cast<int>(trajectory.days.size()));
  int working = 0;
  for (int day = 0; day < ready; ++day) working += works(day) ? 1 : 0;
  if (working == 0) return ready;
  double left = share * working;
  for (int day = 0; day < ready; ++day) {
    if (works(day)) left -= 1.0;
    if (left <= 0.0) return std::max(day + 1, trajectory.last_fed() + earliest_ready + cure);
  }
  return ready;
}

std::optional<int> the_earlier(std::optional<int> one, int other) { return one ? std::min(*one, other) : other; }
/// None is later than any.
std::optional<int> the_later(std::optional<int> one, int other) { return one ? std::optional(std::max(*one, other)) : std::nullopt; }

}  // namespace

DaysOrNever in_order(DaysOrNever days) {
  std::sort(days.begin(), days.end(), [](std::optional<int> one, std::optional<int> other) { return one && (!other || *one < *other); });
  return days;
}

std::optional<int> middle_of(const DaysOrNever& days) { return days.empty() ? std::nullopt : days[days.size() / 2]; }

ReadyWindow middle_eight_tenths(const DaysOrNever& days) {
  if (days.empty()) return {};
  const std::size_t left_out = days.size() / 10;
  return {days[left_out], middle_of(days), days[days.size() - 1 - left_out]};
}

ReadyWindow ready_window(const Trajectory& trajectory, std::optional<int> likely, const DaysOrNever& sets) {
  DaysOrNever ready;
  for (const std::optional<int> day : sets) ready.push_back(cured(day));
  ReadyWindow window = middle_eight_tenths(in_order(std::move(ready)));
  window.likely = cured(likely);
  if (window.likely) {
    window.early = the_earlier(window.early, sooner(trajectory, *window.likely, earlier));
    window.late = the_later(window.late, static_cast<int>(std::lround(later * *window.likely)));
  }
  return {within_horizon(window.early), within_horizon(window.likely), within_horizon(window.late)};
}

}  // namespace heapwright
