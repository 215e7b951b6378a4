// 35 % is 0.35: the check must see it.
// expect: (could not convert|no viable conversion).*'double' to .*AirSpace
#include "heapwright/units/fraction.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
AirSpace least() { return 0.35; }
#else
AirSpace least() { return AirSpace::of(0.35); }
#endif
}  // namespace heapwright
