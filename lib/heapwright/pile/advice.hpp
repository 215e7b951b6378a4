#pragma once
/// What to do with a mix and the piles that there are.

#include "heapwright/pile/pile.hpp"

namespace heapwright {

/// What to do, by whether a pile and a mix are known and how they fit.
enum class PileAdvice {
  describe_one,      ///< neither a pile nor a mix is known
  say_what_goes_in,  ///< a pile without a mix
  pile_up,           ///< a mix too little for a pile to be suggested
  build_suggested,   ///< a pile that suits the mix
  goes_in,           ///< all of it, into the only pile
  use_one,           ///< of several
  use_several,       ///< one after another
  fill_as_it_sinks,  ///< it fits once what is in it has sunk
  does_not_fit,      ///< even then
};
/// The one that holds.
PileAdvice advice_of(const PileFit& fit);

/// Whether a note is among its notes.
bool says(const PileFit& fit, PileNote note);
/// How many piles are built: of those there are as many as are needed.
int piles_built(const PileFit& fit);
/// How many more such piles would take all of it; none where it fits.
int piles_missing(const PileFit& fit);

/// Whether what goes in will heat, as a word on its room says it.
enum class RoomHeat { heats, too_small, too_little };
RoomHeat heat_of(const PileFit& fit);

}  // namespace heapwright
