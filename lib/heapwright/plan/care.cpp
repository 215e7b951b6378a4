#include "heapwright/plan/care.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/process/rain.hpp"

namespace heapwright {

PileCare care_of(const Yard& yard) {
  PileCare care;
  care.watering = yard.targets.moisture.aim;
  care.share_of_rain = share_of_rain(yard.pile).likely;
  if (!yard.pile) return care;
  if (yard.pile->turn_every) care.turn_every = std::max(1, static_cast<int>(std::lround(*yard.pile->turn_every / unit::day)));
  if (yard.pile->keep_moist) care.wet_to = care.watering;
  return care;
}

}  // namespace heapwright
