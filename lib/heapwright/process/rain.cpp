#include "heapwright/process/rain.hpp"

#include <algorithm>

namespace heapwright {
namespace {

constexpr auto dries_off = 0.001 * 0.085 * unit::m / unit::kelvin;
constexpr RainShare share_of_pile{0.15, 0.30, 0.50};
constexpr RainShare share_of_open_bin{0.30, 0.50, 0.70};

}  // namespace

Length rain_taken_up(Length rain, TemperaturePoint air, double share) {
  const TemperatureDifference above_freezing = air - TemperaturePoint::from_celsius(0.0);
  if (!is_positive(above_freezing)) return Length();
  return share * std::max<Length>(Length(), rain - dries_off * above_freezing);
}

RainShare share_of_rain(const std::optional<PileDescription>& pile) {
  if (!pile) return share_of_pile;
  if (pile->covered || pile->shape == PileShape::tumbler) return {};
  return pile->shape == PileShape::bin || pile->shape == PileShape::round ? share_of_open_bin : share_of_pile;
}

}  // namespace heapwright
