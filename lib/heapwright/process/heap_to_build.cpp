#include "heapwright/process/heap_to_build.hpp"

#include "heapwright/error.hpp"

namespace heapwright {

/// What a course begins with.
struct HeapModel::Start {
  HeapContents fed;  ///< as much dry matter as it was built of
  Pile pile;
  HeapCare care;
  DailyWeather weather;
};

HeapModel::HeapModel(const HeapToBuild& heap, const Materials& materials, const ProcessEnsemble& ensemble)
    : heap_(heap), materials_(materials), ensemble_(ensemble) {
  if (!(heap.mix.dry.value() > 0.0)) throw DomainError("a heap is made of some dry matter");
  density_ = settled_density_of(heap.mix, materials, ensemble, heap.heap ? heap.heap->weighed : std::nullopt);
}

PileShape HeapModel::shape(const ProcessParameters& set) const {
  const double factor = density_.weighed ? heap_.packed : heap_.packed * set.rho_f;
  return settled_shape(heap_.share * heap_.mix.dry, density_, factor, heap_.heap);
}

HeapModel::Start HeapModel::start(const ProcessParameters& set, const DailyWeather& weather) const {
  if (weather.empty()) throw DomainError("a heap's course needs the weather");
  DailyWeather of_set = weather;
  for (DayOfWeather& day : of_set) day.air = day.air + set.dT * unit::kelvin;
  ProcessParameters at_rate = set;
  at_rate.kF *= heap_.rate;
  at_rate.kS *= heap_.rate;
  at_rate.kap /= heap_.rate;  // a laboratory tests the same matter, in its own warmth and moisture
  const HeapContents contents = heap_.share * contents_of(heap_.mix, materials_, ensemble_, set);
  HeapContents fed = contents;
  if (heap_.fed_mix) {
    const HeapContents week = contents_of(*heap_.fed_mix, materials_, ensemble_, set);
    fed = (contents.dry() / week.dry()).value() * week;
  }
  const PileShape as_built = shape(set);
  HeapCare care = heap_.care;
  care.share_of_rain *= set.rain_f;
  if (care.feeding && heap_.room) care.feeding->room = (*heap_.room / as_built.volume).value();
  const TemperaturePoint first = of_set.front().air;
  return {fed, Pile(at_rate, contents, as_built, first), care, std::move(of_set)};
}

Course HeapModel::course(const ProcessParameters& set, const DailyWeather& weather, Following following) const {
  return course(set, weather, following, heap_.care.wet_to);
}

Course HeapModel::course(const ProcessParameters& set, const DailyWeather& weather, Following following,
                         std::optional<MoistureWetBasis> wet_to) const {
  Start begun = start(set, weather);
  begun.care.wet_to = wet_to;
  return run_course(std::move(begun.pile), begun.fed, begun.care, begun.weather, following, hourly_steps);
}

std::optional<int> HeapModel::first_hot_day(const ProcessParameters& set, const DailyWeather& weather, int days) const {
  const Start begun = start(set, weather);
  return heapwright::first_hot_day(begun.pile, begun.fed, begun.care, begun.weather, days, hourly_steps);
}

}  // namespace heapwright
