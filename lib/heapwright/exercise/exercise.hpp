#pragma once
/// A problem sheet for a class, with its key. Its numbers are drawn from the published ranges of the tables, so that they come out tidy.

#include <cstdint>
#include <vector>

#include "heapwright/exercise/problems.hpp"
#include "heapwright/exercise/sheet_units.hpp"
#include "heapwright/tables/tables.hpp"

namespace heapwright {

/// A sheet.
struct Exercise {
  std::uint32_t seed = 0;
  Level level = Level::first;
  const SheetUnits* units = nullptr;  ///< that its numbers are tidy in; never null
  std::vector<ExerciseProblem> problems;
};

/// The sheet of a seed: the same on any platform. Six problems at the first level, one of each easy kind; at the others seven of the eight
/// kinds. Draws are picked from lists of what works out, so that no draw is made twice.
/// @throws DomainError where the tables leave nothing tidy to draw from; those that come with the program leave enough
Exercise make_exercise(std::uint32_t seed, Level level, const SheetUnits& units, const Tables& tables);

}  // namespace heapwright
