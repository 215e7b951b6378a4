#pragma once
/// What the households of a class have in all, and a pile to build with them.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/plan/answers.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {

/// What one household has of something.
struct Brought {
  std::string feedstock;  ///< its id
  std::string name;
  bool each_week = false;  ///< so much each week of its season, and not once
  bool kept_out = false;   ///< it may carry a weedkiller, so that nobody brings it
  Mass mass;
  Volume volume;          ///< loose; none where no bulk density of it is known
  Mass on_hand;           ///< on the day
  std::string container;  ///< that it is counted in, by its id; empty for a weight or a volume
};

/// What one household adds to the totals.
struct HouseholdShare {
  std::vector<Brought> brought;
  std::optional<Area> lawn;
};

/// @param today the day on which it would be brought
HouseholdShare share_of(const Yard& yard, Date today);

/// Of one thing, what all households have.
struct ClassTotal {
  std::string feedstock;
  std::string name;
  bool each_week = false;
  bool kept_out = false;
  int households = 0;
  Mass mass;
  Volume volume;
};

/// A pile built before the class of what most of it has.
struct DemonstrationPile {
  Answer<Recipe> recipe;
  std::vector<ClassTotal> brought;  ///< what there is of each thing that goes in, on the day
  bool is_to_build = false;         ///< of a size, and not so far off its targets that nobody should build it
};

/// All households together.
struct ClassTotals {
  int households = 0;
  std::vector<ClassTotal> things;  ///< the largest volume first
  int lawns = 0;
  Area lawn;
  std::optional<DemonstrationPile> pile;  ///< nothing where nobody has anything on the day
};

/// A cubic yard of the brown and the green that the class has most of on the day; of all it has where those two alone make no good pile.
/// @param shares in the order of the roster: sums are the same to the last digit whenever they are made
/// @param base whose tables, units, targets and wishes for a recipe the pile has
ClassTotals totals_of(const std::vector<HouseholdShare>& shares, const Yard& base, Date today);

}  // namespace heapwright
