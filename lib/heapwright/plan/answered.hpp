#pragma once
/// Which question a yard's recipe answers: the one that was asked, one within wider windows, or one that counts what rots.

#include <optional>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

struct Materials;

/// A question and the recipe that answers it.
struct Answered {
  RecipeQuestion question;
  Recipe recipe;
  FoundWithin windows = FoundWithin::targets;
};

/// The recipe inside its windows, or nearest to them; or one within wider windows, where that makes at least twice the pile (judged): who
/// keeps to the windows then leaves most of what there is.
Answered largest_good(const RecipeQuestion& question);

/// Whether something that hardly rots, and is there, goes in; of a recipe with amounts.
bool takes_what_hardly_rots(const RecipeQuestion& rotting, const Recipe& recipe);

/// The good pile that has things in it which hardly rot, off the windows by no more than anyone can tell: all of them, where that can be,
/// else as much as goes. Chips are mulch, and go into none.
/// @param rotting by_what_rots() of what_rots.hpp
std::optional<Answered> bedded(const RecipeQuestion& rotting, const Materials& materials);

/// A recipe that was found within wider windows, judged by the person's own.
void judge_by(const Targets& targets, FoundWithin windows, Recipe& recipe);

/// Of a recipe that counts what rots, the mixes with all the carbon and nitrogen that is in them, as the one that counts all has.
void count_all_of(const RecipeQuestion& question, const Recipe& of_all, Recipe& recipe);

}  // namespace heapwright
