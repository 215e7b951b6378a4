#pragma once
/// A season that is solved, as people go by it: week by week, in their containers, with what to keep dry and till when. Not installed.

#include "heapwright/plan/season_of_yard.hpp"

namespace heapwright {

/// Fills in weeks, kept_dry, left_dry and bought of a season with a year, from the month of today on.
/// @param counted the season's supplies as the person counts them
/// @param bucket in which browns go in
void tell_season(YardSeason& season, const RecipeQuestion& counted, const ContainerCount& bucket);

}  // namespace heapwright
