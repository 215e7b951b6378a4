// Water and dry matter in each other's place.
// expect: (could not convert 'water'|no matching function for call to 'as_is_mass)
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
Mass total(DryMass dry, WaterMass water) { return as_is_mass(water, dry); }
#else
Mass total(DryMass dry, WaterMass water) { return as_is_mass(dry, water); }
#endif
}  // namespace heapwright
