#pragma once
/// The single answers about a yard, of which a plan is made: its mix, its recipe, its heap.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/heap/heap.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// What all that is on hand makes together, with some water.
struct MixAnswer {
  std::optional<Mix> mix;  ///< nothing where nothing is on hand
  std::vector<Assumption> assumptions;
  std::optional<Measurement> measure_first;
  std::vector<std::string> cautions;
  Batch batch;                     ///< what the mix was made of
  std::optional<Working> working;  ///< where it was asked for
};
/// Supplies with an amount, not bought, each by what is on hand on the day.
MixAnswer mix_on_hand(const Yard& yard, WaterMass added_water, Date today);

/// The recipe of a yard's first heap, with its assumptions and cautions.
Recipe first_recipe(const Yard& yard, Date today);

/// The heap of a yard with what its recipe puts in, where that comes to a size: described, or suggested.
HeapAnswer heap_of(const Yard& yard, const Recipe& recipe, Date today);

}  // namespace heapwright
