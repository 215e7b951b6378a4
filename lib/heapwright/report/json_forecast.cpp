#include <array>
#include <cmath>

#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

Json date_json(const Forecast& forecast, std::optional<int> day) { return day ? Json(print_date(date_of(forecast, *day))) : Json(nullptr); }

Json instead_json(const Forecast& forecast, const std::optional<Instead>& instead) {
  if (!instead) return nullptr;
  return {{"ready_for_turf", date_json(forecast, instead->turf_day)}, {"mature", date_json(forecast, instead->mature_day)}};
}

/// Null of what has no nitrogen, whose C:N is infinite. A number that is none is refused as any other.
Json ratio_or_null(CarbonNitrogenRatio ratio) { return std::isinf(ratio.value()) ? Json(nullptr) : Json(ratio.value()); }

/// Whichever way it can go.
Json branch_json(const Forecast& forecast, const std::optional<HeatingBranch>& branch) {
  if (!branch) return nullptr;
  return {{"hot_from", window_json(forecast, branch->hot_from)},
          {"ready_for_turf", window_json(forecast, branch->turf)},
          {"mature", window_json(forecast, branch->mature)}};
}

Json heats_json(const Forecast& forecast) {
  const HeatsOrNot& heats = forecast.heats;
  Json tips = Json::array();
  for (const WhatWouldTip& tip : heats.what_would_tip)
    tips.push_back({{"change", change_word(tip.change)}, {"chance_in_ten", 10.0 * tip.chance}});
  return {{"chance_in_ten", 10.0 * heats.chance},
          {"branch", heating_word(heats.heating)},
          {"if_it_heats", branch_json(forecast, heats.if_it_heats)},
          {"if_not", branch_json(forecast, heats.if_not)},
          {"what_would_tip", std::move(tips)},
          {"by_its_log", heats.by_its_log},
          {"log_disagrees", heats.log_disagrees}};
}

template <class Number>
Json series(const Forecast& forecast, Number number) {
  Json values = Json::array();
  for (const DayOfForecast& day : forecast.days) values.push_back(number(day));
  return values;
}

Json days_json(const Forecast& forecast) {
  Json days = Json::array();
  for (std::size_t day = 0; day < forecast.days.size(); ++day) days.push_back(day);
  return days;
}

void add_trajectory(Json& json, const Forecast& forecast) {
  json["days"] = days_json(forecast);
  json["core_degc"] = series(forecast, [](const DayOfForecast& day) { return day.state.core.celsius(); });
  json["core_low_degc"] = series(forecast, [](const DayOfForecast& day) { return day.core_low.celsius(); });
  json["core_high_degc"] = series(forecast, [](const DayOfForecast& day) { return day.core_high.celsius(); });
  json["edge_degc"] = series(forecast, [](const DayOfForecast& day) { return day.state.edge.celsius(); });
  json["moisture_fraction"] = series(forecast, [](const DayOfForecast& day) { return day.state.moisture.value(); });
  json["volatile_solids_left_fraction"] = series(forecast, [](const DayOfForecast& day) { return 1.0 - day.state.volatile_solids_loss; });
  json["respiration_mg_co2c_per_g_om_day"] =
      series(forecast, [](const DayOfForecast& day) { return value_in(mg_carbon_per_g_and_day, day.state.respiration_worst); });
  json["carbon_to_nitrogen"] = series(forecast, [](const DayOfForecast& day) { return ratio_or_null(day.state.carbon_to_nitrogen); });
  json["air_degc"] = series(forecast, [](const DayOfForecast& day) { return day.air.celsius(); });
}

Json finished_json(const YardForecast& answer) {
  const Finished& finished = answer.forecast->finished;
  Json screened = nullptr;
  if (answer.screened)
    screened = {
        {"low", answer.screened->low.value()}, {"likely", answer.screened->likely.value()}, {"high", answer.screened->high.value()}};
  return {{"carbon_to_nitrogen", ratio_or_null(finished.carbon_to_nitrogen)},
          {"moisture_fraction", finished.moisture.value()},
          {"mass_kg", answer.mass.value()},
          {"volume_m3", answer.finished_volume.value()},
          {"screened_volume_m3", screened}};
}

Json notes_json(const Forecast& forecast) {
  Json notes = Json::array();
  for (const ForecastNote note : forecast.notes) notes.push_back(note_word(note));
  return notes;
}

/// All that a forecast has, null where there is none.
constexpr std::array keys_of_a_forecast{"built",
                                        "status",
                                        "ready_for_turf",
                                        "mature",
                                        "binding_criterion",
                                        "peak_core_degc",
                                        "peak_day",
                                        "heats",
                                        "loss",
                                        "finished",
                                        "pile_volume_m3",
                                        "piles",
                                        "week_by_week",
                                        "water_added_kg",
                                        "notes",
                                        "if_watered",
                                        "if_built_in_warmth",
                                        "warm_enough",
                                        "days",
                                        "core_degc",
                                        "core_low_degc",
                                        "core_high_degc",
                                        "edge_degc",
                                        "moisture_fraction",
                                        "volatile_solids_left_fraction",
                                        "respiration_mg_co2c_per_g_om_day",
                                        "carbon_to_nitrogen",
                                        "air_degc"};

}  // namespace

Json window_json(const Forecast& forecast, const ReadyWindow& window) {
  return {{"early", date_json(forecast, window.early)},
          {"likely", date_json(forecast, window.likely)},
          {"late", date_json(forecast, window.late)}};
}

Json forecast_json(const Answer<YardForecast>& whole, const Materials& materials) {
  const YardForecast& answer = whole.result;
  Json json;
  if (answer.forecast) {
    const Forecast& forecast = *answer.forecast;
    json["built"] = print_date(forecast.built);
    json["status"] = status_word(forecast.status);
    json["ready_for_turf"] = window_json(forecast, forecast.turf);
    json["mature"] = window_json(forecast, forecast.mature);
    json["binding_criterion"] = forecast.binding ? Json(criterion_word(*forecast.binding)) : Json(nullptr);
    json["peak_core_degc"] = forecast.peak_core.celsius();
    json["peak_day"] = forecast.peak_day;
    json["heats"] = heats_json(forecast);
    json["loss"] = {{"mass_fraction", forecast.finished.mass_loss},
                    {"volume_fraction", forecast.finished.volume_loss},
                    {"carbon_fraction", forecast.finished.volatile_solids_loss},
                    {"nitrogen_fraction", forecast.finished.nitrogen_loss}};
    json["finished"] = finished_json(answer);
    json["pile_volume_m3"] = answer.volume->value();
    json["piles"] = answer.piles;
    json["week_by_week"] = answer.week_by_week;
    json["water_added_kg"] = forecast.water_given.value();
    json["notes"] = notes_json(forecast);
    json["if_watered"] = instead_json(forecast, forecast.watered);
    json["if_built_in_warmth"] = instead_json(forecast, forecast.built_in_warmth);
    json["warm_enough"] = forecast.warm_enough ? Json(print_date(*forecast.warm_enough)) : Json(nullptr);
    add_trajectory(json, forecast);
  } else {
    for (const char* key : keys_of_a_forecast) json[key] = nullptr;
  }
  return with_grounds(std::move(json), whole, materials);
}

std::string json_of_forecast(const Answer<YardForecast>& answer, const Materials& materials) {
  return printed(forecast_json(answer, materials));
}

}  // namespace heapwright
