#pragma once
/// The parts that several results share as JSON. Not installed: users of the library get text.

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <vector>

#include "heapwright/plan/plan.hpp"
#include "heapwright/plan/season_of_yard.hpp"

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

/// The number of a supply in its yard, or null for what is none of a yard's.
inline Json supply_json(int number) { return number > 0 ? Json(number) : Json(nullptr); }

/// How a whole result is printed.
std::string printed(const Json& json);

/// A result with its assumptions, what to measure first, its working and its cautions.
Json with_grounds(Json result, const Grounds& grounds, const Materials& materials);
Json working_json(const std::optional<Working>& working);
Json amount_json(const RecipeAmount& amount);
Json mix_json(const Mix& mix);
Json pair_json(const Pair& pair);
Json bags_to_a_catcher_json(const std::optional<BagsToACatcher>& table);
Json window_json(const Forecast& forecast, const ReadyWindow& window);

// Whole results, as a plan holds them.
Json recipe_json(const Recipe& recipe);
Json pile_json(const Answer<PileFit>& answer, const Materials& materials);
Json forecast_json(const Answer<YardForecast>& answer, const Materials& materials);
Json readings_json(const Answer<YardReadings>& answer, const Materials& materials);
Json maturity_json(const Answer<YardCompost>& answer, const Materials& materials);
Json season_json(const YardSeason& season);
Json topdressing_json(const Topdressing& topdressing);

}  // namespace heapwright
