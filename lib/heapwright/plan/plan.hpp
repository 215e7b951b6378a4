#pragma once
/// The whole job of one yard: recipe, the compost it gives, the lawn's need, what to buy.

#include <optional>
#include <vector>

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/pile/pile.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/batches.hpp"
#include "heapwright/plan/calendar.hpp"
#include "heapwright/plan/compost_by_date.hpp"
#include "heapwright/plan/leaves_alone.hpp"
#include "heapwright/plan/season_of_yard.hpp"
#include "heapwright/recipe/recipe.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// What the pile gives against what the lawn wants in a year.
struct SupplyBalance {
  std::optional<CompostYield> own_compost;
  std::optional<Volume> needed;  ///< for a year, with allowance
  std::optional<Volume> to_buy;  ///< at the likely yield, never below zero
  std::optional<Area> covers;    ///< of the lawn, by what the pile likely gives; nothing where it gives none
};

/// All answers about a yard, chained.
struct Plan {
  std::string title;
  Date today;
  Date built;
  Answer<Recipe> recipe;
  bool has_supplies = false;
  std::optional<Stands> stands;  ///< nothing where it is to be built
  std::vector<Load> loads;       ///< that went in
  std::optional<PileDescription> pile;
  std::optional<Answer<PileFit>> fit;            ///< of the described bins or piles; the recipe is not limited by them
  std::optional<Answer<YardForecast>> forecast;  ///< where there is weather and a pile of some size
  std::optional<Answer<YardReadings>> readings;  ///< where something was measured, felt or noticed; without a forecast of its own
  std::optional<Answer<YardCompost>> maturity;   ///< where something was tested or checked
  std::optional<Answer<Topdressing>> topdressing;
  SupplyBalance supply;
  std::optional<YardSeason> season;         ///< where some supply comes in its season
  std::optional<LeavesAlone> leaves_alone;  ///< where there is nothing but leaves, in place of a pile
  bool greens_alone = false;                ///< nothing but clippings, which stay on the lawn, and scraps, which want browns first
  std::vector<CompostBatch> batches;        ///< where there is weather; the first is the pile
  std::vector<LawnByDate> lawn_by_date;     ///< where there is a lawn
  std::vector<CalendarChore> calendar;

  /// Not of leaves alone or greens alone.
  bool is_for_a_pile() const { return !leaves_alone && !greens_alone; }
};

/// The whole job run through.
/// @param today the day on which a pile without a date is built
Answer<Plan> make_plan(const Yard& yard, Date today);

}  // namespace heapwright
