// Air of the pile is no share of a pile's compost.
// expect: (could not convert|no viable conversion).*OfPileVolume.* to .*OfVolume
#include "heapwright/units/fraction.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
ShareOfVolume held_back(AirSpace air) { return air; }
#else
ShareOfVolume held_back(ShareOfVolume screened) { return screened.rest(); }
#endif
}  // namespace heapwright
