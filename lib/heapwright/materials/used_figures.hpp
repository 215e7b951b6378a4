#pragma once
/// How the figures are known that answers are worked out from.

#include <cstddef>

#include "heapwright/materials/materials.hpp"

namespace heapwright {

/// A count of figures by their evidence.
struct UsedFigures {
  std::size_t seen = 0;
  std::size_t secondary = 0;
  std::size_t memory = 0;
  std::size_t judged = 0;
  std::size_t own = 0;              ///< the user's
  std::size_t ranges_not_read = 0;  ///< of those seen or secondary: with a range that is remembered or judged

  /// How many there are, however they are known.
  std::size_t all() const { return seen + secondary + memory + judged + own; }
};

/// Of each feedstock that can be mixed and of each compost: the first value of a property. Nitrogen counts where it does not follow from
/// carbon and C:N; ash never, since it is there to compare.
UsedFigures used_figures(const Materials& materials);

}  // namespace heapwright
