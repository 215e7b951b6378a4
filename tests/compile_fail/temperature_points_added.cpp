// 20 degrees on the thermometer and 30 more on it are not 50.
// expect: (no match for 'operator\+'|invalid operands).*TemperaturePoint.*TemperaturePoint
#include "heapwright/units/temperature.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
TemperaturePoint warmed(TemperaturePoint pile, TemperaturePoint air) { return pile + air; }
#else
TemperaturePoint warmed(TemperaturePoint pile, TemperaturePoint air) { return pile + (pile - air); }
#endif
}  // namespace heapwright
