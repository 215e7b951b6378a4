#include "heapwright/process/pile_to_build.hpp"

#include "heapwright/error.hpp"

namespace heapwright {

/// What a trajectory begins with.
struct PileModel::Start {
  PileFeed feed;
  Pile pile;
  PileCare care;
  DailyWeather weather;
};

PileModel::PileModel(const PileToBuild& pile, const Materials& materials, const ProcessEnsemble& ensemble)
    : pile_(pile), materials_(materials), ensemble_(ensemble) {
  if (!is_positive(pile.mix.dry)) throw DomainError("a pile is made of some dry matter");
  density_ = settled_density_of(pile.mix, materials, ensemble, pile.pile ? pile.pile->weighed : std::nullopt);
}

SettledShape PileModel::shape(const ProcessParameters& set) const {
  const double factor = density_.weighed ? pile_.packed : pile_.packed * set.rho_f;
  return settled_shape(pile_.share * pile_.mix.dry, density_, factor, pile_.pile);
}

PileContents PileModel::contents_of_load(const Mix& mix, const ProcessParameters& set) const {
  if (is_positive(mix.dry)) return contents_of(mix, materials_, ensemble_, set);
  PileContents water_alone;
  water_alone.water = mix.water;
  return water_alone;
}

PileModel::Start PileModel::start(const ProcessParameters& set, const DailyWeather& weather) const {
  if (weather.empty()) throw DomainError("a pile's trajectory needs the weather");
  DailyWeather of_set = weather;
  for (DayOfWeather& day : of_set) day.air = day.air + set.dT * unit::kelvin;
  ProcessParameters at_rate = set;
  at_rate.kF *= pile_.rate;
  at_rate.kS *= pile_.rate;
  at_rate.kap /= pile_.rate;  // a laboratory tests the same matter, in its own warmth and moisture
  const PileContents contents = pile_.share * contents_of(pile_.mix, materials_, ensemble_, set);
  const SettledShape as_built = shape(set);
  PileFeed feed(contents);
  for (const LaterLoad& load : pile_.loads) feed.loads.push_back({load.day, contents_of_load(load.mix, set)});
  PileCare care = pile_.care;
  care.share_of_rain *= set.rain_f;
  if (pile_.room) feed.room = *pile_.room / as_built.volume;
  if (care.feeding) care.feeding->room = feed.room;
  const TemperaturePoint first = of_set.front().air;
  return {std::move(feed), Pile(at_rate, contents, as_built, first), care, std::move(of_set)};
}

Trajectory PileModel::trajectory(const ProcessParameters& set, const DailyWeather& weather, Following following) const {
  return trajectory(set, weather, following, pile_.care.wet_to);
}

Trajectory PileModel::trajectory(const ProcessParameters& set, const DailyWeather& weather, Following following,
                                 std::optional<MoistureWetBasis> wet_to) const {
  Start begun = start(set, weather);
  begun.care.wet_to = wet_to;
  return run_trajectory(std::move(begun.pile), begun.feed, begun.care, begun.weather, following, hourly_steps);
}

std::optional<int> PileModel::first_hot_day(const ProcessParameters& set, const DailyWeather& weather, int days) const {
  const Start begun = start(set, weather);
  return heapwright::first_hot_day(begun.pile, begun.feed, begun.care, begun.weather, days, hourly_steps);
}

}  // namespace heapwright
