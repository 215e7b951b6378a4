#pragma once
/// What the pages say of a pile and its room. Not installed: users of the library get whole pages.

#include "heapwright/page/words.hpp"
#include "heapwright/pile/advice.hpp"

namespace heapwright {

/// "bin", "round bin", "windrow"
std::string pile_noun(PileShape shape);
/// "three", from eleven on in figures.
Words whole_words(int count);
/// Whether a mix fits, and whether it will hardly heat: "2.4 cu yd: it fits". Nothing where no mix or no pile is known.
Words room_words(const PileFit& fit);

}  // namespace heapwright
