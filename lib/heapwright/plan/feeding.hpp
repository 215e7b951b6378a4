#pragma once
/// What a pile gets after its first day, week by week.

#include <optional>
#include <vector>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// Each week from the day on the cards of what is then in season, while the browns that the first pile leaves last, for a year at most.
/// Nothing where no greens come, or the browns do not last a week.
/// @param supplies in the order of the question
/// @param recipe with its amounts and its cards
std::optional<FeedingSchedule> feeding_schedule(const std::vector<Supply>& supplies, const RecipeQuestion& question, const Recipe& recipe,
                                                Date built);

}  // namespace heapwright
