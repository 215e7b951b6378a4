#pragma once
/// A problem of each kind, drawn.

#include "heapwright/exercise/draw.hpp"
#include "heapwright/exercise/problems.hpp"
#include "heapwright/exercise/sheet_units.hpp"
#include "heapwright/tables/tables.hpp"

namespace heapwright {

/// Each kind of exercise/problems.hpp with its answer and its working. @throws DomainError where the tables leave nothing tidy
ExerciseProblem draw_moisture(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);
ExerciseProblem draw_water(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);
ExerciseProblem draw_ratio(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);
ExerciseProblem draw_leaves(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);  ///< not of the first level
ExerciseProblem draw_volume(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);
ExerciseProblem draw_log(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);
ExerciseProblem draw_tests(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);
ExerciseProblem draw_nitrogen(Draw& draw, Level level, const SheetUnits& units, const Tables& tables);  ///< not of the first level

}  // namespace heapwright
