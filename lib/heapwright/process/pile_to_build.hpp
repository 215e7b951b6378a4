#pragma once
/// A pile to be forecast, and its trajectory by one set of parameters.

#include <optional>
#include <vector>

#include "heapwright/pile/description.hpp"
#include "heapwright/process/settled.hpp"
#include "heapwright/process/trajectory.hpp"

namespace heapwright {

/// More that goes in, on a day after the first.
struct LaterLoad {
  int day = 0;
  Mix mix;
};

/// What is known of a pile before it is followed.
struct PileToBuild {
  Mix mix;
  double share = 1.0;                   ///< of the mix that it is filled with at first
  std::optional<PileDescription> pile;  ///< what it lies in or as; a free pile where absent
  PileCare care;
  std::optional<Volume> room{};  ///< that it may take up while it is fed; without a limit where absent
  Date built;
  double rate = 1.0;               ///< how fast it rots over what the sets say, as a log of it may show (rate.hpp)
  double packed = 1.0;             ///< how dense it lies over what the sets say
  std::vector<LaterLoad> loads{};  ///< in the order of their days; with a room what does not fit is left out
  bool stands = false;             ///< so that nothing of how it is built can be changed
};

/// A pile with what every set needs of it.
class PileModel {
 public:
  /// All three must outlive it, unchanged. @throws DomainError for a mix without dry matter
  PileModel(const PileToBuild& pile, const Materials& materials, const ProcessEnsemble& ensemble);

  /// By one set in the weather of a year that is as much warmer as the set says, begun as warm as the air of its first day.
  /// @param weather of the mean year, from the day it is built
  /// @throws DomainError without weather, and as Pile and run_trajectory() do
  Trajectory trajectory(const ProcessParameters& set, const DailyWeather& weather, Following following) const;
  /// The same with other watering than the pile's.
  Trajectory trajectory(const ProcessParameters& set, const DailyWeather& weather, Following following,
                        std::optional<MoistureWetBasis> wet_to) const;
  /// By each of some sets. @param progress told of each as it stops
  std::vector<Trajectory> trajectories(const std::vector<ProcessParameters>& sets, const DailyWeather& weather, Following following,
                                       const std::function<void()>& progress = {}) const;
  /// As first_hot_days(), by each of some sets.
  std::vector<std::optional<int>> first_hot_days(const std::vector<ProcessParameters>& sets, const DailyWeather& weather, int days) const;

  /// As it lies at first by one set. Below smallest_pile it cannot be forecast.
  SettledShape shape(const ProcessParameters& set) const;

 private:
  PileInWeather start(const ProcessParameters& set, const DailyWeather& weather) const;
  std::vector<PileInWeather> start(const std::vector<ProcessParameters>& sets, const DailyWeather& weather) const;
  PileContents contents_of_load(const Mix& mix, const ProcessParameters& set) const;

  const PileToBuild& pile_;
  const Materials& materials_;
  const ProcessEnsemble& ensemble_;
  SettledDensity density_;
};

}  // namespace heapwright
