#pragma once
/// The parts that several results share as JSON. Not installed: users of the library get text.

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <vector>

#include "heapwright/plan/plan.hpp"

namespace heapwright {

using Json = nlohmann::ordered_json;

/// A plain value, or null.
template <class Plain>
Json optional_json(const std::optional<Plain>& value) {
  return value ? Json(*value) : Json(nullptr);
}

/// A quantity's number in SI units, or null.
template <class Quantity>
Json optional_si(const std::optional<Quantity>& quantity) {
  return quantity ? Json(quantity->value()) : Json(nullptr);
}

/// How a whole result is printed.
std::string printed(const Json& json);

Json assumptions_json(const std::vector<Assumption>& assumptions);
Json cautions_json(const std::vector<std::string>& ids, const Materials& materials);
Json measure_first_json(const std::optional<Measurement>& measurement);
Json working_json(const std::optional<Working>& working);
Json amount_json(const RecipeAmount& amount);
Json mix_json(const Mix& mix);
Json pair_json(const Pair& pair);
Json window_json(const Forecast& forecast, const ReadyWindow& window);

// Whole results, as a plan holds them.
Json recipe_json(const Recipe& recipe);
Json pile_json(const PileAnswer& answer, const Materials& materials);
Json forecast_json(const ForecastAnswer& answer, const Materials& materials);
Json readings_json(const ReadingsAnswer& answer, const Materials& materials);
Json maturity_json(const MaturityAnswer& answer, const Materials& materials);
Json topdressing_json(const Topdressing& topdressing);

}  // namespace heapwright
