#pragma once
/// Numbers that a class can reckon with.

#include <vector>

#include "heapwright/mix/mix.hpp"
#include "heapwright/units/band.hpp"

namespace heapwright {

/// Whose the givens of a sheet are, and the formulas of a mix.
inline constexpr const char* given_on_the_sheet = "given";
inline constexpr const char* mix_handbook = "B.C. Agricultural Composting Handbook, 2nd ed. 1998, Appendix A2/A3";

/// Whether a number is so many whole steps.
bool is_even(double number, double step);

/// Whether a number rounds to the same step however it was worked out: a step of its working that was rounded may move it a little.
bool rounds_clearly(double number, double step);

/// The multiples of a step between two numbers, both included.
std::vector<double> multiples_of(double step, Band<double> between);

/// Between what the first published value of a property lies; of one figure without a range that figure alone.
template <class Quantity>
Band<double> published_between(const PublishedValues<Quantity>& values, double times = 1.0) {
  const PublishedValue<Quantity>& first = values.at(0);
  const Quantity typical = first.typical.value_or(first.low.value_or(Quantity()));
  return {times * first.low.value_or(typical).value(), times * first.high.value_or(typical).value()};
}

/// So much of a feedstock, tidy in all that a class works out of it: dry matter in whole pounds (kilograms), carbon to the tenth,
/// nitrogen to the hundredth. Moisture, carbon and C:N lie in their published ranges.
std::vector<Ingredient> tidy_portions(const Feedstock& feedstock, const std::vector<Mass>& masses, Mass one);

}  // namespace heapwright
