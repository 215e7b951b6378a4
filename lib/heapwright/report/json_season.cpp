#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/report/season_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

Json month_of_supply_json(const Ingredient& ingredient, const MonthOfSupply& of) {
  const SupplyInMonth volumes = supply_in_month(ingredient, of);
  return {{"id", ingredient.id},        {"supply", supply_json(ingredient.supply)},
          {"in_m3", volumes.in},        {"bought_m3", volumes.bought},
          {"used_m3", volumes.used},    {"stored_m3", volumes.stored},
          {"unused_m3", volumes.unused}};
}

Json month_json(const YardSeason& season, std::size_t index) {
  const MonthOfYear& of = season.year.months[index];
  Json feedstocks = Json::array();
  Blend blend;
  blend.added_water = of.water;
  for (std::size_t i = 0; i < season.question.supplies.size(); ++i) {
    const Ingredient& ingredient = season.question.supplies[i].ingredient;
    feedstocks.push_back(month_of_supply_json(ingredient, of.supplies[i]));
    blend.ingredients.push_back(ingredient);
    blend.ingredients.back().mass = of.supplies[i].used;
  }
  const Mix mix = mix_of(blend);
  return {{"month", month_name(std::chrono::month(static_cast<unsigned>(index) + 1))},
          {"feedstocks", std::move(feedstocks)},
          {"mix", is_positive(mix.dry) ? mix_json(mix) : Json(nullptr)},
          {"water_kg", of.water.value()}};
}

Json week_json(const WeekOfSeason& week) {
  const auto amounts = [](const std::vector<RecipeAmount>& of) {
    Json list = Json::array();
    for (const RecipeAmount& amount : of) list.push_back(amount_json(amount));
    return list;
  };
  return {{"from", month_name(week.from)},  {"to", month_name(week.to)},  {"greens", amounts(week.greens)},
          {"browns", amounts(week.browns)}, {"left", amounts(week.left)}, {"water_kg", week.water.value()}};
}

Json kept_dry_json(const KeptDry& held) {
  Json json = amount_json(held.most);
  json["fullest"] = month_name(held.fullest);
  json["runs_out"] = held.runs_out ? Json(print_date(*held.runs_out)) : Json(nullptr);
  json["lasts_to"] = held.lasts_to ? Json(month_name(*held.lasts_to)) : Json(nullptr);
  return json;
}

double unused_m3(const YardSeason& season) {
  Volume unused;
  for (const MonthOfYear& of : season.year.months) {
    for (std::size_t i = 0; i < of.supplies.size(); ++i) unused += of.supplies[i].left / *season.question.supplies[i].ingredient.density;
  }
  return unused.value();
}

}  // namespace

namespace {

/// What the pile has of each supply, which the months do not count.
Json in_pile_json(const YardSeason& season) {
  if (!season.in_pile) return nullptr;
  Json list = Json::array();
  for (std::size_t i = 0; i < season.supplies.size(); ++i) {
    const Ingredient& ingredient = season.question.supplies[i].ingredient;
    list.push_back({{"id", ingredient.id},
                    {"supply", supply_json(ingredient.supply)},
                    {"volume_m3", Volume(season.in_pile->of(season.supplies[i]) / *ingredient.density).value()}});
  }
  return list;
}

}  // namespace

Json season_json(const YardSeason& season) {
  Json json{{"months", Json::array()}};
  json["from"] = print_date(season.from);
  json["until"] = print_date(season.until);
  json["in_pile"] = in_pile_json(season);
  for (std::size_t index = 0; index < months_in_a_year; ++index) json["months"].push_back(month_json(season, index));
  json["weeks"] = Json::array();
  for (const WeekOfSeason& week : season.weeks) json["weeks"].push_back(week_json(week));
  json["hold_back"] = Json::array();
  for (const KeptDry& held : season.kept_dry) json["hold_back"].push_back(kept_dry_json(held));
  json["store_m3"] = season.year.store.value();
  json["unused_m3"] = unused_m3(season);
  json["waste_kg"] = season.year.waste;
  json["scraps_wait"] = season.year.waits;
  json["balanced"] = season.year.is_balanced();
  json["distance_from_aim"] = season.question.distance;
  return json;
}

std::string json_of_season(const Answer<YardSeason>& answer, const Materials& materials) {
  return printed(with_grounds(season_json(answer.result), answer, materials));
}

}  // namespace heapwright
