// A pile's scale also weighs its water.
// expect: (could not convert|no viable conversion).*dry_matter_dimension.* to .*mass_base_dimension
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
Mass weighed(DryMass dry, WaterMass) { return dry; }
#else
Mass weighed(DryMass dry, WaterMass water) { return as_is_mass(dry, water); }
#endif
}  // namespace heapwright
