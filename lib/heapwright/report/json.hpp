#pragma once
/// Results as JSON: SI, the unit in the key, fractions from 0 to 1, null for what does not apply. Calculates nothing.

#include <string>

#include "heapwright/materials/check.hpp"
#include "heapwright/plan/plan.hpp"

namespace heapwright {

std::string json_of_mix(const MixAnswer& answer, const Materials& materials);
std::string json_of_recipe(const Recipe& recipe, const Materials& materials);
std::string json_of_topdressing(const Topdressing& topdressing, const Materials& materials);
std::string json_of_plan(const Plan& plan, const Materials& materials);
std::string json_of_pile(const PileAnswer& answer, const Materials& materials);
std::string json_of_forecast(const ForecastAnswer& answer, const Materials& materials);
std::string json_of_readings(const ReadingsAnswer& answer, const Materials& materials);
std::string json_of_maturity(const MaturityAnswer& answer, const Materials& materials);
std::string json_of_feedstocks(const Materials& materials);
std::string json_of_feedstock(const Feedstock& feedstock, const Materials& materials);
std::string json_of_compost(const Compost& compost, const Materials& materials);
std::string json_of_sources(const Materials& materials);
std::string json_of_check(const std::vector<CheckedFeedstock>& checked);

}  // namespace heapwright
