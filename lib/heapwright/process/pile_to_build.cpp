#include "heapwright/process/pile_to_build.hpp"

#include "heapwright/error.hpp"

namespace heapwright {

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

PileInWeather PileModel::start(const ProcessParameters& set, const DailyWeather& weather) const {
  if (weather.empty()) throw DomainError("a pile's trajectory needs the weather");
  const TemperatureDifference warmer = set.dT * unit::kelvin;
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
  return {Pile(at_rate, contents, as_built, weather.front().air + warmer), std::move(feed), care, weather, warmer};
}

std::vector<PileInWeather> PileModel::start(const std::vector<ProcessParameters>& sets, const DailyWeather& weather) const {
  std::vector<PileInWeather> piles;
  piles.reserve(sets.size());
  for (const ProcessParameters& set : sets) piles.push_back(start(set, weather));
  return piles;
}

Trajectory PileModel::trajectory(const ProcessParameters& set, const DailyWeather& weather, Following following) const {
  return trajectory(set, weather, following, pile_.care.wet_to);
}

Trajectory PileModel::trajectory(const ProcessParameters& set, const DailyWeather& weather, Following following,
                                 std::optional<MoistureWetBasis> wet_to) const {
  std::vector<PileInWeather> pile;
  pile.push_back(start(set, weather));
  pile.front().care.wet_to = wet_to;
  return std::move(run_trajectories(std::move(pile), following, hourly_steps).front());
}

std::vector<Trajectory> PileModel::trajectories(const std::vector<ProcessParameters>& sets, const DailyWeather& weather,
                                                Following following, const std::function<void()>& progress) const {
  return run_trajectories(start(sets, weather), following, hourly_steps, progress);
}

std::vector<std::optional<int>> PileModel::first_hot_days(const std::vector<ProcessParameters>& sets, const DailyWeather& weather,
                                                          int days) const {
  return heapwright::first_hot_days(start(sets, weather), days, hourly_steps);
}

}  // namespace heapwright
