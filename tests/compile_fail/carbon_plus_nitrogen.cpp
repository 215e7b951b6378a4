// Constituents do not add.
// expect: (no match for 'operator\+'|invalid operands).*CarbonMass.*NitrogenMass
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
auto sum(CarbonMass carbon, NitrogenMass nitrogen) { return carbon + nitrogen; }
#else
auto sum(CarbonMass carbon, CarbonMass more) { return carbon + more; }
#endif
}  // namespace heapwright
