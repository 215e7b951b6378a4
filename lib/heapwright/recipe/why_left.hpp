#pragma once
/// Why some of a supply stays out of a pile.

#include <vector>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// Of each supply of a question, in their order, why more of it does not go into what is built. The size of the pile comes first; then what
/// a pile with all of that supply would be, watered towards the moisture aim; and where that would do by itself, its own C:N beside the
/// pile's.
/// @param recipe one with a mix
std::vector<WhyLeft> why_left(const RecipeQuestion& question, const Recipe& recipe);

}  // namespace heapwright
