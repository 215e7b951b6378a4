#include "heapwright/pile/advice.hpp"

#include <algorithm>

namespace heapwright {

bool says(const PileFit& fit, PileNote note) { return std::find(fit.notes.begin(), fit.notes.end(), note) != fit.notes.end(); }

PileAdvice advice_of(const PileFit& fit) {
  if (!fit.pile) return fit.mix ? PileAdvice::pile_up : PileAdvice::describe_one;
  if (says(fit, PileNote::suggested)) return PileAdvice::build_suggested;
  if (!fit.mix) return PileAdvice::say_what_goes_in;
  if (!*fit.fits) return PileAdvice::does_not_fit;
  if (says(fit, PileNote::fits_as_it_sinks)) return PileAdvice::fill_as_it_sinks;
  if (fit.pile->count == 1) return PileAdvice::goes_in;
  return *fit.piles_needed == 1 ? PileAdvice::use_one : PileAdvice::use_several;
}

int piles_built(const PileFit& fit) {
  const int count = fit.pile->count;
  return std::min(count, fit.piles_needed.value_or(count));
}

int piles_missing(const PileFit& fit) { return std::max(0, fit.piles_needed.value_or(0) - fit.pile->count); }

RoomHeat heat_of(const PileFit& fit) {
  if (says(fit, PileNote::too_small_to_heat)) return RoomHeat::too_small;
  return says(fit, PileNote::too_little_to_heat) ? RoomHeat::too_little : RoomHeat::heats;
}

}  // namespace heapwright
