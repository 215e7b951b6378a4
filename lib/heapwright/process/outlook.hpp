#pragma once
/// What a forecast comes to for whoever looks after the pile: by when it heats, whether it stands still, what to do about it.

#include <vector>

#include "heapwright/process/forecast.hpp"

namespace heapwright {

/// By when a pile gets hot or does not, as people would put it: what is built from August to October has a winter before it, what is built
/// from November to January a spring, and what is half in only later is counted from there. Judged.
enum class ByWhen { within_a_month, before_winter, before_spring, by_its_day };
ByWhen heats_by(const Forecast& forecast);

/// Whether it dries and stands still, so that water makes it ready two months sooner or more (judged) and counts for more than waiting.
bool stalls(const Forecast& forecast);

/// Whether water makes it ready in an earlier half-month than it is without.
bool gains_by_water(const Forecast& forecast);

/// Whether a pile that is built in warmth is ready sooner than one built on the day it was to be.
bool gains_by_waiting(const Forecast& forecast);

/// Between what it is ready whichever way it goes, without a likely day.
ReadyWindow either_way(const ReadyWindow& one, const ReadyWindow& other);

/// Why a pile that is never ready is not; nothing of one that is.
std::optional<ForecastNote> why_never(const Forecast& forecast);

/// Its notes without those that why_never() implies or that make no matter then.
std::vector<ForecastNote> notes_that_count(const Forecast& forecast);

/// Whether it is given water worth a word: more than a liter in all (judged).
bool wants_water(const Forecast& forecast);

/// Whether its notes say that weed seeds and diseases live on.
bool warns_of_seeds(const Forecast& forecast);

/// What its owner can do about it.
enum class Chore {
  water,          ///< it dries
  dry,            ///< it is soaked, or will be without a lid
  green,          ///< too few greens
  use_as_mulch,   ///< it is mostly wood
  ask_extension,  ///< it hardly thaws
  speed_up,       ///< it is too slow
  tip,            ///< what would make it likelier to get hot
  wait,           ///< to build it, until it is warm enough
  leave_frozen,
  keep_seeds_out,  ///< no heat kills them all
};

/// The one that changes most first.
std::vector<Chore> chores_of(const Forecast& forecast);

}  // namespace heapwright
