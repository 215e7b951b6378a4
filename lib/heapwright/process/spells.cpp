#include "heapwright/process/spells.hpp"

#include <algorithm>

#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

/// The half-month that begins with a day of a forecast.
Spell half_month_from(const Forecast& forecast, std::size_t day) {
  const Date first = date_of(forecast, static_cast<int>(day));
  Spell spell{first, first, Warmth::cool, false, forecast.days[day].state.core};
  MoistureWetBasis moistest;
  for (; day < forecast.days.size() && is_same_half_month(first, date_of(forecast, static_cast<int>(day))); ++day) {
    const PileState& state = forecast.days[day].state;
    spell.core = std::max(spell.core, state.core);
    moistest = std::max(moistest, state.moisture);
    spell.to = date_of(forecast, static_cast<int>(day));
  }
  spell.dry = moistest < dry_moisture;
  spell.warmth = spell.dry ? std::min(Warmth::cool, warmth_of(spell.core)) : warmth_of(spell.core);
  return spell;
}

/// What is dry stands still at any warmth, but for frost.
bool feel_alike(const Spell& one, const Spell& other) {
  if (one.dry != other.dry) return false;
  const bool is_any_frozen = one.warmth == Warmth::frozen || other.warmth == Warmth::frozen;
  return one.warmth == other.warmth || (one.dry && !is_any_frozen);
}

/// Takes in the half-month after it, which feels the same.
void take_in(Spell& spell, const Spell& next) {
  spell.to = next.to;
  spell.warmth = std::max(spell.warmth, next.warmth);
  spell.core = spell.warmth >= Warmth::cool ? std::max(spell.core, next.core) : std::min(spell.core, next.core);
}

std::size_t days_of(const Spell& spell) {
  return static_cast<std::size_t>((std::chrono::sys_days(spell.to) - std::chrono::sys_days(spell.from)).count()) + 1;
}

}  // namespace

Warmth warmth_of(TemperaturePoint core) {
  if (core <= thawed_core) return Warmth::frozen;
  if (core < cool_core) return Warmth::cold;
  if (core < warm_core) return Warmth::cool;
  return core < hot_core ? Warmth::warm : Warmth::hot;
}

std::vector<Spell> spells_of(const Forecast& forecast) {
  std::vector<Spell> spells;
  std::size_t day = 0;
  while (day < forecast.days.size()) {
    const Spell half = half_month_from(forecast, day);
    day += days_of(half);
    if (!spells.empty() && feel_alike(spells.back(), half)) {
      take_in(spells.back(), half);
    } else {
      spells.push_back(half);
    }
  }
  return spells;
}

}  // namespace heapwright
