#pragma once
/// What the person wants of the recipe: its goal, and how big a pile.

#include <optional>
#include <string_view>

#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// README.md, stages: the goal.
enum class Goal { use_most, cheapest, least_bought, least_water };

/// "use-most".
std::string_view goal_word(Goal goal);

/// What [recipe] says.
struct RecipeOptions {
  Goal goal = Goal::use_most;
  std::optional<Volume> fill;      ///< the pile volume wanted, settled
  std::optional<Volume> capacity;  ///< or a limit to it
  ShareOfLooseVolume settling = ShareOfLooseVolume::of(1.0);
  std::optional<WaterMass> most_water;
  WaterMass given_water;  ///< what a pile got already, which every way to help counts
};

/// A volume of 1 L or more. @throws TextError
Volume read_pile_volume(std::string_view text);

RecipeOptions read_recipe_options(Table& root);  ///< [recipe]

}  // namespace heapwright
