#include "heapwright/process/outlook.hpp"

#include <algorithm>
#include <iterator>

#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

bool is_why_never(ForecastNote note) {
  switch (note) {
    case ForecastNote::too_dry:
    case ForecastNote::too_wet:
    case ForecastNote::too_little_nitrogen:
    case ForecastNote::too_woody:
    case ForecastNote::too_cold:
    case ForecastNote::too_slow: return true;
    default: return false;
  }
}

/// Of a pile that is never ready, whatever the reason.
bool counts_all_the_same(ForecastNote note) {
  switch (note) {
    case ForecastNote::few_greens:
    case ForecastNote::in_small_vessel:
    case ForecastNote::too_big:
    case ForecastNote::windrow:
    case ForecastNote::weed_seeds_live: return true;
    default: return false;
  }
}

/// What mends a pile that is never ready.
Chore remedy_of(ForecastNote why) {
  switch (why) {
    case ForecastNote::too_dry: return Chore::water;
    case ForecastNote::too_wet: return Chore::dry;
    case ForecastNote::too_little_nitrogen: return Chore::green;
    case ForecastNote::too_woody: return Chore::use_as_mulch;
    case ForecastNote::too_cold: return Chore::ask_extension;
    default: return Chore::speed_up;
  }
}

}  // namespace

ByWhen heats_by(const Forecast& forecast) {
  if (forecast.heats.counted_from > days_to_heat) return ByWhen::by_its_day;
  const std::chrono::month month = forecast.built.month();
  if (month >= std::chrono::August && month <= std::chrono::October) return ByWhen::before_winter;
  return month >= std::chrono::November || month == std::chrono::January ? ByWhen::before_spring : ByWhen::within_a_month;
}

bool stalls(const Forecast& forecast) {
  constexpr int two_months = 60;
  return forecast.turf.likely && forecast.watered && forecast.watered->turf_day &&
         *forecast.watered->turf_day + two_months < *forecast.turf.likely;
}

bool gains_by_water(const Forecast& forecast) {
  if (!forecast.watered || !forecast.watered->turf_day) return false;
  const ReadyWindow& dry = forecast.heats.is_open() ? forecast.heats.if_not->turf : forecast.turf;
  if (!dry.likely) return true;
  const int watered = *forecast.watered->turf_day;
  return watered < *dry.likely && !is_same_half_month(date_of(forecast, watered), date_of(forecast, *dry.likely));
}

bool gains_by_waiting(const Forecast& forecast) {
  if (!forecast.built_in_warmth || !forecast.built_in_warmth->turf_day) return false;
  const ReadyWindow& now = forecast.heats.is_open() ? forecast.heats.if_not->turf : forecast.turf;
  return !now.likely || *forecast.built_in_warmth->turf_day < *now.likely;
}

ReadyWindow either_way(const ReadyWindow& one, const ReadyWindow& other) {
  ReadyWindow either;
  either.early = one.early && other.early ? std::min(one.early, other.early) : one.early ? one.early : other.early;
  if (one.late && other.late) either.late = std::max(one.late, other.late);
  return either;
}

std::optional<ForecastNote> why_never(const Forecast& forecast) {
  const auto why = std::find_if(forecast.notes.begin(), forecast.notes.end(), is_why_never);
  return why == forecast.notes.end() ? std::nullopt : std::optional(*why);
}

std::vector<ForecastNote> notes_that_count(const Forecast& forecast) {
  if (forecast.status != ForecastStatus::never) return forecast.notes;
  std::vector<ForecastNote> notes;
  std::copy_if(forecast.notes.begin(), forecast.notes.end(), std::back_inserter(notes), counts_all_the_same);
  return notes;
}

bool wants_water(const Forecast& forecast) { return forecast.water_given > 1.0 * unit::kg_water; }

bool warns_of_seeds(const Forecast& forecast) {
  return says(forecast, ForecastNote::weed_seeds_live) || says(forecast, ForecastNote::hardly_heats);
}

std::vector<Chore> chores_of(const Forecast& forecast) {
  std::vector<Chore> chores;
  const auto add = [&](bool holds, Chore chore) {
    if (holds && std::find(chores.begin(), chores.end(), chore) == chores.end()) chores.push_back(chore);
  };
  if (const std::optional<ForecastNote> why = why_never(forecast)) chores.push_back(remedy_of(*why));
  add(says(forecast, ForecastNote::dries), Chore::water);
  add(!forecast.heats.what_would_tip.empty() && forecast.heats.heating != Heating::will, Chore::tip);
  add(gains_by_waiting(forecast), Chore::wait);
  add(says(forecast, ForecastNote::gets_wet), Chore::dry);
  add(says(forecast, ForecastNote::freezes), Chore::leave_frozen);
  chores.push_back(Chore::keep_seeds_out);
  return chores;
}

}  // namespace heapwright
