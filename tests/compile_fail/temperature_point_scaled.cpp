// Twice 10 degC is not 20 degC.
// expect: (no match for 'operator\*'|invalid operands).*'double' and 'heapwright::TemperaturePoint'
#include "heapwright/units/temperature.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
TemperaturePoint doubled(TemperaturePoint point) { return 2.0 * point; }
#else
TemperatureDifference doubled(TemperatureDifference difference) { return 2.0 * difference; }
#endif
}  // namespace heapwright
