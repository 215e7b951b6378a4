// A bag of leaves and a bag of grass do not weigh the same.
// expect: (could not convert|no viable conversion).*length_base_dimension.* to .*mass_base_dimension
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
Mass weight(Volume volume, BulkDensity) { return volume; }
#else
Mass weight(Volume volume, BulkDensity density) { return volume * density; }
#endif
}  // namespace heapwright
