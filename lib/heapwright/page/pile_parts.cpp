#include "heapwright/page/pile_parts.hpp"

#include <array>

namespace heapwright {

std::string pile_noun(PileShape shape) {
  switch (shape) {
    case PileShape::bin: return "bin";
    case PileShape::round: return "round bin";
    case PileShape::tumbler: return "tumbler";
    case PileShape::cone: return "pile";
    case PileShape::windrow: return "windrow";
  }
  return {};
}

Words whole_words(int count) {
  static constexpr std::array<const char*, 11> words{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"};
  return count >= 0 && count <= 10 ? Words(words.at(static_cast<std::size_t>(count))) : Number{static_cast<double>(count), 7};
}

namespace {

Words heat_words(RoomHeat heat) {
  switch (heat) {
    case RoomHeat::heats: return {};
    case RoomHeat::too_small: return "; so small a pile will hardly heat";
    case RoomHeat::too_little: return "; so little will hardly heat, keep adding";
  }
  return {};
}

}  // namespace

Words room_words(const PileFit& fit) {
  if (!fit.mix || !fit.fits) return {};
  const Words heat = heat_words(heat_of(fit));
  const Words room =
      say("{}{}", room_of(*fit.pile), fit.pile->shape == PileShape::tumbler ? ", two thirds of the tumbler, so that it turns over" : "");
  if (!*fit.fits) return say("{}: {} does not fit at once. Fill up again as it sinks, or give the pile more room{}.", room, *fit.mix, heat);
  return say("{}: {}{}", room, says(fit, PileNote::fits_as_it_sinks) ? "it fits once it has sunk" : "it fits", heat);
}

}  // namespace heapwright
