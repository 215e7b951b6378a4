#include "heapwright/process/trajectory.hpp"

#include <algorithm>
#include <utility>

#include "heapwright/error.hpp"
#include "heapwright/process/rain.hpp"

namespace heapwright {
namespace {

constexpr int days_a_year = 365;

bool is_every(int day, int every) { return day > 0 && day % every == 0; }

bool is_fed(const Feeding& feeding, int day, int fed, double relative_volume) {
  const bool due = day >= feeding.first && is_every(day, feeding.every) && fed < feeding.times;
  return due && relative_volume + feeding.share <= feeding.room;
}

void check(const PileCare& care) {
  if (care.turn_every && *care.turn_every < 1) throw DomainError("a pile is turned once a day at most");
  if (care.feeding && care.feeding->every < 1) throw DomainError("a pile is fed once a day at most");
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

/// Turnings and waterings, the latter fortnightly where the pile is never turned. A pile at rest gets neither in frost.
void tend(Pile& pile, int day, const PileCare& care, TemperaturePoint air, TemperaturePoint core) {
  if (day <= care.noted.until) return tend_as_noted(pile, day, care.noted, care.watering, air);
  if (air < frost && core < working_core) return;
  if (care.turn_every) {
    if (is_every(day, *care.turn_every)) pile.turn(air, care.wet_to);
  } else if (care.wet_to && is_every(day, watering_every)) {
    pile.water(air, *care.wet_to);
  }
}

/// A pile with what is done to it, a day at a time.
class KeptPile {
 public:
  KeptPile(Pile pile, const PileFeed& feed, const PileCare& care, Steps steps)
      : pile_(std::move(pile)), feed_(feed), care_(care), steps_(steps), state_(pile_.state()), built_of_(state_.dry) {
    check(care);
  }

  /// @param feeds whether it is still fed @return what it was fed; nothing where it was not
  std::optional<Fed> live(int day, const DayOfWeather& weather, bool feeds) {
    const std::optional<Fed> fed = feeds ? feed(day, weather.air) : std::nullopt;
    tend(pile_, day, care_, weather.air, state_.core);
    const Length rain = rain_taken_up(weather.rain, weather.air, care_.share_of_rain);
    if (is_positive(rain)) pile_.rain(weather.air, rain);
    pile_.drain();
    pile_.live_a_day(weather.air, steps_, weather.humidity);
    state_ = pile_.state();
    return fed;
  }

  const PileState& state() const { return state_; }
  const Pile& pile() const { return pile_; }
  bool takes_more() const { return (care_.feeding && times_fed_ < care_.feeding->times) || next_load_ < feed_.loads.size(); }

 private:
  std::optional<Fed> feed(int day, TemperaturePoint air) {
    Fed fed{day, 0.0, Mass()};
    if (care_.feeding && is_fed(*care_.feeding, day, times_fed_, state_.relative_volume)) {
      add(care_.feeding->share * feed_.usual, air, fed);
      ++times_fed_;
    }
    for (; next_load_ < feed_.loads.size() && feed_.loads[next_load_].day <= day; ++next_load_) {
      const PileContents& load = feed_.loads[next_load_].contents;
      if (state_.relative_volume + fed.share + load.dry() / built_of_ <= feed_.room) add(load, air, fed);
    }
    return fed.share > 0.0 ? std::optional(fed) : std::nullopt;
  }

  void add(const PileContents& contents, TemperaturePoint air, Fed& fed) {
    pile_.add(contents, air);
    fed.share += contents.dry() / built_of_;
    fed.mass += as_is_mass(contents.dry(), contents.water);
  }

  Pile pile_;
  const PileFeed& feed_;
  const PileCare& care_;
  Steps steps_;
  PileState state_;
  DryMass built_of_;
  int times_fed_ = 0;
  std::size_t next_load_ = 0;
};

/// Whether what falls as it did in the last year comes down to a limit within some years more. What rises is taken to stay.
template <class Figure>
bool falls_to(const Figure& limit, const Figure& now, const Figure& a_year_ago, double years) {
  return now - std::max<Figure>(Figure(), a_year_ago - now) * years <= limit;
}

/// Whether a pile may yet come to the limits in the days left, by its last year.
bool can_meet(const PileState& now, const PileState& a_year_ago, const ReadyLimits& limits, int days_left) {
  const double years = static_cast<double>(days_left) / days_a_year;
  return now.least_carbon_to_nitrogen <= limits.carbon_to_nitrogen &&
         falls_to(limits.carbon_to_nitrogen, now.carbon_to_nitrogen, a_year_ago.carbon_to_nitrogen, years) &&
         falls_to(limits.respiration, now.respiration_worst, a_year_ago.respiration_worst, years) &&
         falls_to(-limits.rotted, -now.rotted_worst, -a_year_ago.rotted_worst, years);
}

bool can_get_readier(const Trajectory& trajectory, int days_left) {
  const PileState& now = trajectory.days.back();
  const PileState& a_year_ago = trajectory.days[trajectory.days.size() - 1 - days_a_year];
  const bool for_turf = !trajectory.turf_day && can_meet(now, a_year_ago, turf_limits, days_left);
  return for_turf || (!trajectory.mature_day && can_meet(now, a_year_ago, mature_limits, days_left));
}

}  // namespace

bool meets(const PileState& state, const ReadyLimits& limits) {
  return state.respiration_worst <= limits.respiration && state.carbon_to_nitrogen <= limits.carbon_to_nitrogen &&
         state.rotted_worst >= limits.rotted;
}

std::optional<int> Trajectory::hot_day() const {
  const auto hot = std::find_if(days.begin(), days.end(), [](const PileState& day) { return day.core > hot_core; });
  return hot == days.end() ? std::nullopt : std::optional(static_cast<int>(hot - days.begin()));
}

double Trajectory::filled_in_all() const {
  double all = 1.0;
  for (const Fed& one : fed) all += one.share;
  return all;
}

Trajectory run_trajectory(Pile pile, const PileFeed& feed, const PileCare& care, const DailyWeather& weather, Following following,
                          Steps steps) {
  KeptPile kept(std::move(pile), feed, care, steps);
  const int followed = static_cast<int>(weather.size());
  Trajectory trajectory;
  trajectory.days.push_back(kept.state());
  for (int day = 0; day < followed; ++day) {
    const bool done = trajectory.mature_day && day >= *trajectory.mature_day + cure;  // as it would end, were it not followed for longer
    if (const auto fed = kept.live(day, weather[static_cast<std::size_t>(day)], !done)) {
      trajectory.fed.push_back(*fed);
      trajectory.turf_day.reset();  // what is raw again is not ready
      trajectory.mature_day.reset();
    }
    trajectory.days.push_back(kept.state());
    const int age = day + 1;
    if (age - trajectory.last_fed() >= earliest_ready) {
      const PileState& now = trajectory.days.back();
      if (!trajectory.turf_day && meets(now, turf_limits)) trajectory.turf_day = age;
      if (!trajectory.mature_day && meets(now, mature_limits)) trajectory.mature_day = age;
    }
    if (trajectory.mature_day && age >= std::max(following.least_days, *trajectory.mature_day + cure)) break;
    const bool settled = age - trajectory.last_fed() >= days_a_year && !kept.takes_more();
    const bool cures = trajectory.mature_day || (trajectory.turf_day && age < *trajectory.turf_day + cure);
    if (following.while_it_can_get_ready && settled && !cures && !can_get_readier(trajectory, followed - age)) break;
  }
  trajectory.water_given = kept.pile().water_given();
  trajectory.closure = kept.pile().closure();
  return trajectory;
}

std::optional<int> first_hot_day(Pile pile, const PileFeed& feed, const PileCare& care, const DailyWeather& weather, int days,
                                 Steps steps) {
  KeptPile kept(std::move(pile), feed, care, steps);
  const int last = std::min(days, static_cast<int>(weather.size()));
  for (int day = 0; day < last; ++day) {
    if (kept.state().core > hot_core) return day;
    kept.live(day, weather[static_cast<std::size_t>(day)], true);
  }
  return kept.state().core > hot_core ? std::optional(last) : std::nullopt;
}

}  // namespace heapwright
