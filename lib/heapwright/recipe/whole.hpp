#pragma once
/// The recipe in whole and half containers, as a person can carry it out.

#include <optional>

#include "heapwright/recipe/amounts.hpp"
#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// The smallest that one measures with while building.
struct SmallMeasures {
  WaterMass water;           ///< water comes in so many of it
  ContainerCount container;  ///< one bucket: for what the person's own container is too coarse for
};

/// The whole amounts nearest to a recipe that stay inside the windows, the capacity and the shares:
///
///     least Σ|m_i − x_i|/Σx_i over masses m_i of whole measures, then least distance from the aim, then fewest measures
///
/// A measure is half a container where there are fewer than ten of them, else one; one of what is bought; of what is weighed, a unit of the
/// second figure. What is used up (99.9 %) may be all of it, a fixed amount always is. Combinations are looked at in the order of their
/// nearness, so the first that is inside is the nearest. Where none is among the nearest `most_combinations`, the one of least distance; of
/// a recipe off its windows the nearest that is hardly farther off.
/// Nothing where none keeps the limits, or a wanted fill within a tenth, or comes near the windows of a recipe inside them: then the exact
/// amounts are to be weighed. Water comes in whole measures, none or about the moisture aim or the recipe's own water; for the goal
/// least-water just inside the window. Where the person's containers are too coarse for a recipe that is inside, what comes in larger ones
/// is measured in buckets; and where these are too coarse, less than two of them is weighed.
/// @param recipe one with a mix
std::optional<WholeContainers> in_whole_containers(const RecipeQuestion& question, const Recipe& recipe, const SmallMeasures& measures);

/// So many are looked at, judged.
inline constexpr std::size_t most_combinations = 20000;

}  // namespace heapwright
