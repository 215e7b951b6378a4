#include "heapwright/process/course.hpp"

#include <algorithm>

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

bool is_every(int day, int every) { return day > 0 && day % every == 0; }

bool is_fed(const Feeding& feeding, int day, int fed, double relative_volume) {
  return is_every(day, feeding.every) && fed < feeding.times && relative_volume + feeding.share <= feeding.room;
}

void check(const HeapCare& care) {
  if (care.turn_every && *care.turn_every < 1) throw DomainError("a heap is turned once a day at most");
  if (care.feeding && care.feeding->every < 1) throw DomainError("a heap is fed once a day at most");
}

bool is_among(const std::vector<int>& days, int day) { return std::binary_search(days.begin(), days.end(), day); }

void tend_as_noted(Pile& pile, int day, const NotedCare& noted, MoistureWetBasis wet_to, TemperaturePoint air) {
  const bool watered = is_among(noted.watered, day);
  if (is_among(noted.turned, day)) {
    pile.turn(air, watered ? std::optional(wet_to) : std::nullopt);
  } else if (watered) {
    pile.water(air, wet_to);
  }
}

/// Turnings and waterings, the latter fortnightly where the heap is never turned. A heap at rest gets neither in frost.
void tend(Pile& pile, int day, const HeapCare& care, TemperaturePoint air, double core_degc) {
  if (day <= care.noted.until) return tend_as_noted(pile, day, care.noted, care.watering, air);
  if (air < frost && core_degc < working_core_degc) return;
  if (care.turn_every) {
    if (is_every(day, *care.turn_every)) pile.turn(air, care.wet_to);
  } else if (care.wet_to && is_every(day, watering_every)) {
    pile.water(air, *care.wet_to);
  }
}

}  // namespace

bool meets(const PileState& state, const ReadyLimits& limits) {
  return state.respiration_worst <= limits.respiration && state.carbon_to_nitrogen <= limits.carbon_to_nitrogen;
}

Course run_course(Pile pile, const HeapContents& contents, const HeapCare& care, const DailyAir& air, int least_days, Steps steps) {
  check(care);
  const int followed = static_cast<int>(air.size());
  Course course;
  course.days.push_back(pile.state());
  for (int day = 0; day < followed; ++day) {
    const TemperaturePoint today = air[static_cast<std::size_t>(day)];
    const bool done = course.mature_day && day >= *course.mature_day + cure;  // as it would end, were it not followed for longer
    if (care.feeding && !done && is_fed(*care.feeding, day, course.fed, course.days.back().relative_volume)) {
      pile.add(care.feeding->share * contents, today);
      ++course.fed;
      course.last_fed = day;
      course.turf_day.reset();  // what is raw again is not ready
      course.mature_day.reset();
    }
    tend(pile, day, care, today, course.days.back().core_degc);
    if (care.rain_a_day.value() > 0.0) pile.rain(today, care.rain_a_day);
    pile.drain();
    pile.live_a_day(today, steps);
    course.days.push_back(pile.state());
    const int age = day + 1;
    if (age - course.last_fed >= earliest_ready) {
      const PileState& now = course.days.back();
      if (!course.turf_day && meets(now, turf_limits)) course.turf_day = age;
      if (!course.mature_day && meets(now, mature_limits)) course.mature_day = age;
    }
    if (course.mature_day && age >= std::max(least_days, *course.mature_day + cure)) break;
  }
  course.water_given = pile.water_given();
  course.closure = pile.closure();
  return course;
}

}  // namespace heapwright
