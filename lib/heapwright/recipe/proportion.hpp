#pragma once
/// A ratio without a size: so many parts of this to so many of that, and what goes with each load of greens.

#include <optional>
#include <vector>

#include "heapwright/recipe/whole.hpp"

namespace heapwright {

/// The least total of whole equal-volume parts, one at least of each supply, whose mix is inside the windows with as much water as brings
/// it towards the moisture aim; of equal totals the nearest to the aim. At most `most_parts` in all. Supplements and minerals have no part
/// in it, nor has what the recipe leaves out. Nothing where no such parts are inside, or only one supply is there.
/// @param taking_part places of supplies in the question
std::optional<Proportion> proportion_of(const RecipeQuestion& question, const std::vector<std::size_t>& taking_part,
                                        const Materials& materials);

/// Judged: more parts nobody counts out.
inline constexpr int most_parts = 24;

/// For each kind of greens among some supplies: a week's load of them, else one container, and the browns among those supplies that go with
/// it, in halves of the container that the person counts them in, else of buckets, and water in `water_measure`. Nothing for greens that
/// the browns do not bring inside the windows.
std::vector<Card> cards_of(const RecipeQuestion& question, const std::vector<std::size_t>& taking_part, const SmallMeasures& measures);

/// The places of the supplies that a pile is made of: neither supplements nor minerals, and there is some.
std::vector<std::size_t> main_supplies(const RecipeQuestion& question);

/// The answer to a question in which nothing has an amount (status no-size): the proportion, with its mix in buckets, and the cards. Where
/// no proportion is inside the windows, what so much of each together comes to: `example`.
/// @param others what can be got besides
Recipe recipe_without_a_size(const RecipeQuestion& question, Volume example, const SmallMeasures& measures, const Materials& materials,
                             const std::vector<RecipeSupply>& others);

}  // namespace heapwright
