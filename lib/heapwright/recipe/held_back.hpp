#pragma once
/// Which limit keeps a recipe from using all that is on hand, or from its targets.

#include <vector>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

struct HardLimits;

/// Found by solving again with one limit lifted at a time:
/// - not everything fits: the capacity, or a share, whose lifting lets everything in;
/// - everything in is off target: the windows whose lifting alone would admit it; where no one is enough, each that everything in misses;
/// - a recipe off target: the size alone, where a larger one would come nearer; else the share, the supply whose want of more brings it
/// nearer, and the water.
/// @param hard the limits that the recipe keeps: without a fill that cannot be reached
std::vector<HeldBack> held_back_by(const RecipeQuestion& question, const HardLimits& hard, const Recipe& recipe);

}  // namespace heapwright
