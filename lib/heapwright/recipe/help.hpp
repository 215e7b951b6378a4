#pragma once
/// What would set a recipe right, or let all that is on hand be used: found by solving again.

#include <vector>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// Feedstocks that most people can get (`easy_to_get` in the table), as supplies of a recipe that buys them.
std::vector<RecipeSupply> easy_to_get(const Materials& materials);

/// Ways to a pile inside its windows, any one of which does. Where a size was wished for and is not well filled, a pile of that size; else
/// one of everything on hand, whatever the capacity. `others` can be got besides what is on hand. For each candidate the least of it, found
/// by a programme of its own; supplements only against a want of nitrogen, and not for wood; where no feedstock does
/// alone, the least volume of several; water where only its limit stands against it; clippings
/// left to wilt where all is in balance but too wet. Clippings can dry to `driest_clippings`. What is on hand comes first, supplements
/// last. Nothing where nothing is wanted or helps.
/// @param recipe of the question, with a mix
std::vector<Help> what_would_help(const RecipeQuestion& question, const Recipe& recipe, const std::vector<RecipeSupply>& others);

/// As dry as hay. (judged)
inline const MoistureWetBasis driest_clippings = wet_basis(0.20);

}  // namespace heapwright
