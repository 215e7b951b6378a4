#pragma once
/// The year of a yard: how much to keep dry, what goes in with each load, what lacks when, what is better left.

#include <chrono>
#include <optional>
#include <vector>

#include "heapwright/mix/answer.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/season/year.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// What goes in each week of some months in a row, the same in all of them.
struct WeekOfSeason {
  std::chrono::month from;
  std::chrono::month to;
  std::vector<RecipeAmount> greens;  ///< what comes, as much of it as goes in
  std::vector<RecipeAmount> browns;  ///< kept or bought ones with it
  std::vector<RecipeAmount> left;    ///< of what comes
  WaterMass water;
};

/// Browns to keep dry.
struct KeptDry {
  RecipeAmount most;                           ///< when the store is fullest
  std::chrono::month fullest;                  ///< at the end of this month
  std::optional<std::chrono::month> lasts_to;  ///< the last month that uses of it before the store is empty
};

struct YardSeason {
  std::vector<Supply> supplies;  ///< of a year; those of the question, in their order
  YearQuestion question;
  Year year;
  std::vector<WeekOfSeason> weeks;  ///< in the order of the year, from the month of the day
  std::vector<KeptDry> kept_dry;
  std::vector<RecipeAmount> left_dry;        ///< more browns than the year can use
  std::vector<RecipeAmount> bought;          ///< in the whole year
  std::vector<RecipeAmount> would_take_all;  ///< either of them: browns with which all that is left could go in
  std::optional<DryMass> mulch;              ///< of leaves, that the lawn takes at the well-supported rate in a year
  bool browns_only = false;                  ///< nothing fresh comes
  bool greens_only = false;                  ///< nothing dry
};

/// The most dry leaves that a lawn is well known to take mulched in, once a year: 0.54 kg/m² without harm in three years (Nektarios,
/// Petrovic and Sender, Cornell, J. Turfgrass Management 3:69, 1999, seen).
inline constexpr DryMassPerArea most_mulched_leaves = 0.54 * unit::kg_dry / unit::m2;

Answer<YardSeason> season_of_yard(const Yard& yard, Date today);

}  // namespace heapwright
