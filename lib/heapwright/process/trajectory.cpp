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
  const bool due = is_every(day, feeding.every) && fed < feeding.times;
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
  explicit KeptPile(PileInWeather kept) : kept_(std::move(kept)), state_(kept_.pile.state()), built_of_(state_.dry) { check(kept_.care); }

  int age() const { return age_; }
  int days_left() const { return static_cast<int>(kept_.weather.size()) - age_; }
  const PileState& state() const { return state_; }
  const Pile& pile() const { return kept_.pile; }
  bool takes_more() const { return (kept_.care.feeding && times_fed_ < kept_.care.feeding->times) || next_load_ < kept_.feed.loads.size(); }

  /// What is done to it as its next day begins. @param feeds whether it is still fed @return what it was fed; nothing where it was not
  std::optional<Fed> begin_day(bool feeds) {
    const DayOfWeather& today = weather();
    std::optional<Fed> fed = feeds ? feed(age_, air()) : std::nullopt;
    tend(kept_.pile, age_, kept_.care, air(), state_.core);
    const Length rain = rain_taken_up(today.rain, air(), kept_.care.share_of_rain);
    if (is_positive(rain)) kept_.pile.rain(air(), rain);
    kept_.pile.drain();
    return fed;
  }
  /// The day that it has begun.
  Pile::Day day() { return {&kept_.pile, air(), weather().humidity}; }
  void end_day() {
    state_ = kept_.pile.state();
    ++age_;
  }

 private:
  const DayOfWeather& weather() const { return kept_.weather[static_cast<std::size_t>(age_)]; }
  TemperaturePoint air() const { return weather().air + kept_.warmer; }

  std::optional<Fed> feed(int day, TemperaturePoint air) {
    Fed fed{day, 0.0, Mass()};
    const std::optional<Feeding>& feeding = kept_.care.feeding;
    if (feeding && is_fed(*feeding, day, times_fed_, state_.relative_volume)) {
      add(feeding->share * kept_.feed.usual, air, fed);
      ++times_fed_;
    }
    const std::vector<DatedContents>& loads = kept_.feed.loads;
    for (; next_load_ < loads.size() && loads[next_load_].day <= day; ++next_load_) {
      const PileContents& load = loads[next_load_].contents;
      if (state_.relative_volume + fed.share + load.dry() / built_of_ <= kept_.feed.room) add(load, air, fed);
    }
    return fed.share > 0.0 ? std::optional(fed) : std::nullopt;
  }

  void add(const PileContents& contents, TemperaturePoint air, Fed& fed) {
    kept_.pile.add(contents, air);
    fed.share += contents.dry() / built_of_;
    fed.mass += as_is_mass(contents.dry(), contents.water);
  }

  PileInWeather kept_;
  PileState state_;
  DryMass built_of_;
  int age_ = 0;
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

/// A pile that is followed until it is ready, or nothing more can come.
class Followed {
 public:
  Followed(PileInWeather pile, Following following) : kept_(std::move(pile)), following_(following) {
    trajectory_.days.push_back(kept_.state());
  }

  bool goes_on() const { return goes_on_ && kept_.days_left() > 0; }
  int shells() const { return kept_.pile().shells(); }

  Pile::Day begin_day() {
    const bool done =
        trajectory_.mature_day && kept_.age() >= *trajectory_.mature_day + cure;  // as it would end, were it not followed for longer
    if (const auto fed = kept_.begin_day(!done)) {
      trajectory_.fed.push_back(*fed);
      trajectory_.turf_day.reset();  // what is raw again is not ready
      trajectory_.mature_day.reset();
    }
    return kept_.day();
  }

  void end_day() {
    kept_.end_day();
    trajectory_.days.push_back(kept_.state());
    const int age = kept_.age();
    if (age - trajectory_.last_fed() >= earliest_ready) {
      if (!trajectory_.turf_day && meets(kept_.state(), turf_limits)) trajectory_.turf_day = age;
      if (!trajectory_.mature_day && meets(kept_.state(), mature_limits)) trajectory_.mature_day = age;
    }
    const bool is_done = trajectory_.mature_day && age >= std::max(following_.least_days, *trajectory_.mature_day + cure);
    const bool settled = age - trajectory_.last_fed() >= days_a_year && !kept_.takes_more();
    const bool cures = trajectory_.mature_day || (trajectory_.turf_day && age < *trajectory_.turf_day + cure);
    const bool gives_up = following_.while_it_can_get_ready && settled && !cures && !can_get_readier(trajectory_, kept_.days_left());
    goes_on_ = !is_done && !gives_up;
  }

  Trajectory trajectory() && {
    trajectory_.water_given = kept_.pile().water_given();
    trajectory_.closure = kept_.pile().closure();
    return std::move(trajectory_);
  }

 private:
  KeptPile kept_;
  Following following_;
  Trajectory trajectory_;
  bool goes_on_ = true;
};

/// A pile that is followed until its core is hot, for so many days.
class FollowedToHeat {
 public:
  FollowedToHeat(PileInWeather pile, int days) : kept_(std::move(pile)), days_(days) {}

  bool goes_on() const { return !is_hot() && kept_.age() < days_ && kept_.days_left() > 0; }
  int shells() const { return kept_.pile().shells(); }
  Pile::Day begin_day() {
    kept_.begin_day(true);
    return kept_.day();
  }
  void end_day() { kept_.end_day(); }
  std::optional<int> hot_day() const { return is_hot() ? std::optional(kept_.age()) : std::nullopt; }

 private:
  bool is_hot() const { return kept_.state().core > hot_core; }

  KeptPile kept_;
  int days_;
};

/// Those of as many shells live abreast; as one stops the next takes its lane.
template <class Kept>
void follow_all(std::vector<Kept>& piles, Steps steps, const std::function<void()>& progress) {
  std::vector<Kept*> waiting;
  for (Kept& pile : piles) waiting.push_back(&pile);
  std::stable_sort(waiting.begin(), waiting.end(), [](const Kept* one, const Kept* other) { return one->shells() < other->shells(); });
  std::vector<Kept*> abreast;
  auto next = waiting.begin();
  const auto has_place = [&] {
    return next != waiting.end() && abreast.size() < piles_abreast && (abreast.empty() || (*next)->shells() == abreast.front()->shells());
  };
  while (next != waiting.end() || !abreast.empty()) {
    while (has_place()) abreast.push_back(*next++);
    const auto stopped = std::stable_partition(abreast.begin(), abreast.end(), [](const Kept* pile) { return pile->goes_on(); });
    if (progress) std::for_each(stopped, abreast.end(), [&](const Kept*) { progress(); });
    abreast.erase(stopped, abreast.end());
    if (has_place()) continue;
    std::vector<Pile::Day> days;
    for (Kept* pile : abreast) days.push_back(pile->begin_day());
    if (!days.empty()) Pile::live_a_day(days, steps);
    for (Kept* pile : abreast) pile->end_day();
  }
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

std::vector<Trajectory> run_trajectories(std::vector<PileInWeather> piles, Following following, Steps steps,
                                         const std::function<void()>& progress) {
  std::vector<Followed> followed;
  followed.reserve(piles.size());
  for (PileInWeather& pile : piles) followed.emplace_back(std::move(pile), following);
  follow_all(followed, steps, progress);
  std::vector<Trajectory> trajectories;
  trajectories.reserve(followed.size());
  for (Followed& one : followed) trajectories.push_back(std::move(one).trajectory());
  return trajectories;
}

Trajectory run_trajectory(Pile pile, const PileFeed& feed, const PileCare& care, const DailyWeather& weather, Following following,
                          Steps steps) {
  return std::move(run_trajectories({{std::move(pile), feed, care, weather}}, following, steps).front());
}

std::vector<std::optional<int>> first_hot_days(std::vector<PileInWeather> piles, int days, Steps steps) {
  std::vector<FollowedToHeat> followed;
  followed.reserve(piles.size());
  for (PileInWeather& pile : piles) followed.emplace_back(std::move(pile), days);
  follow_all(followed, steps, {});
  std::vector<std::optional<int>> hot_days;
  for (const FollowedToHeat& one : followed) hot_days.push_back(one.hot_day());
  return hot_days;
}

std::optional<int> first_hot_day(Pile pile, const PileFeed& feed, const PileCare& care, const DailyWeather& weather, int days,
                                 Steps steps) {
  return first_hot_days({{std::move(pile), feed, care, weather}}, days, steps).front();
}

}  // namespace heapwright
