#include "heapwright/mix/pair.hpp"

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The share of the first's distance from the goal in the second's, both on opposite sides of it. NaN fails.
bool lies_between(double goal, double first, double second) { return (goal - first) * (second - goal) > 0.0 || goal == first; }

[[noreturn]] void refuse(const std::string& goal, const std::string& first, const std::string& second) {
  throw DomainError("no mix of the two reaches " + goal + ": they have " + first + " and " + second, "the goal must lie between the two");
}

std::string percent(MoistureWetBasis moisture) { return print_number(100.0 * moisture.value(), 3) + " %"; }
std::string ratio(CarbonNitrogenRatio value) { return print_number(value.value(), 3) + ":1"; }

}  // namespace

Mass mass_for_moisture(Mass first, MoistureWetBasis first_moisture, MoistureWetBasis second_moisture, MoistureWetBasis goal) {
  if (!lies_between(goal.value(), first_moisture.value(), second_moisture.value()))
    refuse(percent(goal), percent(first_moisture), percent(second_moisture));
  if (goal == first_moisture) return 0.0 * unit::kg;
  return first * ((first_moisture - goal) / (goal - second_moisture)).value();
}

Mass mass_for_carbon_to_nitrogen(Mass first, const Properties& a, const Properties& b, CarbonNitrogenRatio goal) {
  const CarbonNitrogenRatio ratio_a = a.carbon / a.nitrogen;
  const CarbonNitrogenRatio ratio_b = b.carbon / b.nitrogen;
  if (!lies_between(goal.value(), ratio_a.value(), ratio_b.value())) refuse(ratio(goal), ratio(ratio_a), ratio(ratio_b));
  const double nitrogen = (a.nitrogen / b.nitrogen).value();
  const double distance = goal == ratio_a ? 0.0 : ((goal - ratio_a) / (ratio_b - goal)).value();
  const double dryness = (1.0 - a.moisture.value()) / (1.0 - b.moisture.value());
  return first * (nitrogen * distance * dryness);
}

}  // namespace heapwright
