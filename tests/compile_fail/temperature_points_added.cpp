// 20 degrees on the thermometer and 30 more on it are not 50.
// expect: (no match for 'operator\+'|invalid operands).*TemperaturePoint.*TemperaturePoint
#include "heapwright/units/temperature.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
TemperaturePoint warmed(TemperaturePoint heap, TemperaturePoint air) { return heap + air; }
#else
TemperaturePoint warmed(TemperaturePoint heap, TemperaturePoint air) { return heap + (heap - air); }
#endif
}  // namespace heapwright
