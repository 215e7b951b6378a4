#pragma once
/// Amounts of a question's supplies, as a blend and in the person's measures.

#include <vector>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// Amounts of each supply of a question, in their order, and water.
struct Amounts {
  std::vector<Mass> supplies;
  WaterMass water;
};

/// The blend that they make.
Blend blend_of(const RecipeQuestion& question, const Amounts& amounts);

/// A supply as one measures it while building: so many of a bucket, or what else has no packing of its own.
RecipeSupply measured_in(RecipeSupply supply, const ContainerCount& container);

/// The smallest step in which a person measures about so much of a supply: half a container below ten of them, else one, and one of what is
/// bought; of what is weighed, a unit of the second figure.
Mass measure_of(const RecipeSupply& supply, Mass about);

/// So much of a supply, in its containers, and what that leaves.
RecipeAmount amount_of(const RecipeSupply& supply, Mass mass);

}  // namespace heapwright
