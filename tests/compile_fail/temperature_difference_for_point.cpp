// 5 degrees warmer is not 5 degrees on the thermometer.
// expect: (could not convert|no viable conversion).*TemperatureDifference.* to .*TemperaturePoint
#include "heapwright/units/temperature.hpp"

namespace heapwright {
#ifdef MUST_NOT_COMPILE
TemperaturePoint core(TemperaturePoint, TemperatureDifference rise) { return rise; }
#else
TemperaturePoint core(TemperaturePoint air, TemperatureDifference rise) { return air + rise; }
#endif
}  // namespace heapwright
