// What a lawn gets of phosphate covers none of the nitrogen that a laboratory recommends.
// expect: (could not convert|no viable conversion).*phosphate_dimension.*nitrogen_dimension
#include "heapwright/lawn/nutrients.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
NitrogenPerArea nitrogen_of(NitrogenPerArea, PhosphatePerArea phosphate) { return phosphate; }
#else
NitrogenPerArea nitrogen_of(NitrogenPerArea nitrogen, PhosphatePerArea) { return nitrogen; }
#endif
}  // namespace heapwright
