// A report's nitrogen of the compost as received is about half of that of its dry matter.
// expect: (could not convert|no viable conversion).*mass_base_dimension.*dry_matter_dimension
#include "heapwright/units/wet_basis.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
NitrogenDryBasis nitrogen_of(NitrogenWetBasis content, MoistureWetBasis) { return content; }
#else
NitrogenDryBasis nitrogen_of(NitrogenWetBasis content, MoistureWetBasis moisture) { return to_dry_basis(content, moisture); }
#endif
}  // namespace heapwright
