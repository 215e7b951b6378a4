#include "heapwright/process/forecast.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

// Judged, all of them.
constexpr double airless = 0.10;
constexpr double soaked_air = 0.15;
constexpr double soaked_moisture = 0.65;
constexpr double warm_core_degc = 40.0;
constexpr double weed_killing_degc = 55.0;  // 131 °F, what rules for composting sites ask for days on end
constexpr double working_degc = 10.0;
constexpr double few_greens = 40.0;  // C:N at the start; the model's rate does not fall with it

// Heaps built below 5 °C heat or wait for spring by chance; up to 10 °C a warmer start may still make the difference. A quarter longer is
// what counts as one.
constexpr double cold_start_degc = 5.0;
constexpr double sure_start_degc = 10.0;
constexpr double warm_start_degc = 15.0;
constexpr double start_matters = 1.25;

struct Model {
  const HeapToBuild& heap;
  const Materials& materials;
  const ProcessEnsemble& ensemble;
};

struct Start {
  TemperaturePoint temperature;
  std::optional<MoistureWetBasis> wet_to;
};

ProcessParameters at_rate(ProcessParameters set, double rate) {
  set.kF *= rate;
  set.kS *= rate;
  return set;
}

Course course_of(const Model& model, const ProcessParameters& set, const DailyAir& air, const Start& start, int least_days) {
  const HeapContents contents = model.heap.share * contents_of(model.heap.mix, model.materials, model.ensemble, set);
  HeapCare care = model.heap.care;
  care.wet_to = start.wet_to;
  const Pile pile(at_rate(set, model.heap.rate), contents, model.heap.shape, start.temperature);
  return run_course(pile, contents, care, air, least_days, hourly_steps);
}

DailyAir followed_from(const DailyAir& air, int day) {
  return {air.begin() + day, air.begin() + std::min<std::ptrdiff_t>(std::ssize(air), day + horizon)};
}

std::optional<int> cured(std::optional<int> day) { return day ? std::optional<int>(*day + cure) : std::nullopt; }

/// What leaves out the lowest tenth and the highest, never counting as later than any day.
template <class Number>
Band<Number> middle_eight_tenths(std::vector<Number> values) {
  std::sort(values.begin(), values.end());
  const std::size_t left_out = values.size() / 10;
  return {values[left_out], values[values.size() - 1 - left_out]};
}

std::optional<int> within_horizon(double day) {
  return day <= horizon ? std::optional<int>(static_cast<int>(std::lround(day))) : std::nullopt;
}

/// The day on which a share of the days is done that a heap works on its way to a day: while it rests in the cold it gets no sooner
/// ready, nor before the least age and the cure of what went in last.
int sooner(const Course& course, int ready, double share) {
  const auto works = [&](int day) { return course.days[static_cast<std::size_t>(day)].core_degc >= working_degc; };
  ready = std::min(ready, static_cast<int>(course.days.size()));
  int working = 0;
  for (int day = 0; day < ready; ++day) working += works(day) ? 1 : 0;
  if (working == 0) return ready;
  double left = share * working;
  for (int day = 0; day < ready; ++day) {
    if (works(day)) left -= 1.0;
    if (left <= 0.0) return std::max(day + 1, course.last_fed + earliest_ready + cure);
  }
  return ready;
}

ReadyWindow window_of(const Course& course, std::optional<int> best, const std::vector<std::optional<int>>& sets) {
  constexpr double never = 1e9;
  std::vector<double> days;
  for (const auto& day : sets) days.push_back(day ? *day + cure : never);
  Band<double> band = middle_eight_tenths(std::move(days));
  const std::optional<int> likely = cured(best);
  if (likely) {
    band.low = std::min<double>(band.low, sooner(course, *likely, forecast_width.earlier));
    band.high = std::max(band.high, forecast_width.later * *likely);
  }
  return {within_horizon(band.low), likely && *likely <= horizon ? likely : std::nullopt, within_horizon(band.high)};
}

/// Which of two limits is met last; of what is not met, which it is. None where nothing but the least age stood against it.
std::optional<Criterion> binding_of(const Course& course, std::optional<int> day, const ReadyLimits& limits) {
  const PileState& before = day ? course.days[static_cast<std::size_t>(std::max(0, *day - 1))] : course.days.back();
  if (before.respiration_worst > limits.respiration) return Criterion::respiration;
  return before.carbon_to_nitrogen > limits.carbon_to_nitrogen ? std::optional(Criterion::carbon_to_nitrogen) : std::nullopt;
}

ForecastNote why_never(const Course& course, const DailyAir& air) {
  const PileState& end = course.days.back();
  if (end.moisture < dry_moisture) return ForecastNote::too_dry;
  if (end.least_air_space < airless) return ForecastNote::too_wet;
  if (*std::max_element(air.begin(), air.end()) < TemperaturePoint::from_celsius(sure_start_degc)) return ForecastNote::too_cold;
  if (end.respiration_worst <= turf_limits.respiration) return ForecastNote::too_little_nitrogen;
  return ForecastNote::too_slow;
}

/// What any heap may do on its way.
std::vector<ForecastNote> notes_on(const Course& course, int last) {
  double hottest = -100.0;
  double driest = 1.0;
  bool frozen = false;
  for (int day = 0; day <= last; ++day) {
    const PileState& now = course.days[static_cast<std::size_t>(day)];
    hottest = std::max(hottest, now.core_degc);
    driest = std::min(driest, now.moisture);
    frozen = frozen || now.core_degc <= 0.0;
  }
  std::vector<ForecastNote> notes;
  if (!(hottest >= warm_core_degc)) {
    notes.push_back(ForecastNote::hardly_heats);
  } else if (!(hottest >= weed_killing_degc)) {
    notes.push_back(ForecastNote::weed_seeds_live);
  }
  if (course.days.front().carbon_to_nitrogen >= few_greens) notes.push_back(ForecastNote::few_greens);
  if (frozen) notes.push_back(ForecastNote::freezes);
  if (driest < dry_moisture) notes.push_back(ForecastNote::dries);
  const PileState& end = course.days[static_cast<std::size_t>(last)];
  if (end.least_air_space < soaked_air || end.moisture > soaked_moisture) notes.push_back(ForecastNote::gets_wet);
  return notes;
}

bool has(const std::vector<ForecastNote>& notes, ForecastNote note) { return std::find(notes.begin(), notes.end(), note) != notes.end(); }

/// The day on which a course has come as far as it comes: mature, else fit for turf, cured; else its last.
int end_of(const Course& course) {
  const int last = static_cast<int>(course.days.size()) - 1;
  return std::min(last, course.mature_day ? *course.mature_day + cure : course.turf_day ? *course.turf_day + cure : last);
}

double filled_in_all(const HeapCare& care, const Course& course) { return care.feeding ? 1.0 + care.feeding->share * course.fed : 1.0; }

Finished finished_of(const Model& model, const Course& best, std::vector<double> losses) {
  const int day = end_of(best);
  const PileState& end = best.days[static_cast<std::size_t>(day)];
  const double filled = filled_in_all(model.heap.care, best);
  Band<double> band = middle_eight_tenths(std::move(losses));
  Finished finished;
  finished.mass_loss = 1.0 - end.wet_mass_kg / (filled * model.heap.share * model.heap.mix.mass.value());
  finished.volume_loss = 1.0 - end.relative_volume / filled;
  finished.volatile_solids_loss = end.volatile_solids_loss;
  finished.volatile_solids_loss_low = std::max(0.0, std::min(band.low, end.volatile_solids_loss - forecast_width.volatile_solids));
  finished.volatile_solids_loss_high = std::min(1.0, std::max(band.high, end.volatile_solids_loss + forecast_width.volatile_solids));
  finished.nitrogen_loss = end.nitrogen_loss;
  finished.carbon_to_nitrogen = end.carbon_to_nitrogen;
  finished.moisture = end.moisture;
  return finished;
}

/// The days of the best set, each with what most sets have for the core, no nearer than the forecast's width.
std::vector<DayOfForecast> days_of(const Course& best, const std::vector<Course>& sets, const DailyAir& air) {
  std::vector<DayOfForecast> days;
  const auto count = static_cast<std::size_t>(best.mature_day ? end_of(best) : static_cast<int>(best.days.size()) - 1);
  for (std::size_t day = 0; day <= count; ++day) {
    std::vector<double> cores;
    for (const Course& set : sets) cores.push_back(set.days[day].core_degc);
    const Band<double> band = middle_eight_tenths(std::move(cores));
    const PileState& state = best.days[day];
    days.push_back({state, air[std::min(day, air.size() - 1)].celsius(), std::min(band.low, state.core_degc - forecast_width.core_degc),
                    std::max(band.high, state.core_degc + forecast_width.core_degc)});
  }
  return days;
}

/// Whether it hangs on how warm it starts when it is ready.
bool start_decides(const Course& as_built, const Course& started_warm, TemperaturePoint first_day) {
  if (first_day <= TemperaturePoint::from_celsius(cold_start_degc)) return true;
  const std::optional<int> cold = cured(as_built.turf_day);
  const std::optional<int> warm = cured(started_warm.turf_day);
  return warm && (!cold || *cold > start_matters * *warm);
}

/// A start by chance: as early as from a warm one, and nobody can say what is likely.
void leave_open(ReadyWindow& window, const Course& warm, std::optional<int> ready) {
  if (ready) {
    const int early = sooner(warm, *ready + cure, forecast_width.earlier);
    window.early = window.early ? std::min(*window.early, early) : early;
  }
  window.likely.reset();
}

/// What is mature is fit for turf. Where fewer sets get so far, the two windows are widened about different days.
void no_sooner_than(ReadyWindow& mature, const ReadyWindow& turf) {
  const auto later = [](std::optional<int> one, std::optional<int> other) { return one && other ? std::max(one, other) : std::nullopt; };
  mature.early = later(mature.early, turf.early);
  mature.late = later(mature.late, turf.late);
}

/// The first day from which it stays warm enough to start: that day and the week after it.
std::optional<int> first_warm_day(const DailyAir& air) {
  int warm = 0;
  for (std::size_t day = 0; day < air.size() && day < 366; ++day) {
    warm = air[day] >= TemperaturePoint::from_celsius(sure_start_degc) ? warm + 1 : 0;
    if (warm == 7) return static_cast<int>(day) - 6;
  }
  return std::nullopt;
}

ForecastStatus status_of(const ReadyWindow& turf, const ReadyWindow& mature) {
  if (mature.likely) return ForecastStatus::mature;
  return turf.likely ? ForecastStatus::turf_only : ForecastStatus::never;
}

std::optional<Criterion> binding_of(const Course& best, ForecastStatus status) {
  if (status == ForecastStatus::never) return binding_of(best, std::nullopt, turf_limits);
  return binding_of(best, best.mature_day, mature_limits);
}

Instead instead_of(const Course& course, int begun) {
  const auto counted = [&](std::optional<int> day) { return day ? std::optional<int>(begun + *day + cure) : std::nullopt; };
  return {counted(course.turf_day), counted(course.mature_day)};
}

/// Where the start decides, the forecast says between what and, of a start in warmth, when.
void leave_cold_start_open(Forecast& result, const Model& model, const Course& best, const DailyAir& all_air) {
  if (all_air.front() >= TemperaturePoint::from_celsius(sure_start_degc)) return;
  const std::optional<MoistureWetBasis>& wet_to = model.heap.care.wet_to;
  HeapToBuild later = model.heap;
  later.care.noted = {};
  const Model built_later{later, model.materials, model.ensemble};
  const auto started_at = [&](TemperaturePoint start, int day) {
    return course_of(day > 0 ? built_later : model, model.ensemble.best, followed_from(all_air, day), {start, wet_to}, 0);
  };
  const Course warm = started_at(TemperaturePoint::from_celsius(warm_start_degc), 0);
  const bool gets_there = warm.turf_day || best.turf_day;
  if (!gets_there || !start_decides(best, warm, all_air.front())) return;
  result.status = ForecastStatus::start_decides;
  leave_open(result.turf, warm, warm.turf_day);
  leave_open(result.mature, warm, warm.mature_day);
  result.notes.insert(result.notes.begin(), ForecastNote::cold_start);
  const std::optional<int> day = first_warm_day(all_air);
  if (!day) return;
  result.warm_enough = date_of(result, *day);
  result.built_in_warmth = instead_of(started_at(all_air[static_cast<std::size_t>(*day)], *day), *day);
}

}  // namespace

std::string_view status_word(ForecastStatus status) {
  switch (status) {
    case ForecastStatus::mature: return "mature";
    case ForecastStatus::turf_only: return "ready-for-turf";
    case ForecastStatus::start_decides: return "start-decides";
    case ForecastStatus::never: return "never";
  }
  return {};
}

std::string_view criterion_word(Criterion criterion) { return criterion == Criterion::respiration ? "respiration" : "carbon-to-nitrogen"; }

std::string_view note_word(ForecastNote note) {
  switch (note) {
    case ForecastNote::too_dry: return "too-dry";
    case ForecastNote::too_wet: return "too-wet";
    case ForecastNote::too_little_nitrogen: return "too-little-nitrogen";
    case ForecastNote::too_cold: return "too-cold";
    case ForecastNote::too_slow: return "too-slow";
    case ForecastNote::cold_start: return "cold-start";
    case ForecastNote::hardly_heats: return "hardly-heats";
    case ForecastNote::weed_seeds_live: return "weed-seeds-live";
    case ForecastNote::few_greens: return "few-greens";
    case ForecastNote::freezes: return "freezes";
    case ForecastNote::gets_wet: return "gets-wet";
    case ForecastNote::dries: return "dries";
  }
  return {};
}

Course course_of(const HeapToBuild& heap, const DailyAir& air, const Materials& materials, const ProcessEnsemble& ensemble,
                 const ProcessParameters& set, int least_days) {
  if (air.empty()) throw DomainError("a heap's course needs the weather");
  return course_of({heap, materials, ensemble}, set, air, {air.front(), heap.care.wet_to}, least_days);
}

Forecast forecast(const HeapToBuild& heap, const DailyAir& all_air, const Materials& materials, const ProcessEnsemble& ensemble,
                  const Progress& progress) {
  if (all_air.empty()) throw DomainError("a forecast needs the weather");
  if (ensemble.members.empty()) throw DomainError("a forecast is as wide as its sets differ, and needs some");
  const Model model{heap, materials, ensemble};
  const DailyAir air = followed_from(all_air, 0);
  const Start as_built{air.front(), heap.care.wet_to};
  const int sets = static_cast<int>(ensemble.members.size()) + 1;
  const auto tell = [&](int done) {
    if (progress) progress(done, sets);
  };

  const Course best = course_of(model, ensemble.best, air, as_built, 0);
  tell(1);
  std::vector<Course> courses;
  std::vector<std::optional<int>> turf_days, mature_days;
  std::vector<double> losses;
  for (const ProcessParameters& set : ensemble.members) {
    courses.push_back(course_of(model, set, air, as_built, static_cast<int>(best.days.size()) - 1));
    const Course& course = courses.back();
    turf_days.push_back(course.turf_day);
    mature_days.push_back(course.mature_day);
    losses.push_back(course.days[static_cast<std::size_t>(end_of(course))].volatile_solids_loss);
    tell(1 + static_cast<int>(courses.size()));
  }

  Forecast result;
  result.built = heap.built;
  result.turf = window_of(best, best.turf_day, turf_days);
  result.mature = window_of(best, best.mature_day, mature_days);
  no_sooner_than(result.mature, result.turf);
  result.status = status_of(result.turf, result.mature);
  result.binding = binding_of(best, result.status);
  result.days = days_of(best, courses, air);
  result.finished = finished_of(model, best, std::move(losses));
  result.filled_in_all = filled_in_all(heap.care, best);
  result.water_given = best.water_given;
  const auto hottest = std::max_element(result.days.begin(), result.days.end(), [](const DayOfForecast& one, const DayOfForecast& other) {
    return one.state.core_degc < other.state.core_degc;
  });
  result.peak_core_degc = hottest->state.core_degc;
  result.peak_day = static_cast<int>(hottest - result.days.begin());
  result.notes = notes_on(best, static_cast<int>(result.days.size()) - 1);

  leave_cold_start_open(result, model, best, all_air);
  if (result.status == ForecastStatus::never) result.notes.insert(result.notes.begin(), why_never(best, air));
  if (!heap.care.wet_to && (has(result.notes, ForecastNote::too_dry) || has(result.notes, ForecastNote::dries)))
    result.watered = instead_of(course_of(model, ensemble.best, air, {as_built.temperature, heap.care.watering}, 0), 0);
  return result;
}

Date date_of(const Forecast& forecast, int day) { return Date(std::chrono::sys_days(forecast.built) + std::chrono::days(day)); }

}  // namespace heapwright
