#pragma once
/// Pieces of ground by the points of their edge.

#include <vector>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// A point of a plan, east and north of any other.
struct PlanPoint {
  Length east;
  Length north;
};

/// The points of an edge in their order, either way around; it closes from the last to the first.
using Outline = std::vector<PlanPoint>;

inline constexpr std::size_t most_points = 5000;  ///< of one outline

/// Takes away what only repeats a point: the first at the end, and any twice in a row.
Outline without_repeats(Outline outline);

/// @throws DomainError for fewer than three points, for more than `most_points`, and for an edge that crosses or touches itself, with the
/// numbers of its points, from 1
void check_outline(const Outline& outline);

/// |Σ (xᵢ yᵢ₊₁ − xᵢ₊₁ yᵢ)|/2, the shoelace formula, from the first point on so that far-off plans lose no digits.
/// @throws DomainError as check_outline()
Area outline_area(const Outline& outline);

/// Whether a piece lies in another, edges included. @pre both pass check_outline()
bool lies_in(const Outline& inner, const Outline& outer);

}  // namespace heapwright
