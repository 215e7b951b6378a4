#include <algorithm>
#include <cmath>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/process/weather.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;

/// What a heap takes up of the rain; the rest runs off. Judged.
const Length rain_taken_up = 0.001 * unit::m;

/// Loose matter sinks in its first days to about this wet density, the least of the piles that the model was calibrated on. Judged.
const BulkDensity least_settled = bulk_density(200.0);

constexpr double hot_core_degc = 50.0;  // with the forecast's width as hot as scalds
constexpr int days_of_a_recipe = 30;    // what comes fresh goes into a recipe for so long
constexpr int most_weeks = 52;

/// A closed drum as high as it is wide, all of whose surface meets the air. Judged.
Area surface_of_drum(Volume volume) {
  const double diameter = std::cbrt(4.0 * volume.value() / pi);
  return 1.5 * pi * diameter * diameter * unit::m2;
}

/// A free heap, rounder than a cone: the surface of half a ball, and 15 % for its slopes. Judged, and what the model was calibrated with.
Area surface_of_free_heap(Volume volume) {
  const double radius = std::cbrt(3.0 * volume.value() / (2.0 * pi));
  return 1.15 * 2.0 * pi * radius * radius * unit::m2;
}

/// What little lies in a wide bin is heaped up rather than spread.
PileShape shape_of(const std::optional<HeapDescription>& heap, Volume volume) {
  const Area heaped = surface_of_free_heap(volume);
  if (!heap) return {volume, heaped};
  if (heap->shape == HeapShape::tumbler) return {volume, surface_of_drum(volume)};
  const double share = std::min(1.0, (volume / size_of(*heap).volume).value());
  return {volume, std::min(heaped, *size_of(filled_to(*heap, share)).surface)};
}

bool comes_week_by_week(const std::vector<RecipeAmount>& amounts, const Mix& mix) {
  return std::any_of(amounts.begin(), amounts.end(),
                     [&](const RecipeAmount& amount) { return amount.comes_fresh && goes_in(amount, mix); });
}

/// For how many recipes what keeps is there.
double recipes_on_hand(const std::vector<RecipeAmount>& amounts, const Mix& mix) {
  double least = most_weeks;
  for (const RecipeAmount& amount : amounts) {
    if (amount.comes_fresh || !amount.left_over || !goes_in(amount, mix)) continue;
    least = std::min(least, 1.0 + (*amount.left_over / amount.volume).value());
  }
  return least;
}

/// Week by week a heap gets the same mix, until what keeps is used up or it is full.
Feeding feeding_of(const Told& recipe, double weekly_share, Volume weekly, const std::optional<Volume>& room) {
  Feeding feeding;
  feeding.share = 1.0;
  feeding.times = static_cast<int>(std::min(1.0 * most_weeks, recipes_on_hand(recipe.amounts, recipe.mix) / weekly_share)) - 1;
  feeding.room = room ? (*room / weekly).value() : most_weeks;
  return feeding;
}

HeapCare care_of(const Yard& yard, bool rained_on) {
  HeapCare care;
  care.watering = yard.targets.moisture.aim;
  if (rained_on) care.rain_a_day = rain_taken_up;
  if (!yard.heap) return care;
  constexpr double day = 86400.0;
  if (yard.heap->turn_every) care.turn_every = std::max(1, static_cast<int>(std::lround(yard.heap->turn_every->value() / day)));
  if (yard.heap->keep_moist) care.wet_to = care.watering;
  return care;
}

DailyAir air_from(const Weather& weather, Date built) {
  DailyAir air;
  for (int day = 0; day < horizon + 366; ++day) air.push_back(weather.on(Date(std::chrono::sys_days(built) + std::chrono::days(day))));
  return air;
}

bool is_rained_on(const Yard& yard, const HeapAnswer& room) {
  const bool covered = yard.heap && yard.heap->covered;
  return !covered && !(room.heap && room.heap->shape == HeapShape::tumbler);
}

/// What a forecast takes for granted, before what its recipe does.
void assume(std::vector<Assumption>& assumptions, const ClimateDescription& climate, const HeapCare& care, const Mix& mix) {
  std::vector<Assumption> own;
  const auto add = [&](const char* what, AssumedValue value) {
    own.push_back({what, std::move(value), std::nullopt, std::nullopt, "judged by us", std::nullopt});
  };
  if (const auto weather = assumption_of(climate)) own.push_back(*weather);
  if (care.rain_a_day.value() > 0.0) add("rain", "the heap takes up 1 mm (1/25 in) a day, the rest runs off");
  if (mix.mass / *mix.volume < least_settled)
    add("weight of the heap", "it settles in its first days to 340 lb/cu yd (200 kg/m3), as the heaps of the trials were");
  assumptions.insert(assumptions.begin(), own.begin(), own.end());
}

/// The recipe's, and those of a heap that gets hot.
std::vector<std::string> cautions_of(const Recipe& recipe, const Forecast& coming, const Materials& materials) {
  std::vector<std::string> ids = recipe.cautions;
  if (coming.peak_core_degc >= hot_core_degc) {
    for (const std::string& id : cautions_for(materials.cautions, {Fact::hot})) ids.push_back(id);
  }
  return in_order(ids, materials.cautions);
}

int day_of(const WrittenTime& time, Date built) {
  return static_cast<int>((std::chrono::sys_days(time.day()) - std::chrono::sys_days(built)).count());
}

NotedCare noted_in(const TemperatureLog& log, Date built) {
  NotedCare noted;
  for (const LogRow& row : log.rows) {
    const int day = day_of(row.time, built);
    if (row.turned) noted.turned.push_back(day);
    if (row.watered) noted.watered.push_back(day);
    noted.until = std::max(noted.until, day);
  }
  return noted;
}

/// The mean of each day, of the hottest thermometer, which is the one in the core.
std::vector<CoreOfDay> cores_of(const TemperatureLog& log, Date built) {
  std::vector<CoreOfDay> cores;
  int readings = 0;
  for (const HeapReading& hottest : hottest_readings(log)) {
    const int day = day_of(hottest.time, built);
    const double degc = hottest.temperature.celsius();
    if (cores.empty() || cores.back().day != day) {
      cores.push_back({day, degc});
      readings = 1;
    } else {
      ++readings;
      cores.back().core_degc += (degc - cores.back().core_degc) / readings;
    }
  }
  return cores;
}

YieldRule by_forecast(YieldRule rule, const Finished& finished) {
  Reading<ShareOfVolatileSolids>& lost = rule.volatile_solids_lost;
  lost = {};
  lost.typical = ShareOfVolatileSolids::of(finished.volatile_solids_loss);
  lost.low = ShareOfVolatileSolids::of(finished.volatile_solids_loss_low);
  lost.high = ShareOfVolatileSolids::of(finished.volatile_solids_loss_high);
  lost.source = "forecast";
  lost.evidence = Evidence::judged;
  return rule;
}

CompostYield operator*(double share, const CompostYield& yield) { return {share * yield.low, share * yield.likely, share * yield.high}; }

}  // namespace

ForecastAnswer forecast_of(const Yard& yard, const Recipe& recipe, Date today, const TemperatureLog* log, const Progress& progress) {
  if (!yard.climate) throw DomainError("[climate] is missing: a forecast needs the weather", "add coldest_month and warmest_month");
  ForecastAnswer answer;
  answer.cautions = recipe.cautions;
  const HeapAnswer room = heap_of(yard, recipe, today);
  if (!room.mix) return answer;
  const Told told_recipe = told(recipe);
  const Mix& mix = told_recipe.mix;
  answer.mix = mix;
  answer.targets = recipe.targets;
  answer.on_target = told_recipe.distance_from_aim <= hardly_off;
  answer.assumptions = recipe.assumptions;

  HeapToBuild heap{mix, 1.0, {}, care_of(yard, is_rained_on(yard, room)), yard.built_or(today)};
  assume(answer.assumptions, *yard.climate, heap.care, mix);
  answer.week_by_week = yard.heap && yard.heap->filled_as_it_comes && comes_week_by_week(told_recipe.amounts, mix);
  const std::optional<Volume> each = room.each ? std::optional<Volume>(room.each->volume) : std::nullopt;
  const Volume settled = std::min<Volume>(*mix.volume, mix.mass / least_settled);
  if (answer.week_by_week) {
    heap.share = 7.0 / days_of_a_recipe;
    if (each) heap.share = std::min(heap.share, (*each / settled).value());
    heap.care.feeding = feeding_of(told_recipe, heap.share, heap.share * settled, each);
  } else if (each && settled > *each) {
    heap.share = (*each / settled).value();
    answer.heaps = heaps_for(1.0 / heap.share);
  }
  answer.volume = heap.share * settled;
  answer.care = heap.care;
  answer.too_little = !(*answer.volume >= smallest_pile);
  if (answer.too_little) return answer;
  heap.shape = shape_of(room.heap, *answer.volume);

  const DailyAir air = air_from(weather_of(*yard.climate), heap.built);
  const ProcessEnsemble ensemble = built_in_ensemble();
  if (log != nullptr) {
    if (log->notes_events) heap.care.noted = noted_in(*log, heap.built);
    answer.rate = fit_rate(heap, air, yard.materials, ensemble, cores_of(*log, heap.built));
    if (answer.rate && answer.rate->tells) heap.rate = answer.rate->factor;
  }
  answer.forecast = forecast(heap, air, yard.materials, ensemble, progress);
  const Forecast& coming = *answer.forecast;
  answer.cautions = cautions_of(recipe, coming, yard.materials);
  const double all = answer.week_by_week ? heap.share * coming.filled_in_all : 1.0;
  answer.goes_in = all;
  answer.mass = all * (1.0 - coming.finished.mass_loss) * mix.mass;
  answer.finished_volume = all * (1.0 - coming.finished.volume_loss) * settled;
  if (coming.status != ForecastStatus::never) {
    answer.yield = by_forecast(yard.materials.yield, coming.finished);
    answer.screened = all * compost_yield(mix, find_compost(yard.materials, yard.topdressing.compost), answer.yield);
  }
  return answer;
}

}  // namespace heapwright
