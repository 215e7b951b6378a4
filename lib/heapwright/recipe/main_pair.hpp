#pragma once
/// The two feedstocks that a pile is made of, where there are just two.

#include <optional>

#include "heapwright/mix/pair.hpp"
#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

/// All mixes of the two supplies of a question that are neither supplements nor minerals and of which there is some; the one with the
/// greater C:N first. Nothing where there are fewer or more.
std::optional<Pair> main_pair(const RecipeQuestion& question);

}  // namespace heapwright
