#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

Json compared_json(const ComparedPile& pile) {
  Json json{{"change", change_word(pile.change)}, {"same_as_it_is", pile.same_as_it_is}};
  const YardForecast& answer = pile.forecast;
  if (!answer.forecast) {
    for (const char* key : {"built", "status", "heats", "ready_for_turf", "screened_volume_m3", "water_added_kg"}) json[key] = nullptr;
    return json;
  }
  const Forecast& forecast = *answer.forecast;
  const Json window = window_json(forecast, ready_for_turf(forecast));
  json["built"] = print_date(forecast.built);
  json["status"] = status_word(forecast.status);
  json["heats"] = {{"chance_in_ten", 10.0 * forecast.heats.chance}, {"branch", heating_word(forecast.heats.heating)}};
  json["ready_for_turf"] = {{"early", window["early"]}, {"late", window["late"]}};
  json["screened_volume_m3"] = nullptr;
  if (answer.screened)
    json["screened_volume_m3"] = {
        {"low", answer.screened->low.value()}, {"likely", answer.screened->likely.value()}, {"high", answer.screened->high.value()}};
  json["water_added_kg"] = forecast.water_given.value();  // as of one forecast: of the pile that is followed
  return json;
}

}  // namespace

std::string json_of_comparison(const Answer<PileComparison>& answer, const Materials& materials) {
  Json piles = Json::array();
  for (const ComparedPile& pile : answer->piles) piles.push_back(compared_json(pile));
  return printed(with_grounds({{"compare", std::move(piles)}}, answer, materials));
}

}  // namespace heapwright
