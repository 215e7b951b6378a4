// A volume has no value in kilograms.
// expect: no matching function for call to 'conversion_factor
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
double kilograms(Volume volume) { return value_in(unit::kg, volume); }
#else
double cubic_metres(Volume volume) { return value_in(unit::m3, volume); }
#endif
}  // namespace heapwright
