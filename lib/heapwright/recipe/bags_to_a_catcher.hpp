#pragma once
/// How many bags of leaves a mower's catcher of clippings wants, by how both lie: what people ask on the phone before they have measured.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/amount.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

struct Materials;
struct RecipeQuestion;

/// Clippings that lay in the sun for a day or two (judged): below this they are hay.
inline const MoistureWetBasis wilted_clippings = wet_basis(0.60);

/// Clippings of one kind to leaves of one kind.
struct BagsForOne {
  std::string leaves_lie;      ///< packing: "bagged"
  std::string clippings_lie;   ///< likewise, in the catcher
  bool wilted = false;         ///< to wilted_clippings after the catcher was emptied: no lighter in dry matter
  double bags = 0.0;           ///< to one catcher, at the C:N aim
  double low = 0.0;            ///< eight times in ten
  std::optional<double> high;  ///< likewise; nothing where leaves may be too green to reach the aim
  MoistureWetBasis moisture;   ///< of that mix, without water
};

/// A table of them, by how both lie.
struct BagsToACatcher {
  std::string leaves;  ///< ids
  std::string clippings;
  std::string leaves_name;
  std::string clippings_name;
  ContainerCount bag;
  ContainerCount catcher;
  CarbonNitrogenRatio aim;
  std::vector<BagsForOne> rows;  ///< the leaves' packings one after another
};

/// Of a question about leaves and clippings, of which as much as wanted is on hand; nothing of any other. Each row by the C:N balance of
/// one catcher and x bags, with D dry matter, c carbon and n nitrogen of it:
///
///     x = D_1 (R n_1 − c_1) / (D_2 (c_2 − R n_2))        1 a catcher of clippings, 2 a bag of leaves, R the C:N aim
///
/// and its range by the draws of ranges.hpp, of each figure of both and of the catcher's size.
std::optional<BagsToACatcher> bags_to_a_catcher(const RecipeQuestion& question, const Materials& materials);

}  // namespace heapwright
