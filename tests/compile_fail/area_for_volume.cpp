// A lawn has no volume until a depth is given.
// expect: (could not convert|no viable conversion).*static_rational<2.* to .*static_rational<3
#include "heapwright/units/quantities.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
Volume needed(Area lawn, Length) { return lawn; }
#else
Volume needed(Area lawn, Length depth) { return lawn * depth; }
#endif
}  // namespace heapwright
