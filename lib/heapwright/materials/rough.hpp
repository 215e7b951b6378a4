#pragma once
/// What people know without a scale: trees, a mower, a household, a pile to the knee, how a handful feels.

#include <string>
#include <string_view>
#include <vector>

#include "heapwright/materials/published_value.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// A height by the body: "knee-high".
struct BodyHeight {
  std::string id;
  std::vector<std::string> also;
  PublishedValue<Length> height;
};

/// What a squeezed handful says of moisture: it drips, clumps or crumbles.
struct Feel {
  std::string id;
  PublishedValue<MoistureWetBasis> moisture;
};

/// Published yields for those who have no amount, each with its range. The first value is used.
struct RoughKnowledge {
  PublishedValues<DryMassPerArea> leaf_fall;  ///< dry leaves a year, of the ground under the crowns
  PublishedValues<Length> canopy_width;       ///< of a tree whose owner gives none
  PublishedValues<MassPerArea> clippings;     ///< as mown, a season, of the lawn
  PublishedValues<Mass> scraps;               ///< as they are, a person and week
  std::vector<BodyHeight> heights;
  std::vector<Feel> feels;
};

/// Reads rough.toml onto what is there.
void read_rough(Table& root, RoughKnowledge& rough);

/// "2 ft", or by the body: "knee-high", "to the waist". @throws TextError
PublishedValue<Length> read_height(std::string_view text, const RoughKnowledge& rough);

/// "drips", "clumps" or "crumbles". @throws TextError
const Feel& find_feel(std::string_view text, const RoughKnowledge& rough);

}  // namespace heapwright
