#pragma once
/// What rules and laboratories ask for, of materials/criteria.toml.

#include <string>
#include <vector>

#include "heapwright/maturity/time_temperature.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// What a heap has to be made of.
struct StartingRatioRule {
  std::string id;
  std::string name;
  CarbonNitrogenRatio low;
  CarbonNitrogenRatio high;
  std::string source;
  Evidence evidence = Evidence::judged;
};

struct Criteria {
  std::vector<TimeTemperatureRule> rules;
  StartingRatioRule starting_carbon_to_nitrogen;
};

const Criteria& built_in_criteria();

}  // namespace heapwright
