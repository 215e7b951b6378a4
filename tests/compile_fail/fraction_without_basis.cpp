// A share of nothing in particular.
// expect: (wrong number of|too few) template arguments
#include "heapwright/units/fraction.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
Fraction<> half() { return Fraction<>::of(0.5); }
#else
Fraction<OfVolume> half() { return Fraction<OfVolume>::of(0.5); }
#endif
}  // namespace heapwright
