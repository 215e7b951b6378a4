#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

Json amounts_json(const std::vector<RecipeAmount>& amounts) {
  Json list = Json::array();
  for (const RecipeAmount& amount : amounts) list.push_back(amount_json(amount));
  return list;
}

Json whole_json(const std::optional<WholeContainers>& whole) {
  if (!whole) return nullptr;
  return {{"mix", mix_json(whole->mix)},
          {"distance_from_aim", whole->distance_from_aim},
          {"inside", whole->inside},
          {"amounts", amounts_json(whole->amounts)},
          {"water_to_add_kg", whole->water_to_add.value()},
          {"cost", whole->cost.value()}};
}

Json proportion_json(const std::optional<Proportion>& proportion) {
  if (!proportion) return nullptr;
  Json parts = Json::array();
  for (const Part& part : proportion->parts) parts.push_back({{"id", part.id}, {"parts", part.parts}});
  return parts;
}

Json cards_json(const std::vector<Card>& cards) {
  Json list = Json::array();
  for (const Card& card : cards)
    list.push_back({{"greens", amount_json(card.greens)},
                    {"browns", amounts_json(card.browns)},
                    {"water_to_add_kg", card.water_to_add.value()},
                    {"from", card.season ? Json(month_name(card.season->months.front())) : Json(nullptr)},
                    {"to", card.season ? Json(month_name(card.season->months.back())) : Json(nullptr)}});
  return list;
}

double days_in(Duration duration) { return value_in(unit::day, duration); }

Json not_today_json(const std::vector<NotToday>& not_today) {
  Json list = Json::array();
  for (const NotToday& one : not_today)
    list.push_back({{"id", one.id},
                    {"keeps_days", days_in(one.keeps)},
                    {"from", one.season ? Json(month_name(one.season->months.front())) : Json(nullptr)},
                    {"to", one.season ? Json(month_name(one.season->months.back())) : Json(nullptr)},
                    {"share_on_hand", one.share_on_hand}});
  return list;
}

Json size_json(const Recipe& recipe) {
  const std::optional<SizeSetBy>& size = recipe.size_set_by;
  if (!size) return nullptr;
  Json ids = Json::array();
  for (const std::size_t place : size->used_up) ids.push_back(recipe.amounts[place].id);
  return {{"by", size_word(size->from)}, {"feedstocks", std::move(ids)}};
}

/// The additions of a way, or the water alone, where that is what it adds.
Json additions_json(const Help& help) {
  Json list = Json::array();
  for (const Addition& addition : help.additions) {
    Json entry = amount_json(addition.amount);
    entry.erase("left_over_m3");
    entry["rounded_kg"] = addition.rounded.mass.value();
    entry["on_hand"] = addition.is_on_hand;
    list.push_back(std::move(entry));
  }
  if (list.empty() && !help.wilting) list.push_back({{"id", "water"}, {"mass_kg", help.water_to_add.value()}});
  return list;
}

Json help_json(const Help& help) {
  Json wilting = nullptr;
  if (help.wilting)
    wilting = {
        {"id", help.wilting->id}, {"moisture_fraction", help.wilting->to.value()}, {"water_lost_kg", help.wilting->water_lost.value()}};
  return {{"additions", additions_json(help)},
          {"wilting", std::move(wilting)},
          {"water_to_add_kg", help.water_to_add.value()},
          {"mix", mix_json(help.mix)}};
}

/// What frees a recipe of its limits but that of room: the first way that is an addition.
Json first_help_json(const Recipe& recipe, Limit limit) {
  if (limit == Limit::capacity) return Json::array();
  for (const Help& help : recipe.what_would_help) {
    if (!help.wilting) return additions_json(help);
  }
  return Json::array();
}

}  // namespace

Json amount_json(const RecipeAmount& amount) {
  Json containers = nullptr;
  if (amount.containers) containers = {{"name", amount.containers->container}, {"count", amount.containers->count}};
  return {{"id", amount.id},
          {"supply", supply_json(amount.supply)},
          {"mass_kg", amount.mass.value()},
          {"volume_m3", amount.volume.value()},
          {"containers", std::move(containers)},
          {"left_over_m3", optional_si(amount.left_over)}};
}

Json recipe_json(const Recipe& recipe) {
  // Without a size there is no one best amount: what there is to say stands in whole_containers.
  const bool exact = recipe.mix && recipe.status != RecipeStatus::no_size;
  Json json{{"status", status_word(recipe.status)}};
  json["distance_from_aim"] = exact ? Json(recipe.distance_from_aim) : Json(nullptr);
  json["missing_m3"] = optional_si(recipe.missing);
  json["mix"] = exact ? mix_json(*recipe.mix) : Json(nullptr);
  json["water_to_add_kg"] = exact ? Json(recipe.water_to_add.value()) : Json(nullptr);
  json["amounts"] = exact ? amounts_json(recipe.amounts) : Json::array();
  json["everything_in"] = nullptr;
  if (recipe.everything_in)
    json["everything_in"] = {{"mix", mix_json(recipe.everything_in->mix)},
                             {"distance_from_aim", recipe.everything_in->distance_from_aim},
                             {"water_to_add_kg", recipe.everything_in->water_to_add.value()}};
  json["held_back_by"] = Json::array();
  for (const HeldBack& held : recipe.held_back_by)
    json["held_back_by"].push_back({{"limit", limit_word(held.limit)},
                                    {"feedstock", held.feedstock ? Json(*held.feedstock) : Json(nullptr)},
                                    {"what_would_help", first_help_json(recipe, held.limit)}});
  json["help"] = Json::array();
  for (const Help& help : recipe.what_would_help) json["help"].push_back(help_json(help));
  json["whole_containers"] = whole_json(recipe.whole_containers);
  json["proportion"] = proportion_json(recipe.proportion);
  json["cards"] = cards_json(recipe.cards);
  json["found_within"] = windows_word(recipe.found_within);
  json["carbon_counted"] = counted_word(recipe.carbon_counted);
  json["size_set_by"] = size_json(recipe);
  json["not_today"] = not_today_json(recipe.not_today);
  json["left_out"] = Json::array();
  for (const LeftOut& left : recipe.left_out) json["left_out"].push_back({{"id", left.id}, {"treated", treated_word(left.treated)}});
  json["cost"] = recipe.cost.value();
  json["next_dearer"] = nullptr;
  if (recipe.next_dearer)
    json["next_dearer"] = {{"cost", recipe.next_dearer->cost.value()}, {"distance_from_aim", recipe.next_dearer->distance_from_aim}};
  json["pair"] = recipe.pair ? pair_json(*recipe.pair) : Json(nullptr);
  json["bags_to_a_catcher"] = bags_to_a_catcher_json(recipe.bags_to_a_catcher);
  json["stages"] = Json::array();
  for (const Stage& stage : recipe.stages) json["stages"].push_back({{"stage", stage.stage}, {"optimum", stage.optimum}});
  return json;
}

std::string json_of_recipe(const Answer<Recipe>& answer, const Materials& materials) {
  return printed(with_grounds(recipe_json(answer.result), answer, materials));
}

}  // namespace heapwright
