#include "heapwright/process/air.hpp"

#include <cmath>

namespace heapwright {

double saturated_vapour(double celsius) { return saturated_vapour(celsius, std::exp(magnus_exponent(celsius))); }

}  // namespace heapwright
