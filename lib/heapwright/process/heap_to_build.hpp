#pragma once
/// A heap to be forecast, and its course by one set of parameters.

#include <optional>

#include "heapwright/heap/description.hpp"
#include "heapwright/process/course.hpp"
#include "heapwright/process/settled.hpp"

namespace heapwright {

struct HeapToBuild {
  Mix mix;
  double share = 1.0;                   ///< of the mix that it is filled with at first
  std::optional<HeapDescription> heap;  ///< what it lies in or as; a free heap where absent
  HeapCare care;
  std::optional<Volume> room{};  ///< that it may take up while it is fed; without a limit where absent
  Date built;
  double rate = 1.0;             ///< how fast it rots over what the sets say, as a log of it may show (rate.hpp)
  double packed = 1.0;           ///< how dense it lies over what the sets say
  std::optional<Mix> fed_mix{};  ///< what it is fed with; the mix it was built of where absent
};

/// A heap with what every set needs of it.
class HeapModel {
 public:
  /// All three must outlive it, unchanged. @throws DomainError for a mix without dry matter
  HeapModel(const HeapToBuild& heap, const Materials& materials, const ProcessEnsemble& ensemble);

  /// By one set in the weather of a year that is as much warmer as the set says, begun as warm as the air of its first day.
  /// @param weather of the mean year, from the day it is built
  Course course(const ProcessParameters& set, const DailyWeather& weather, Following following) const;
  /// The same with other watering than the heap's.
  Course course(const ProcessParameters& set, const DailyWeather& weather, Following following,
                std::optional<MoistureWetBasis> wet_to) const;
  /// As first_hot_day().
  std::optional<int> first_hot_day(const ProcessParameters& set, const DailyWeather& weather, int days) const;

  /// As it lies at first by one set. Below smallest_pile it cannot be forecast.
  PileShape shape(const ProcessParameters& set) const;

 private:
  struct Start;
  Start start(const ProcessParameters& set, const DailyWeather& weather) const;

  const HeapToBuild& heap_;
  const Materials& materials_;
  const ProcessEnsemble& ensemble_;
  SettledDensity density_;
};

}  // namespace heapwright
