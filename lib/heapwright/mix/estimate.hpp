#pragma once
/// Amounts from what people know without a scale: trees, people, a mown lawn, the size of a pile.

#include <optional>
#include <string>
#include <variant>

#include "heapwright/materials/amount.hpp"
#include "heapwright/materials/materials.hpp"

namespace heapwright {

/// What somebody knows in place of an amount.
struct Trees {
  double count;
  std::optional<Length> canopy_width;
};
struct People {
  double count;
};
struct MownLawn {
  Area area;
};
/// A pile on the ground: how long, how wide, and how high by measure or by the body.
struct LoosePile {
  Length length;
  Length width;
  PublishedValue<Length> height;
};

/// Any one of them.
using Estimate = std::variant<Trees, People, MownLawn, LoosePile>;

/// Reads `estimate` of a supply; nothing where there is none. Each kind suits some feedstocks only: trees drop leaves.
std::optional<Estimate> read_estimate(Table& supply, const Feedstock& feedstock, const RoughKnowledge& rough);

/// What an estimate comes to.
struct RoughAmount {
  std::optional<Estimate> from;  ///< nothing where the person hesitates between two amounts
  std::variant<Mass, Volume> likely;
  double low;         ///< times likely
  double high;        ///< times likely
  std::string words;  ///< "3 trees, crowns 30 ft wide"
  std::string evidence;
};

/// The amount behind an estimate: of trees a year's leaves, of a lawn a season's clippings, of people a week's scraps, of a pile what lies
/// there.
///
///     trees    m = n · π/4 · width² · fall / (1 − M)          fall: dry leaves a year by the ground under the crowns
///     lawn     m = area · yield                               people   m = n · scraps
///     pile     V = π/8 · length · width · height              a paraboloid; low a cone (π/12), high half an ellipsoid (π/6)
///
/// Ranges are those of RoughKnowledge. Two of them together count as independent: their logarithms add by squares.
RoughAmount rough_amount_of(const Estimate& estimate, MoistureWetBasis moisture, const Materials& materials);

}  // namespace heapwright
