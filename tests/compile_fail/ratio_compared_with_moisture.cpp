// Two numbers of different things have no order.
// expect: (no match for 'operator<'|invalid operands).*CarbonNitrogenRatio.*MoistureWetBasis
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
bool below(CarbonNitrogenRatio ratio, MoistureWetBasis moisture) { return ratio < moisture; }
#else
bool below(CarbonNitrogenRatio ratio, MoistureWetBasis) { return ratio < carbon_to_nitrogen(25.0); }
#endif
}  // namespace heapwright
