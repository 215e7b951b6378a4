#include "heapwright/process/air.hpp"

#include <cmath>

namespace heapwright {

double saturated_vapour(double celsius) {
  constexpr double gas_constant = 461.5;  // J/(kg K), of vapour
  constexpr double ice_point_kelvin = 273.15;
  return 610.94 * std::exp(17.625 * celsius / (celsius + 243.04)) / (gas_constant * (celsius + ice_point_kelvin));
}

}  // namespace heapwright
