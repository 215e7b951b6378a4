#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

/// What goes in of a feeding, else what is kept or to get.
Json amounts_json(const CalendarChore& chore) {
  Json list = Json::array();
  const auto add = [&](const std::vector<RecipeAmount>& amounts) {
    for (const RecipeAmount& amount : amounts) list.push_back(amount_json(amount));
  };
  if (chore.week) add(chore.week->greens);
  if (chore.week) add(chore.week->browns);
  add(chore.amounts);
  return list;
}

Json calendar_json(const std::vector<CalendarChore>& calendar, const Materials& materials) {
  Json list = Json::array();
  for (const CalendarChore& chore : calendar)
    list.push_back({{"id", chore.what.id},
                    {"from", print_date(chore.from)},
                    {"to", print_date(chore.to)},
                    {"every_days", chore.every ? Json(chore.every->count()) : Json(nullptr)},
                    {"about", chore.about},
                    {"pile", chore.batch > 0 ? Json(chore.batch) : Json(nullptr)},
                    {"amounts", amounts_json(chore)},
                    {"title", chore.what.title},
                    {"chore", chore.what.text},
                    {"why", chore.what.why},
                    {"source", source_in_short(materials, chore.what.source, chore.what.evidence)}});
  return list;
}

Json date_or_null(const std::optional<Date>& date) { return date ? Json(print_date(*date)) : Json(nullptr); }

Json yield_json(const CompostYield& yield) {
  return {{"low", yield.low.value()}, {"likely", yield.likely.value()}, {"high", yield.high.value()}};
}

Json batches_json(const std::vector<CompostBatch>& batches) {
  Json list = Json::array();
  for (const CompostBatch& batch : batches)
    list.push_back({{"bin", batch.bin > 0 ? Json(batch.bin) : Json(nullptr)},
                    {"from", print_date(batch.from)},
                    {"until", print_date(batch.until)},
                    {"mix", mix_json(batch.mix)},
                    {"ready_for_turf",
                     {{"early", date_or_null(batch.early)}, {"likely", date_or_null(batch.likely)}, {"late", date_or_null(batch.late)}}},
                    {"screened_volume_m3", batch.screened ? yield_json(*batch.screened) : Json(nullptr)}});
  return list;
}

Json by_date_json(const std::vector<LawnByDate>& lawn) {
  Json list = Json::array();
  for (const LawnByDate& one : lawn)
    list.push_back({{"from", print_date(one.time.from)},
                    {"to", print_date(one.time.to)},
                    {"needed_m3", one.needed.value()},
                    {"own_compost_m3", yield_json(one.own)},
                    {"covers_m2", one.covers.value()},
                    {"to_buy_m3", one.to_buy.value()}});
  return list;
}

std::string_view stands_word(Stands stands) {
  switch (stands) {
    case Stands::by_date: return "by-date";
    case Stands::by_word: return "by-word";
    case Stands::by_loads: return "by-loads";
  }
  return {};
}

Json leaves_alone_json(const LeavesAlone& leaves) {
  return {{"all", amount_json(leaves.all)},
          {"keep", amount_json(leaves.keep)},
          {"clippings", amount_json(leaves.clippings)},
          {"water_kg", leaves.water.value()},
          {"build", print_date(leaves.build)},
          {"mulch", leaves.mulch ? amount_json(*leaves.mulch) : Json(nullptr)},
          {"mold", leaves.mold ? amount_json(*leaves.mold) : Json(nullptr)}};
}

}  // namespace

std::string json_of_plan(const Answer<Plan>& answer, const Materials& materials) {
  const Plan& plan = answer.result;
  Json own = nullptr;
  if (plan.supply.own_compost) own = yield_json(*plan.supply.own_compost);
  Json json{{"yard", plan.title},
            {"built", print_date(plan.built)},
            {"stands", plan.stands ? Json(stands_word(*plan.stands)) : Json(nullptr)},
            {"leaves_alone", plan.leaves_alone ? leaves_alone_json(*plan.leaves_alone) : Json(nullptr)},
            {"batches", batches_json(plan.batches)},
            {"season", plan.season ? season_json(*plan.season) : Json(nullptr)},
            {"recipe", recipe_json(plan.recipe.result)},
            {"pile", plan.fit ? pile_json(*plan.fit, materials) : Json(nullptr)},
            {"forecast", plan.forecast ? forecast_json(*plan.forecast, materials) : Json(nullptr)},
            {"readings", plan.readings ? readings_json(*plan.readings, materials) : Json(nullptr)},
            {"maturity", plan.maturity ? maturity_json(*plan.maturity, materials) : Json(nullptr)}};
  json["topdress"] = plan.topdressing ? topdressing_json(plan.topdressing->result) : Json(nullptr);
  json["supply"] = {{"own_compost_m3", std::move(own)},
                    {"needed_m3", optional_si(plan.supply.needed)},
                    {"to_buy_m3", optional_si(plan.supply.to_buy)},
                    {"by_date", by_date_json(plan.lawn_by_date)}};
  json["calendar"] = calendar_json(plan.calendar, materials);
  return printed(with_grounds(std::move(json), answer, materials));
}

}  // namespace heapwright
