#pragma once
/// A pile by what really went into it.

#include <optional>
#include <vector>

#include "heapwright/plan/season_of_yard.hpp"
#include "heapwright/process/pile_to_build.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// Whether loads say what is in the pile.
inline bool is_loaded(const Yard& yard) { return !yard.loads.empty(); }

/// Whether nothing but a plan says that there is a pile, or will be.
bool is_only_planned(const Yard& yard, Date today);

/// A yard without the loads that are dated after a day.
Yard as_of(Yard yard, Date today);

/// Whether it was filled by its recipe days before the first load: what went in is both. Three days and more, judged.
bool is_filled_before_loads(const Yard& yard);
/// All that went in: where it was filled before its loads, its recipe's amounts and water as loads of that day, and the loads.
std::vector<Load> all_loads_of(const Yard& yard);

/// Whether some load says how much water was poured on. Where none does, each day's loads are taken as watered to the aim if they are drier
/// than its window, as every recipe tells (judged).
bool tells_water(const std::vector<Load>& loads);

/// The yard of a pile that is there: its supplies are what went in, all of it, and its water has been given. With an amount of each, and
/// those alike joined.
Yard as_loaded(const Yard& yard);

/// The recipe of what is in a yard's pile: of its loads, where it has some, else of what is on hand on the day it is built.
Answer<Recipe> recipe_in_pile(const Yard& yard, Date today);

/// What the pile has of a yard's supplies, by the feedstocks of its loads: of several supplies of one feedstock the first first.
InPile in_pile_by_loads(const Yard& yard, Date today);

/// A yard with what its loads left on hand, for the next pile; as it is where it tells none.
Yard not_loaded_yet(const Yard& yard, Date today);

/// Whether a mix is enough to be followed, by sets that pack it a third closer too.
bool is_enough_to_follow(const Yard& yard, const Mix& mix);

/// What went in, by days: the first of them until there is enough to be followed, and the rest.
struct LoadedPile {
  Date begun;  ///< the day on which there is enough
  Mix first;
  std::vector<LaterLoad> later;
};
/// @return nothing where all of it is too little
std::optional<LoadedPile> loaded_pile(const Yard& yard);

/// The year with what the pile of a yard has, or will have by its recipe.
Answer<YardSeason> season_with_pile(const Yard& yard, const Answer<Recipe>& recipe, Date today);
/// The year of a yard: with its pile where it describes one, or tells its loads.
Answer<YardSeason> season_of(const Yard& yard, Date today);

}  // namespace heapwright
