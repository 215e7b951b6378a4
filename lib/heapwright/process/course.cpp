#include "heapwright/process/course.hpp"

namespace heapwright {
namespace {

bool is_every(int day, int every) { return day > 0 && day % every == 0; }

void start_day(Pile& pile, int day, const HeapContents& contents, const HeapCare& care, TemperaturePoint air) {
  if (care.feeding && is_every(day, care.feeding->every) && day / care.feeding->every <= care.feeding->times)
    pile.add(care.feeding->share * contents, air);
  if (care.turn_every) {
    if (is_every(day, *care.turn_every) && air >= coldest_turning) pile.turn(air, care.wet_to);
  } else if (care.wet_to && is_every(day, watering_every) && air >= coldest_turning) {
    pile.water(air, *care.wet_to);
  }
  if (care.rain_a_day.value() > 0.0) pile.rain(air, care.rain_a_day);
  pile.drain();
}

}  // namespace

bool meets(const PileState& state, const ReadyLimits& limits) {
  return state.respiration_worst <= limits.respiration && state.carbon_to_nitrogen <= limits.carbon_to_nitrogen;
}

Course run_course(Pile pile, const HeapContents& contents, const HeapCare& care, const std::vector<TemperaturePoint>& air, int least_days,
                  Steps steps) {
  const int horizon = static_cast<int>(air.size());
  Course course;
  course.days.push_back(pile.state());
  for (int day = 0; day < horizon; ++day) {
    start_day(pile, day, contents, care, air[static_cast<std::size_t>(day)]);
    pile.live_a_day(air[static_cast<std::size_t>(day)], steps);
    course.days.push_back(pile.state());
    const int age = day + 1;
    if (age >= earliest_ready) {
      const PileState& now = course.days.back();
      if (!course.turf_day && meets(now, turf_limits)) course.turf_day = age;
      if (!course.mature_day && meets(now, mature_limits)) course.mature_day = age;
    }
    if (course.mature_day && age >= least_days) break;
  }
  course.water_given = pile.water_given();
  course.closure = pile.closure();
  return course;
}

}  // namespace heapwright
