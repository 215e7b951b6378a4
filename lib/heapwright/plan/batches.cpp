#include "heapwright/plan/batches.hpp"

#include <algorithm>

#include "heapwright/plan/care.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/process/outlook.hpp"
#include "heapwright/process/pile_to_build.hpp"
#include "heapwright/time/days.hpp"

namespace heapwright {
namespace {

void set_ready(CompostBatch& batch, const Forecast& forecast, const std::optional<CompostYield>& screened) {
  if (forecast.heats.log_disagrees) return;  // no date holds
  ReadyWindow window = likelier_window(forecast);
  if (stalls(forecast) && forecast.watered->turf_day)
    window = {std::nullopt, forecast.watered->turf_day, std::nullopt};  // its chores water it
  const auto date = [&](std::optional<int> day) { return day ? std::optional(later_by(forecast.built, *day)) : std::nullopt; };
  batch.early = date(window.early);
  batch.likely = date(window.likely);
  batch.late = date(window.late);
  if (batch.likely) batch.screened = screened;
}

/// Bins, each with the day from which it is free; nothing where it is not known to get so.
class Bins {
 public:
  explicit Bins(const std::optional<PileDescription>& pile) : free_from_(pile ? static_cast<std::size_t>(pile->count) : 1, Date()) {}

  /// The first that is free on a day, from 1; 0 where none is.
  int free_on(Date day) const {
    for (std::size_t i = 0; i < free_from_.size(); ++i) {
      if (free_from_[i] && *free_from_[i] <= day) return static_cast<int>(i) + 1;
    }
    return 0;
  }
  void take(int bin, const CompostBatch& batch) {
    constexpr int screening = 14;  // days; common practice, no source
    if (bin > 0)
      free_from_[static_cast<std::size_t>(bin) - 1] = batch.likely ? std::optional(later_by(*batch.likely, screening)) : std::nullopt;
  }

 private:
  std::vector<std::optional<Date>> free_from_;
};

void pour(const WeeklyLoad& load, Blend& blend) {
  blend.ingredients.insert(blend.ingredients.end(), load.blend.ingredients.begin(), load.blend.ingredients.end());
  blend.added_water += load.blend.added_water;
}

/// Of loads to come the first that are enough to begin with, as one mix, and how many they are; nothing where all are too few.
std::optional<std::pair<Mix, std::size_t>> beginning_of(const std::vector<WeeklyLoad>& loads, const Yard& yard) {
  Blend all{{}, WaterMass(), yard.options.settling};
  for (std::size_t i = 0; i < loads.size(); ++i) {
    pour(loads[i], all);
    const Mix mix = mix_of(all);
    if (is_enough_to_follow(yard, mix)) return std::pair(mix, i + 1);
  }
  return std::nullopt;
}

Mix mix_of_first(const std::vector<WeeklyLoad>& loads, std::size_t count, const Yard& yard) {
  Blend all{{}, WaterMass(), yard.options.settling};
  for (std::size_t i = 0; i < count; ++i) pour(loads[i], all);
  return mix_of(all);
}

/// A batch of as many of the loads to come as find room, which are taken from them; nothing where they are too few to be followed.
std::optional<CompostBatch> next_batch(std::vector<WeeklyLoad>& loads, const Yard& yard, const ProcessEnsemble& best_alone) {
  const auto begins = beginning_of(loads, yard);
  if (!begins) return std::nullopt;
  PileToBuild pile{begins->first, 1.0, yard.pile, care_of(yard), std::nullopt, loads[begins->second - 1].date};
  pile.stands = true;  // nothing is to be asked of how it is built
  if (yard.pile) pile.room = taken_by(*yard.pile);
  for (std::size_t i = begins->second; i < loads.size(); ++i) pile.loads.push_back({days_from_to(pile.built, loads[i].date), loads[i].mix});
  const Forecast coming = forecast(pile, weather_of(*yard.climate), yard.tables.materials, best_alone);
  const std::size_t count = std::min(loads.size(), begins->second + static_cast<std::size_t>(coming.times_fed));
  CompostBatch batch{0, loads.front().date, loads[count - 1].date, mix_of_first(loads, count, yard), {}, {}, {}, {}};
  set_ready(batch, coming, coming.finished.screened);
  loads.erase(loads.begin(), loads.begin() + static_cast<std::ptrdiff_t>(count));
  return batch;
}

}  // namespace

ReadyWindow likelier_window(const Forecast& forecast) {
  constexpr double as_likely_as_not = 0.5;
  const std::optional<HeatingBranch>& branch =
      forecast.heats.chance >= as_likely_as_not ? forecast.heats.if_it_heats : forecast.heats.if_not;
  return forecast.turf.likely || !branch ? forecast.turf : branch->turf;
}

std::vector<CompostBatch> batches_of(const Yard& yard, const YardForecast& first, const std::optional<YardSeason>& season) {
  const Forecast& forecast = *first.forecast;
  std::vector<CompostBatch> batches;
  Bins bins(yard.pile);
  CompostBatch pile{1, forecast.built, later_by(forecast.built, forecast.last_fed), *first.mix, {}, {}, {}, {}};
  set_ready(pile, forecast, first.screened);
  for (int bin = 1; bin <= first.piles && yard.pile && bin <= yard.pile->count; ++bin) bins.take(bin, pile);
  if (!yard.pile) bins.take(1, pile);
  batches.push_back(pile);
  if (!season) return batches;
  if (first.week_by_week) pile.from = pile.until;                           // what found no room goes on
  if (yard.pile && yard.pile->shape == PileShape::tumbler) return batches;  // it takes more as it sinks
  std::vector<WeeklyLoad> loads = weekly_loads(*season, std::max(pile.until, season->from), yard.options.settling);
  ProcessEnsemble best_alone = *yard.tables.ensemble;
  best_alone.members = {best_alone.best};
  constexpr std::size_t most_batches = 6;  // more than a year and a half of any home: judged
  while (!loads.empty() && batches.size() < most_batches) {
    std::optional<CompostBatch> next = next_batch(loads, yard, best_alone);
    if (!next) break;
    next->bin = bins.free_on(next->from);
    bins.take(next->bin, *next);
    batches.push_back(*std::move(next));
  }
  return batches;
}

}  // namespace heapwright
