#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

Json calendar_json(const std::vector<CalendarChore>& calendar, const Materials& materials) {
  Json list = Json::array();
  for (const CalendarChore& chore : calendar)
    list.push_back({{"id", chore.what.id},
                    {"from", print_date(chore.from)},
                    {"to", print_date(chore.to)},
                    {"every_days", chore.every ? Json(chore.every->count()) : Json(nullptr)},
                    {"about", chore.about},
                    {"chore", chore.what.text},
                    {"why", chore.what.why},
                    {"source", source_in_short(materials, chore.what.source, chore.what.evidence)}});
  return list;
}

}  // namespace

std::string json_of_plan(const Answer<Plan>& answer, const Materials& materials) {
  const Plan& plan = answer.result;
  Json own = nullptr;
  if (plan.supply.own_compost)
    own = {{"low", plan.supply.own_compost->low.value()},
           {"likely", plan.supply.own_compost->likely.value()},
           {"high", plan.supply.own_compost->high.value()}};
  Json json{{"yard", plan.title},
            {"built", print_date(plan.built)},
            {"season", plan.season ? season_json(*plan.season) : Json(nullptr)},
            {"recipe", recipe_json(plan.recipe.result)},
            {"pile", plan.fit ? pile_json(*plan.fit, materials) : Json(nullptr)},
            {"forecast", plan.forecast ? forecast_json(*plan.forecast, materials) : Json(nullptr)},
            {"readings", plan.readings ? readings_json(*plan.readings, materials) : Json(nullptr)},
            {"maturity", plan.maturity ? maturity_json(*plan.maturity, materials) : Json(nullptr)}};
  json["topdress"] = plan.topdressing ? topdressing_json(plan.topdressing->result) : Json(nullptr);
  json["supply"] = {
      {"own_compost_m3", std::move(own)}, {"needed_m3", optional_si(plan.supply.needed)}, {"to_buy_m3", optional_si(plan.supply.to_buy)}};
  json["calendar"] = calendar_json(plan.calendar, materials);
  return printed(with_grounds(std::move(json), answer, materials));
}

}  // namespace heapwright
