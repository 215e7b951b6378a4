#pragma once
/// A pile from day to day, as it is kept: until it is ready, or does not get there.

#include <functional>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

#include "heapwright/process/pile.hpp"
#include "heapwright/process/weather.hpp"

namespace heapwright {

/// More, from time to time, as long as it fits in.
struct Feeding {
  double share = 0.0;  ///< by dry matter, of what was built
  int every = 7;       ///< days
  int times = 0;
  double room = 0.0;  ///< over the volume built
};

/// So much on one day.
struct DatedContents {
  int day = 0;
  PileContents contents;
};

/// What a pile gets after it is built.
struct PileFeed {
  // NOLINTNEXTLINE(google-explicit-constructor): most piles are fed with what they are built of, and get no loads
  PileFeed(const PileContents& same, std::vector<DatedContents> on_their_days = {},
           double has_room = std::numeric_limits<double>::infinity())
      : usual(same), loads(std::move(on_their_days)), room(has_room) {}

  PileContents usual;                ///< times the share of its feeding
  std::vector<DatedContents> loads;  ///< in the order of their days; one that does not fit in is left out; water alone restarts no clock
  double room;                       ///< for loads, over the volume built
};

inline constexpr double usual_watering = 0.55;  ///< moisture to water to, the middle of what works

/// What was done to a pile on its first days, in the place of habits.
struct NotedCare {
  int until = -1;            ///< the last day of which it is known; −1: none
  std::vector<int> turned;   ///< days, in their order
  std::vector<int> watered;  ///< days, in their order
};

/// What is done to a pile, and how much of the rain it gets.
struct PileCare {
  std::optional<int> turn_every;           ///< days; never where absent
  std::optional<MoistureWetBasis> wet_to;  ///< at each turning; where it is never turned each watering_every days, as it lies
  double share_of_rain = 0.0;              ///< that it takes up (rain.hpp)
  std::optional<Feeding> feeding;
  NotedCare noted{};
  MoistureWetBasis watering = wet_basis(usual_watering);  ///< what it is wetted to where it was noted, or would be
};
inline const MoistureWetBasis dry_moisture = wet_basis(0.40);  ///< below this rotting is less than half as fast as in moist matter
inline constexpr int watering_every = 14;                      ///< days; common practice, no source

/// In frost a pile is left alone, unless it works: on days whose mean is below the first, while its core is below the second. Judged.
inline const TemperaturePoint frost = TemperaturePoint::from_celsius(2.0);
inline const TemperaturePoint working_core = TemperaturePoint::from_celsius(20.0);

/// What a pile must have come to.
struct ReadyLimits {
  RespirationRate respiration;             ///< at most, of the rawest shell
  CarbonNitrogenRatio carbon_to_nitrogen;  ///< at most, of what passes a screen
  double rotted;                           ///< share of what rots, at least, of the rawest shell; judged
};
/// Caltrans and Minnesota take 8 mg CO2-C per g organic matter and day on turf, Penn State a C:N of 30 (criteria.toml names them).
inline const ReadyLimits turf_limits{8.0 * mg_carbon_per_g_and_day, carbon_to_nitrogen(30.0), 0.60};
/// 4 mg and 25: the middle rating of a maturity index, from memory; 25 also keeps soil from being robbed of nitrogen.
inline const ReadyLimits mature_limits{4.0 * mg_carbon_per_g_and_day, carbon_to_nitrogen(25.0), 0.80};

inline constexpr int earliest_ready = 14;  ///< days after something raw went in; nothing is called stable before
inline constexpr int cure = 21;            ///< days; at least three weeks (a town's yard guide; Canada's 2005 guideline, from memory)

/// Whether all three are kept.
bool meets(const PileState& state, const ReadyLimits& limits);

/// A core above this counts as having got hot: 113 °F, a mean of a day. Judged, and above `heated` of a log (40 °C at any one reading), so
/// that a warm afternoon is no hot pile.
inline const TemperaturePoint hot_core = TemperaturePoint::from_celsius(45.0);

/// What went in on a day after the first.
struct Fed {
  int day = 0;
  double share = 0.0;  ///< by dry matter, of what was built
  Mass mass;
};

/// The days of a pile.
struct Trajectory {
  std::vector<PileState> days;    ///< at the start of each, day 0 first
  std::optional<int> turf_day;    ///< when the limits are first met; the cure comes on top
  std::optional<int> mature_day;  ///< never before turf_day
  std::vector<Fed> fed;           ///< in the order of the days
  WaterMass water_given;
  Closure closure;

  /// The day of the last that went in.
  int last_fed() const { return fed.empty() ? 0 : fed.back().day; }
  /// All that went in, over what it was built of, by dry matter: 1 + Σ shares.
  double filled_in_all() const;
  /// The first day on which the core is hot.
  std::optional<int> hot_day() const;
};

/// How long a pile is followed.
struct Following {
  int least_days = 0;
  bool while_it_can_get_ready = false;  ///< else to where the weather ends, though it cannot any more
};

/// A pile to be followed, what it gets, and in what weather.
struct PileInWeather {
  Pile pile;
  PileFeed feed;
  PileCare care;
  const DailyWeather& weather;
  TemperatureDifference warmer{};  ///< than the weather its air is
};

/// Runs piles through the weather, several abreast. Each stops once it is mature, cured, and at
/// least least_days old, and where the weather ends. Where asked to, it stops as well from a year on where nothing more can come: its C:N
/// cannot come down to what is asked for, or what it lacks is more than it would gain in the days left at the pace of the last year, from
/// which rotting slows down.
/// @param progress told of each pile as it stops @return a trajectory of each, in their order
/// @throws DomainError where one would be turned or fed more often than daily, and as Pile does
std::vector<Trajectory> run_trajectories(std::vector<PileInWeather> piles, Following following, Steps steps,
                                         const std::function<void()>& progress = {});
/// Of one.
Trajectory run_trajectory(Pile pile, const PileFeed& feed, const PileCare& care, const DailyWeather& weather, Following following,
                          Steps steps);

/// The first day on which each pile's core is hot, of so many; nothing where it is on none. As run_trajectories(), and no longer than
/// needed.
std::vector<std::optional<int>> first_hot_days(std::vector<PileInWeather> piles, int days, Steps steps);
std::optional<int> first_hot_day(Pile pile, const PileFeed& feed, const PileCare& care, const DailyWeather& weather, int days, Steps steps);

}  // namespace heapwright
