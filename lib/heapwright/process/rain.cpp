#include "heapwright/process/rain.hpp"

#include <algorithm>

namespace heapwright {
namespace {

constexpr double dries_off_mm_per_kelvin = 0.085;
constexpr RainShare share_of_pile{0.15, 0.30, 0.50};
constexpr RainShare share_of_open_bin{0.30, 0.50, 0.70};

}  // namespace

Length rain_taken_up(Length rain, TemperaturePoint air, double share) {
  if (!(air.celsius() > 0.0)) return Length();
  const double stays = rain.value() - 0.001 * dries_off_mm_per_kelvin * air.celsius();
  return share * std::max(0.0, stays) * unit::m;
}

RainShare share_of_rain(const std::optional<PileDescription>& pile) {
  if (!pile) return share_of_pile;
  if (pile->covered || pile->shape == PileShape::tumbler) return {};
  return pile->shape == PileShape::bin || pile->shape == PileShape::round ? share_of_open_bin : share_of_pile;
}

}  // namespace heapwright
