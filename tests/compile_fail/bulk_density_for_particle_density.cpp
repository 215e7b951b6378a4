// A density with its air is no density of solids.
// expect: (could not convert|no viable conversion).*mass_base_dimension.* to .*dry_matter_dimension
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
ParticleDensity solids(BulkDensity bulk) { return bulk; }
#else
ParticleDensity solids(BulkDensity) { return particle_density(1500.0); }
#endif
}  // namespace heapwright
