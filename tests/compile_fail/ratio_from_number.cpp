// A bare 30 says neither what over what nor which way up.
// expect: (could not convert|no viable conversion).*'double' to .*CarbonNitrogenRatio
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
CarbonNitrogenRatio aim() { return 30.0; }
#else
CarbonNitrogenRatio aim() { return carbon_to_nitrogen(30.0); }
#endif
}  // namespace heapwright
