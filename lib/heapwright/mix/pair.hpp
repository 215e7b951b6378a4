#pragma once
/// How much of one feedstock a given amount of another wants, by closed forms.

#include "heapwright/materials/feedstock.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// As-is mass of a second feedstock that brings a first to a wet-basis moisture goal:
///
///     a = b (M_b − G) / (G − M_a)        b first, a second, G the goal
///
/// @throws DomainError unless the goal lies between the two moistures (one of them may equal it only where a is zero)
/// B.C. Agricultural Composting Handbook, 2nd ed. 1998, Appendix A2/A3; Cornell Composting, Moisture Content.
Mass mass_for_moisture(Mass first, MoistureWetBasis first_moisture, MoistureWetBasis second_moisture, MoistureWetBasis goal);

/// As-is mass of a second feedstock that brings a first to a C:N goal R:
///
///     a = b (n_b/n_a) (R − R_b)/(R_a − R) (1 − M_b)/(1 − M_a)
///
/// @throws DomainError unless the goal lies between the two ratios
/// Source as above.
Mass mass_for_carbon_to_nitrogen(Mass first, const Properties& first_properties, const Properties& second_properties,
                                 CarbonNitrogenRatio goal);

}  // namespace heapwright
