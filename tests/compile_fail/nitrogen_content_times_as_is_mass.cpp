// A nitrogen content is of dry matter; on as-is mass it counts nitrogen in water.
// expect: (could not convert|no viable conversion).*mass_base_dimension.*nitrogen_dimension
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
NitrogenMass nitrogen_of(Mass as_is, DryMass, NitrogenDryBasis content) { return as_is * content; }
#else
NitrogenMass nitrogen_of(Mass, DryMass dry, NitrogenDryBasis content) { return dry * content; }
#endif
}  // namespace heapwright
