// 55 % of the wet mass is 122 % of the dry.
// expect: (could not convert|no viable conversion).*mass_base_dimension.*dry_matter_dimension
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
MoistureDryBasis moisture(MoistureWetBasis wet) { return wet; }
#else
MoistureDryBasis moisture(MoistureWetBasis wet) { return to_dry_basis(wet); }
#endif
}  // namespace heapwright
