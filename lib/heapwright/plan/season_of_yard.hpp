#pragma once
/// The year of a yard: how much to keep dry, what goes in with each load, what lacks when, what is better left.

#include <chrono>
#include <map>
#include <optional>
#include <vector>

#include "heapwright/mix/answer.hpp"
#include "heapwright/plan/leaves_alone.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/season/year.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// What goes in each week of some months in a row, the same in all of them.
struct WeekOfSeason {
  std::chrono::month from;
  std::chrono::month to;
  Date first;  ///< of these months
  Date last;
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
  std::optional<Date> runs_out;                ///< the last day of that month
};

/// What the pile has, or will have, of a yard's supplies by a day, after which the year is planned.
struct InPile {
  Date by;
  std::map<int, Mass> of_supplies;  ///< by their numbers

  /// Of one supply; none where it has none.
  Mass of(const Supply& supply) const {
    const auto found = of_supplies.find(supply.number);
    return found == of_supplies.end() ? Mass() : found->second;
  }
};
/// What a recipe puts in on the day it is built.
InPile in_pile_of(const Recipe& recipe, Date built);

/// The year of a yard, solved and told.
struct YardSeason {
  Date from;                      ///< the day that it begins on
  int months = 12;                ///< that it has: all of a year, else until new browns come
  Date until;                     ///< the last day; of one whose browns run out within a month, that day
  bool after_pile = false;        ///< what the pile has is gone
  std::optional<InPile> in_pile;  ///< that
  Date new_browns;                ///< the first day on which new ones come, of which the next pile is built; the end where none do
  std::vector<Supply> supplies;   ///< of a year; those of the question, in their order
  YearQuestion question;
  Year year;
  std::vector<WeekOfSeason> weeks;  ///< in the order of the year, from the month of today on
  std::vector<KeptDry> kept_dry;
  std::vector<RecipeAmount> left_dry;             ///< more browns than the year can use
  std::vector<RecipeAmount> bought;               ///< in the whole year
  std::vector<RecipeAmount> would_take_all;       ///< either of them: browns with which all that is left could go in
  std::optional<RecipeAmount> wanted_for_scraps;  ///< browns for all scraps till new ones come, where there are too few
  std::optional<DryMass> mulch;                   ///< of leaves, that the lawn takes at the well-supported rate in a year
  bool scraps_only = false;                       ///< browns are too few for all scraps: it goes on as long as they last, without clippings
  Date today;                                     ///< on which it is asked
  std::optional<LeavesAlone> leaves_alone;        ///< where there is nothing but leaves
  bool browns_only = false;                       ///< nothing fresh comes
  bool greens_only = false;                       ///< nothing dry
};

/// Without a pile the year as it comes and comes again. With one, what it has is gone: what is left must last till new browns come, of
/// which the next pile is built. Where that is less than three months away the year goes on past them (judged). Where what is left is too
/// little for all scraps the season ends when it is used up.
Answer<YardSeason> season_of_yard(const Yard& yard, Date today, const std::optional<InPile>& in_pile = std::nullopt);

/// How much of a month of a season there is, its first being 0: of a round year all; else of its first what comes from its first day on,
/// and of its last what comes up to its end, a tenth at least so that nothing is told of as if all of a month went in at once (judged).
double share_of_month_in(const YardSeason& season, int later);

/// What goes in on one day.
struct WeeklyLoad {
  Date date;
  Blend blend;
  Mix mix;  ///< of that
};
/// A load each seven days after a day, until the season ends.
std::vector<WeeklyLoad> weekly_loads(const YardSeason& season, Date after, ShareOfLooseVolume settling);

}  // namespace heapwright
