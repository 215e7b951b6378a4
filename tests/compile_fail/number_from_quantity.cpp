// A number leaves the types only where its unit is named.
// expect: (cannot convert|no viable conversion).*Mass.* to .*'double'
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
double pounds(Mass mass) { return mass; }
#else
double kilograms(Mass mass) { return value_in(unit::kg, mass); }
#endif
}  // namespace heapwright
