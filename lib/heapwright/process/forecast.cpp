#include "heapwright/process/forecast.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

#include "heapwright/error.hpp"
#include "heapwright/process/pile_to_build.hpp"

namespace heapwright {
namespace {

// Judged, all of them.
constexpr double airless = 0.10;
constexpr double soaked_air = 0.15;
constexpr double mostly_wood = 0.3;  // of the volatile solids left
constexpr std::size_t few_sets = 4;  // too few for a branch of their own
const MoistureWetBasis soaked_moisture = wet_basis(0.65);
// At the start; the model's rate does not fall with it.
const CarbonNitrogenRatio few_greens = carbon_to_nitrogen(40.0);
// 131 °F, what rules for composting sites ask for days on end.
const TemperaturePoint weed_killing_core = TemperaturePoint::from_celsius(55.0);

const TemperaturePoint freezing = TemperaturePoint::from_celsius(0.0);

using Trajectories = std::vector<const Trajectory*>;

template <class Figure>
Figure median_of(std::vector<Figure>& values) {
  const auto middle = values.begin() + std::ssize(values) / 2;
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

constexpr std::tuple figures_of_state{&PileState::core,
                                      &PileState::mean,
                                      &PileState::edge,
                                      &PileState::volatile_solids_loss,
                                      &PileState::moisture,
                                      &PileState::carbon_to_nitrogen,
                                      &PileState::least_carbon_to_nitrogen,
                                      &PileState::nitrogen_loss,
                                      &PileState::respiration_mean,
                                      &PileState::respiration_worst,
                                      &PileState::rotted_worst,
                                      &PileState::relative_volume,
                                      &PileState::core_oxygen,
                                      &PileState::mass,
                                      &PileState::dry,
                                      &PileState::volatile_solids,
                                      &PileState::coarse,
                                      &PileState::least_air_space};

static_assert(sizeof(PileState) == std::tuple_size_v<decltype(figures_of_state)> * sizeof(double), "a figure of the state has no median");

template <class Figure>
Figure median_figure(const Trajectories& trajectories, std::size_t day, Figure PileState::*figure) {
  std::vector<Figure> values;
  values.reserve(trajectories.size());
  for (const Trajectory* trajectory : trajectories) {
    if (day < trajectory->days.size()) values.push_back(trajectory->days[day].*figure);
  }
  return median_of(values);
}

PileState median_state(const Trajectories& trajectories, std::size_t day) {
  PileState median;
  const auto take = [&](auto... figure) { ((median.*figure = median_figure(trajectories, day, figure)), ...); };
  std::apply(take, figures_of_state);
  return median;
}

DaysOrNever days_of(const Trajectories& trajectories, std::optional<int> Trajectory::*day) {
  DaysOrNever days;
  for (const Trajectory* trajectory : trajectories) days.push_back(trajectory->*day);
  return days;
}

/// Each figure of each day in the middle of what the trajectories have, for as long as most of them go on.
Trajectory middle_trajectory(const Trajectories& trajectories) {
  std::vector<double> lengths;
  for (const Trajectory* trajectory : trajectories) lengths.push_back(static_cast<double>(trajectory->days.size()));
  Trajectory middle;
  middle.turf_day = middle_of(in_order(days_of(trajectories, &Trajectory::turf_day)));
  middle.mature_day = middle_of(in_order(days_of(trajectories, &Trajectory::mature_day)));
  // The set that is ready in the middle goes on to the end of its cure, whenever the others are let go.
  const std::optional<int> ready = middle.mature_day ? middle.mature_day : middle.turf_day;
  const std::size_t cured = ready ? static_cast<std::size_t>(*ready + cure) + 1 : 0;
  const std::size_t longest = static_cast<std::size_t>(*std::max_element(lengths.begin(), lengths.end()));
  const std::size_t length = std::min(longest, std::max(cured, static_cast<std::size_t>(median_of(lengths))));
  middle.days.reserve(length);
  for (std::size_t day = 0; day < length; ++day) middle.days.push_back(median_state(trajectories, day));
  Trajectories by_feedings = trajectories;
  std::nth_element(by_feedings.begin(), by_feedings.begin() + std::ssize(by_feedings) / 2, by_feedings.end(),
                   [](const Trajectory* one, const Trajectory* other) { return one->filled_in_all() < other->filled_in_all(); });
  middle.fed = by_feedings[by_feedings.size() / 2]->fed;
  std::vector<WaterMass> water;
  for (const Trajectory* trajectory : trajectories) water.push_back(trajectory->water_given);
  middle.water_given = median_of(water);
  return middle;
}

/// The day on which a trajectory has come as far as it comes: mature, else fit for turf, cured; else its last.
int end_of(const Trajectory& trajectory) {
  const int last = static_cast<int>(trajectory.days.size()) - 1;
  return std::min(last, trajectory.mature_day ? *trajectory.mature_day + cure : trajectory.turf_day ? *trajectory.turf_day + cure : last);
}

const PileState& end_state(const Trajectory& trajectory) { return trajectory.days[static_cast<std::size_t>(end_of(trajectory))]; }

/// All sets' trajectories, and those that are shown.
struct Sets {
  Trajectory best;
  std::vector<Trajectory> members;
  Trajectories kept;  ///< members that no log rules out
  Trajectories hot;   ///< of them those that heat in time
  Trajectories not_hot;
  int from = 0;  ///< the day from which the heating is counted
};

void sort_by_heat(Sets& sets, const std::optional<SeenHeating>& seen, HeatsOrNot& heats) {
  for (const Trajectory& trajectory : sets.members) {
    if (!seen || agrees(trajectory, sets.from, *seen)) sets.kept.push_back(&trajectory);
  }
  heats.by_its_log = seen && sets.kept.size() < sets.members.size();
  if (sets.kept.size() < std::min(few_sets, sets.members.size())) {
    sets.kept.clear();
    for (const Trajectory& trajectory : sets.members) sets.kept.push_back(&trajectory);
    heats.by_its_log = false;
    heats.log_disagrees = true;
  }
  for (const Trajectory* trajectory : sets.kept) (heats_in_time(*trajectory, sets.from) ? sets.hot : sets.not_hot).push_back(trajectory);
  const bool ever =
      std::any_of(sets.kept.begin(), sets.kept.end(), [](const Trajectory* trajectory) { return trajectory->hot_day().has_value(); });
  heats.chance = static_cast<double>(sets.hot.size()) / static_cast<double>(sets.kept.size());
  heats.heating = heating_of(heats.chance, ever);
}

ReadyWindow hot_window(const Trajectories& trajectories) {
  DaysOrNever days;
  for (const Trajectory* trajectory : trajectories) days.push_back(trajectory->hot_day());
  return middle_eight_tenths(in_order(std::move(days)));
}

/// What is mature is fit for turf. Where fewer sets get so far, the two windows are widened about different days.
void no_sooner_than(ReadyWindow& mature, const ReadyWindow& turf) {
  const auto later = [](std::optional<int> one, std::optional<int> other) { return one && other ? std::max(one, other) : std::nullopt; };
  mature.early = later(mature.early, turf.early);
  mature.late = later(mature.late, turf.late);
}

HeatingBranch branch_of(const Trajectory& trajectory, const Trajectories& trajectories) {
  HeatingBranch branch;
  branch.turf = ready_window(trajectory, trajectory.turf_day, days_of(trajectories, &Trajectory::turf_day));
  branch.mature = ready_window(trajectory, trajectory.mature_day, days_of(trajectories, &Trajectory::mature_day));
  no_sooner_than(branch.mature, branch.turf);
  return branch;
}

/// The trajectory to tell of, and the sets that it stands for.
struct Shown {
  Trajectory trajectory;
  Trajectories sets;
};

/// Where it may go two ways the likelier one, never the best set's. Else the best set's, unless it goes the other way than most.
Shown shown_of(const Sets& sets, const HeatsOrNot& heats) {
  if (heats.is_open()) {
    const Trajectories& likelier = heats.is_likely() ? sets.hot : sets.not_hot;
    return {middle_trajectory(likelier), likelier};
  }
  const bool as_most = heats_in_time(sets.best, sets.from) == (heats.heating == Heating::will);
  return {as_most ? sets.best : middle_trajectory(sets.kept), sets.kept};
}

void take_branches(Forecast& result, const Sets& sets, const Shown& shown) {
  HeatsOrNot& heats = result.heats;
  if (heats.is_open()) {
    const bool shows_heat = heats.is_likely();
    const Trajectory other = middle_trajectory(shows_heat ? sets.not_hot : sets.hot);
    heats.if_it_heats = branch_of(shows_heat ? shown.trajectory : other, sets.hot);
    heats.if_it_heats->hot_from = hot_window(sets.hot);
    heats.if_not = branch_of(shows_heat ? other : shown.trajectory, sets.not_hot);
    heats.if_not->hot_from = hot_window(sets.not_hot);
    return;
  }
  HeatingBranch branch = branch_of(shown.trajectory, shown.sets);
  result.turf = branch.turf;
  result.mature = branch.mature;
  branch.hot_from = hot_window(heats.heating == Heating::will ? sets.hot : sets.not_hot);
  branch.hot_from.likely = shown.trajectory.hot_day();  // as its days are shown
  (heats.heating == Heating::will ? heats.if_it_heats : heats.if_not) = branch;
}

/// Which of the limits is met last; of what is not met, which it is. None where nothing but the least age stood against it.
std::optional<Criterion> binding_of(const Trajectory& trajectory, std::optional<int> day, const ReadyLimits& limits) {
  const PileState& before = day ? trajectory.days[static_cast<std::size_t>(std::max(0, *day - 1))] : trajectory.days.back();
  if (before.respiration_worst > limits.respiration) return Criterion::respiration;
  if (before.carbon_to_nitrogen > limits.carbon_to_nitrogen) return Criterion::carbon_to_nitrogen;
  return before.rotted_worst < limits.rotted ? std::optional(Criterion::rotted) : std::nullopt;
}

std::optional<Criterion> binding_of(const Trajectory& trajectory, ForecastStatus status) {
  if (status == ForecastStatus::never) return binding_of(trajectory, std::nullopt, turf_limits);
  return binding_of(trajectory, trajectory.mature_day, mature_limits);
}

/// As far as either way leads.
ForecastStatus better_of(const HeatingBranch& one, const HeatingBranch& other) {
  if (one.mature.likely || other.mature.likely) return ForecastStatus::mature;
  return one.turf.likely || other.turf.likely ? ForecastStatus::turf_only : ForecastStatus::never;
}

/// As far as what is shown comes; of a pile that may go two ways never only where neither gets there.
ForecastStatus status_of(const Trajectory& trajectory, const HeatsOrNot& heats) {
  const auto in_time = [](std::optional<int> day) { return day && *day + cure <= horizon; };
  if (in_time(trajectory.mature_day)) return ForecastStatus::mature;
  if (in_time(trajectory.turf_day)) return ForecastStatus::turf_only;
  return heats.is_open() ? better_of(*heats.if_it_heats, *heats.if_not) : ForecastStatus::never;
}

ForecastNote why_never(const Trajectory& trajectory, const DailyWeather& weather) {
  const PileState& end = trajectory.days.back();
  const auto is_warm = [](const DayOfWeather& day) { return day.air >= warm_enough; };
  if (end.coarse > mostly_wood * end.volatile_solids) return ForecastNote::too_woody;
  if (end.moisture < dry_moisture) return ForecastNote::too_dry;
  if (end.least_air_space < airless) return ForecastNote::too_wet;
  if (std::none_of(weather.begin(), weather.end(), is_warm)) return ForecastNote::too_cold;
  if (end.respiration_worst <= turf_limits.respiration) return ForecastNote::too_little_nitrogen;
  return ForecastNote::too_slow;
}

/// What any pile may do on its way.
std::vector<ForecastNote> notes_on(const std::vector<DayOfForecast>& days, Heating heating) {
  TemperaturePoint hottest = days.front().state.core;
  MoistureWetBasis driest = days.front().state.moisture;
  bool frozen = false;
  for (const DayOfForecast& day : days) {
    hottest = std::max(hottest, day.state.core);
    driest = std::min(driest, day.state.moisture);
    frozen = frozen || day.state.core <= freezing;
  }
  std::vector<ForecastNote> notes;
  const auto say = [&](bool holds, ForecastNote note) {
    if (holds) notes.push_back(note);
  };
  const bool may_heat = heating == Heating::may;
  const bool heats = may_heat || hottest > hot_core;
  say(!heats, ForecastNote::hardly_heats);
  say(heats && (may_heat || hottest < weed_killing_core), ForecastNote::weed_seeds_live);
  say(days.front().state.carbon_to_nitrogen >= few_greens, ForecastNote::few_greens);
  say(frozen, ForecastNote::freezes);
  say(driest < dry_moisture, ForecastNote::dries);
  const PileState& end = days.back().state;
  say(end.least_air_space < soaked_air || end.moisture > soaked_moisture, ForecastNote::gets_wet);
  return notes;
}

bool is_small_vessel(const PileToBuild& pile, Volume volume) {
  if (!pile.pile || volume > small_vessel) return false;
  const PileShape shape = pile.pile->shape;
  return shape == PileShape::tumbler || shape == PileShape::bin || shape == PileShape::round;
}

/// How far its temperatures can be trusted.
std::vector<ForecastNote> notes_on_trust(const PileToBuild& pile, Volume volume) {
  std::vector<ForecastNote> notes;
  if (is_small_vessel(pile, volume)) notes.push_back(ForecastNote::in_small_vessel);
  if (volume > big_pile) notes.push_back(ForecastNote::too_big);
  if (pile.pile && pile.pile->shape == PileShape::windrow) notes.push_back(ForecastNote::windrow);
  return notes;
}

/// The days of a trajectory, each with what most of its sets have for the core, no nearer than the forecast's width. Where the first of the
/// sets ends the band goes on as wide as it was.
std::vector<DayOfForecast> days_with_bands(const Shown& shown, const DailyWeather& weather, TemperatureDifference below) {
  const Trajectory& trajectory = shown.trajectory;
  const std::size_t last =
      static_cast<std::size_t>(trajectory.mature_day ? end_of(trajectory) : static_cast<int>(trajectory.days.size()) - 1);
  std::size_t all_go_to = last;
  for (const Trajectory* set : shown.sets) all_go_to = std::min(all_go_to, set->days.size() - 1);
  std::vector<DayOfForecast> days;
  std::vector<TemperaturePoint> cores(shown.sets.size(), freezing);
  TemperatureDifference above = forecast_width.core;
  TemperatureDifference under = below;
  for (std::size_t day = 0; day <= last; ++day) {
    const PileState& state = trajectory.days[day];
    if (day <= all_go_to) {
      std::transform(shown.sets.begin(), shown.sets.end(), cores.begin(), [&](const Trajectory* set) { return set->days[day].core; });
      const Band<TemperaturePoint> band = eight_of_ten(cores);
      above = std::max(forecast_width.core, band.high - state.core);
      under = std::max(below, state.core - band.low);
    }
    days.push_back({state, weather[std::min(day, weather.size() - 1)].air, state.core - under, state.core + above});
  }
  return days;
}

/// All that went in, as it was.
Mass put_in(const PileToBuild& pile, const Trajectory& trajectory) {
  Mass all = pile.share * pile.mix.mass;
  for (const Fed& fed : trajectory.fed) all += fed.mass;
  return all;
}

Finished finished_of(const PileToBuild& pile, const Shown& shown, double filled, const YieldRule& rule) {
  const PileState& end = end_state(shown.trajectory);
  std::vector<double> losses;
  std::vector<DryMass> passing;
  for (const Trajectory* trajectory : shown.sets) {
    losses.push_back(end_state(*trajectory).volatile_solids_loss);
    passing.push_back(end_state(*trajectory).dry - as_dry_mass(end_state(*trajectory).coarse));
  }
  const Band<double> lost = eight_of_ten(std::move(losses));
  const Band<DryMass> passes = eight_of_ten(std::move(passing));
  // No drier than it is: a pile that rain soaked is spread drier, one that stands dry is not wetted first.
  const MoistureWetBasis moisture = std::min(end.moisture, *rule.moisture_at_use.typical);
  const Mass lies = as_is_mass_of(end.dry, moisture);
  Finished finished;
  finished.mass = lies;
  finished.mass_loss = 1.0 - lies / put_in(pile, shown.trajectory);
  finished.moisture = moisture;
  finished.is_ready = shown.trajectory.turf_day.has_value();
  finished.volume_loss = 1.0 - end.relative_volume / filled;
  finished.volatile_solids_loss = end.volatile_solids_loss;
  finished.volatile_solids_loss_low = std::max(0.0, std::min(lost.low, end.volatile_solids_loss - forecast_width.volatile_solids));
  finished.volatile_solids_loss_high = std::min(1.0, std::max(lost.high, end.volatile_solids_loss + forecast_width.volatile_solids));
  finished.nitrogen_loss = end.nitrogen_loss;
  finished.carbon_to_nitrogen = end.carbon_to_nitrogen;
  finished.coarse = end.coarse;
  finished.ash = ash_mass(end.dry, end.volatile_solids);
  finished.organic_in = end.volatile_solids / (1.0 - end.volatile_solids_loss);
  finished.left = compost_left(end.dry, end.volatile_solids, end.coarse, *rule.held_back_by_screen.typical, rule);
  finished.screened = yield_about(finished.left.volume, spread_between(passes.low, passes.high), rule);
  return finished;
}

/// The first day from which it stays warm enough to start: that day and the week after it.
std::optional<int> first_warm_day(const DailyWeather& weather) {
  constexpr int all_seasons = 366;
  int warm = 0;
  for (int day = 0; day < std::min(all_seasons, static_cast<int>(weather.size())); ++day) {
    warm = weather[static_cast<std::size_t>(day)].air >= warm_enough ? warm + 1 : 0;
    if (warm == 7) return day - 6;
  }
  return std::nullopt;
}

Instead instead_of(const Trajectory& trajectory, int begun) {
  const auto counted = [&](std::optional<int> day) { return day ? std::optional<int>(begun + *day + cure) : std::nullopt; };
  return {counted(trajectory.turf_day), counted(trajectory.mature_day)};
}

/// A pile that is unlikely to heat where it is built too cold: when it is ready if it is built in warmth.
void try_in_warmth(Forecast& result, const PileToBuild& pile, const PileModel& model, const Weather& weather,
                   const ProcessEnsemble& ensemble) {
  if (result.heats.is_likely()) return;
  const std::optional<int> day = first_warm_day(days_from(weather, pile.built, horizon));
  if (!day || *day == 0) return;
  result.warm_enough = date_of(result, *day);
  const DailyWeather from_then = days_from(weather, *result.warm_enough, horizon);
  result.built_in_warmth = instead_of(model.trajectory(ensemble.best, from_then, {}), *day);
}

Sets run_sets(const PileModel& model, const DailyWeather& days, const ProcessEnsemble& ensemble, const Progress& progress) {
  const int count = static_cast<int>(ensemble.members.size()) + 1;
  const auto tell = [&](int done) {
    if (progress) progress(done, count);
  };
  Sets sets;
  sets.best = model.trajectory(ensemble.best, days, {});
  sets.from = counted_from(sets.best);
  tell(1);
  const Following as_long_as_best{static_cast<int>(sets.best.days.size()) - 1, true};
  int done = 1;
  sets.members = model.trajectories(ensemble.members, days, as_long_as_best, [&] { tell(++done); });
  return sets;
}

void take_peak(Forecast& result) {
  const auto is_cooler = [](const DayOfForecast& one, const DayOfForecast& other) { return one.state.core < other.state.core; };
  const auto hottest = std::max_element(result.days.begin(), result.days.end(), is_cooler);
  result.peak_core = hottest->state.core;
  result.peak_day = static_cast<int>(hottest - result.days.begin());
}

std::vector<ForecastNote> notes_of(const Forecast& result, const Trajectory& trajectory, const PileToBuild& pile,
                                   const DailyWeather& days) {
  std::vector<ForecastNote> notes;
  const auto take = [&](const std::vector<ForecastNote>& more) { notes.insert(notes.end(), more.begin(), more.end()); };
  if (result.status == ForecastStatus::never) notes.push_back(why_never(trajectory, days));
  if (days.front().air <= freezing) notes.push_back(ForecastNote::cold_start);
  if (result.heats.is_open())
    notes.push_back(result.heats.is_likely() ? ForecastNote::core_of_those_that_heat : ForecastNote::core_of_those_that_do_not);
  take(notes_on(result.days, result.heats.heating));
  take(notes_on_trust(pile, result.volume));
  return notes;
}

}  // namespace

std::string_view status_word(ForecastStatus status) {
  switch (status) {
    case ForecastStatus::mature: return "mature";
    case ForecastStatus::turf_only: return "ready-for-turf";
    case ForecastStatus::never: return "never";
  }
  return {};
}

std::string_view criterion_word(Criterion criterion) {
  switch (criterion) {
    case Criterion::respiration: return "respiration";
    case Criterion::carbon_to_nitrogen: return "carbon-to-nitrogen";
    case Criterion::rotted: return "rotted";
  }
  return {};
}

std::string_view note_word(ForecastNote note) {
  switch (note) {
    case ForecastNote::too_dry: return "too-dry";
    case ForecastNote::too_wet: return "too-wet";
    case ForecastNote::too_little_nitrogen: return "too-little-nitrogen";
    case ForecastNote::too_woody: return "too-woody";
    case ForecastNote::too_cold: return "too-cold";
    case ForecastNote::too_slow: return "too-slow";
    case ForecastNote::cold_start: return "cold-start";
    case ForecastNote::core_of_those_that_heat: return "core-of-those-that-heat";
    case ForecastNote::core_of_those_that_do_not: return "core-of-those-that-do-not";
    case ForecastNote::hardly_heats: return "hardly-heats";
    case ForecastNote::weed_seeds_live: return "weed-seeds-live";
    case ForecastNote::few_greens: return "few-greens";
    case ForecastNote::freezes: return "freezes";
    case ForecastNote::gets_wet: return "gets-wet";
    case ForecastNote::dries: return "dries";
    case ForecastNote::in_small_vessel: return "small-vessel";
    case ForecastNote::too_big: return "big-pile";
    case ForecastNote::windrow: return "windrow";
  }
  return {};
}

Forecast forecast(const PileToBuild& pile, const Weather& weather, const Materials& materials, const ProcessEnsemble& ensemble,
                  const std::optional<SeenHeating>& seen, const Progress& progress) {
  if (ensemble.members.empty()) throw DomainError("a forecast is as wide as its sets differ, and needs some");
  const PileModel model(pile, materials, ensemble);
  const DailyWeather days = days_from(weather, pile.built, horizon);
  Sets sets = run_sets(model, days, ensemble, progress);
  Forecast result;
  result.built = pile.built;
  result.volume = model.shape(ensemble.best).volume;
  sort_by_heat(sets, seen, result.heats);
  result.heats.counted_from = sets.from;
  const Shown shown = shown_of(sets, result.heats);
  take_branches(result, sets, shown);
  result.status = status_of(shown.trajectory, result.heats);
  result.binding = binding_of(shown.trajectory, result.status);
  const bool comes_out_hot = is_small_vessel(pile, result.volume);
  result.days = days_with_bands(shown, days, comes_out_hot ? forecast_width.core + forecast_width.too_hot : forecast_width.core);
  take_peak(result);
  result.times_fed = static_cast<int>(shown.trajectory.fed.size());
  result.last_fed = shown.trajectory.last_fed();
  result.filled_in_all = shown.trajectory.filled_in_all();
  result.finished = finished_of(pile, shown, result.filled_in_all, *materials.yield);
  result.water_given = shown.trajectory.water_given;
  if (!seen && !pile.stands) {  // what is logged is built
    result.heats.what_would_tip = what_would_tip(pile, weather, materials, ensemble, result.heats.chance, sets.from + days_to_heat);
    try_in_warmth(result, pile, model, weather, ensemble);
  }
  result.notes = notes_of(result, shown.trajectory, pile, days);
  if (!pile.care.wet_to && (says(result, ForecastNote::too_dry) || says(result, ForecastNote::dries)))
    result.watered = instead_of(model.trajectory(ensemble.best, days, {}, pile.care.watering), 0);
  return result;
}

bool says(const Forecast& forecast, ForecastNote note) {
  return std::find(forecast.notes.begin(), forecast.notes.end(), note) != forecast.notes.end();
}

Date date_of(const Forecast& forecast, int day) { return Date(std::chrono::sys_days(forecast.built) + std::chrono::days(day)); }

}  // namespace heapwright
