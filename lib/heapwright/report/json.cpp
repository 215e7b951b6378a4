#include "heapwright/report/json.hpp"

#include <nlohmann/json.hpp>

#include "heapwright/report/show.hpp"

namespace heapwright {
namespace {

using Json = nlohmann::ordered_json;

template <class Quantity>
Json optional_si(const std::optional<Quantity>& quantity) {
  return quantity ? Json(quantity->value()) : Json(nullptr);
}

template <class Quantity>
Json reading_json(const Reading<Quantity>& reading, const Materials& materials) {
  return {{"typical", optional_si(reading.typical)},
          {"low", optional_si(reading.low)},
          {"high", optional_si(reading.high)},
          {"evidence", evidence_word(reading.evidence)},
          {"source", source_words(materials, reading.source, reading.evidence)},
          {"what", reading.what},
          {"note", reading.note},
          {"outlier", reading.outlier}};
}

template <class Quantity>
Json readings_json(const Readings<Quantity>& readings, const Materials& materials) {
  Json list = Json::array();
  for (const auto& reading : readings) list.push_back(reading_json(reading, materials));
  return list;
}

Json value_json(const AssumedValue& value) {
  if (const auto number = si_number_of(value)) return *number;
  if (const std::string* words = std::get_if<std::string>(&value)) return *words;
  return print_date(std::get<Date>(value));
}

/// The unit of an assumed value; null of words, dates and counts, whose container stands beside.
struct UnitOf {
  Json operator()(Volume) const { return "m3"; }
  Json operator()(Mass) const { return "kg"; }
  Json operator()(Length) const { return "m"; }
  Json operator()(BulkDensity) const { return "kg/m3"; }
  Json operator()(TemperaturePoint) const { return "K"; }
  Json operator()(const std::string&) const { return nullptr; }
  Json operator()(Date) const { return nullptr; }
  Json operator()(const ContainerCount&) const { return nullptr; }
  template <class Share>
  Json operator()(const Share&) const {
    return "1";
  }
};

Json assumptions_json(const std::vector<Assumption>& assumptions) {
  Json list = Json::array();
  for (const Assumption& assumption : assumptions) {
    Json entry{{"what", assumption.what}, {"value", value_json(assumption.value)}};
    entry["unit"] = std::visit(UnitOf{}, assumption.value);
    entry["low"] = assumption.low ? value_json(*assumption.low) : Json(nullptr);
    entry["high"] = assumption.high ? value_json(*assumption.high) : Json(nullptr);
    entry["evidence"] = assumption.evidence;
    entry["could_change_answer"] = assumption.could_change_answer ? Json(*assumption.could_change_answer) : Json(nullptr);
    entry["feedstock"] = assumption.feedstock.empty() ? Json(nullptr) : Json(assumption.feedstock);
    const ContainerCount* counted = std::get_if<ContainerCount>(&assumption.value);
    entry["container"] = counted != nullptr ? Json(counted->container) : Json(nullptr);
    entry["figure"] = assumption.figure == Figure::none ? Json(nullptr) : Json(figure_word(assumption.figure));
    list.push_back(std::move(entry));
  }
  return list;
}

Json working_json(const std::optional<Working>& working) { return working ? Json::parse(json_of_working(*working)) : Json(nullptr); }

Json measure_first_json(const std::optional<Measurement>& measurement) {
  if (!measurement) return nullptr;
  return {{"feedstock", measurement->feedstock},
          {"how", measuring_word(measurement->how)},
          {"container", measurement->container.id},
          {"narrows_by", measurement->narrows_by}};
}

Json cautions_json(const std::vector<std::string>& ids, const Materials& materials) {
  Json list = Json::array();
  for (const std::string& id : ids) {
    if (const Caution* caution = find_caution(materials, id)) list.push_back({{"id", id}, {"text", caution->text}});
  }
  return list;
}

template <class Quantity>
Json band_json(const Band<Quantity>& band) {
  return {{"low", band.low.value()}, {"high", band.high.value()}};
}

Json ranges_json(const std::optional<MixRanges>& ranges) {
  if (!ranges) return nullptr;
  Json json;
  json["carbon_to_nitrogen"] = ranges->carbon_to_nitrogen ? band_json(*ranges->carbon_to_nitrogen) : Json(nullptr);
  json["moisture_fraction"] = band_json(ranges->moisture);
  json["air_space_fraction"] = ranges->air_space ? band_json(*ranges->air_space) : Json(nullptr);
  json["chance_carbon_to_nitrogen_in_window"] = ranges->chance_carbon_to_nitrogen_in_window;
  json["chance_moisture_in_window"] = ranges->chance_moisture_in_window;
  const auto words = [](const std::string& what) { return what.empty() ? Json(nullptr) : Json(what); };
  json["carbon_to_nitrogen_rests_on"] = words(ranges->ratio_rests_on);
  json["moisture_rests_on"] = words(ranges->moisture_rests_on);
  return json;
}

Json mix_json(const Mix& mix) {
  Json feedstocks = Json::array();
  for (const MixPart& part : mix.parts)
    feedstocks.push_back({{"id", part.id},
                          {"mass_kg", part.mass.value()},
                          {"volume_m3", optional_si(part.volume)},
                          {"share_of_volume", optional_si(part.share)}});
  return {{"mass_kg", mix.mass.value()},
          {"dry_mass_kg", mix.dry.value()},
          {"water_kg", mix.water.value()},
          {"carbon_kg", mix.carbon.value()},
          {"nitrogen_kg", mix.nitrogen.value()},
          {"organic_matter_kg", mix.organic_matter.value()},
          {"carbon_to_nitrogen", optional_si(mix.carbon_to_nitrogen)},
          {"moisture_fraction", optional_si(mix.moisture)},
          {"volume_m3", optional_si(mix.volume)},
          {"bulk_density_kg_m3", optional_si(mix.bulk_density)},
          {"air_space_fraction", optional_si(mix.air_space)},
          {"ranges", ranges_json(mix.ranges)},
          {"feedstocks", std::move(feedstocks)}};
}

Json amount_json(const RecipeAmount& amount) {
  Json containers = nullptr;
  if (amount.containers) containers = {{"name", amount.containers->container}, {"count", amount.containers->count}};
  return {{"id", amount.id},
          {"mass_kg", amount.mass.value()},
          {"volume_m3", amount.volume.value()},
          {"containers", std::move(containers)},
          {"left_over_m3", optional_si(amount.left_over)}};
}

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
          {"cost", whole->cost}};
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
    list.push_back(
        {{"greens", amount_json(card.greens)}, {"browns", amounts_json(card.browns)}, {"water_to_add_kg", card.water_to_add.value()}});
  return list;
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
  json["left_out"] = Json::array();
  for (const LeftOut& left : recipe.left_out) json["left_out"].push_back({{"id", left.id}, {"treated", treated_word(left.treated)}});
  json["cost"] = recipe.cost;
  json["next_dearer"] = nullptr;
  if (recipe.next_dearer)
    json["next_dearer"] = {{"cost", recipe.next_dearer->cost}, {"distance_from_aim", recipe.next_dearer->distance_from_aim}};
  json["pair"] = recipe.pair ? Json::parse(json_of_pair(*recipe.pair)) : Json(nullptr);
  json["stages"] = Json::array();
  for (const Stage& stage : recipe.stages) json["stages"].push_back({{"stage", stage.stage}, {"optimum", stage.optimum}});
  return json;
}

Json topdressing_json(const Topdressing& topdressing) {
  Json mass = nullptr;
  if (topdressing.mass_kg)
    mass = {{"low", topdressing.mass_kg->low}, {"likely", topdressing.mass_kg->likely}, {"high", topdressing.mass_kg->high}};
  return {{"area_m2", topdressing.area.value()},
          {"depth_m", topdressing.depth.value()},
          {"volume_m3", topdressing.volume.value()},
          {"volume_with_allowance_m3", topdressing.volume_with_allowance.value()},
          {"covers_m2", topdressing.covers.value()},
          {"mass_kg", std::move(mass)},
          {"per_year_m3", topdressing.per_year.value()},
          {"orders", nullptr},
          {"best_order", nullptr},
          {"phone_line", nullptr},
          {"wheelbarrow_loads", topdressing.wheelbarrow_loads},
          {"nutrients_kg_per_100m2", nullptr}};
}

Json heap_json(const Plan& plan, const Materials& materials) {
  return plan.heap_answer ? Json::parse(json_of_heap(*plan.heap_answer, materials)) : Json(nullptr);
}

std::string finished(const Json& json) { return json.dump(2) + "\n"; }

Json feedstock_json(const Feedstock& feedstock, const Materials& materials) {
  Json json{{"id", feedstock.id},
            {"name", feedstock.name},
            {"also", feedstock.also},
            {"class", class_word(feedstock.feedstock_class)},
            {"lacks", feedstock.lacks()}};
  json["usual_packing"] = feedstock.usual_packing.empty() ? Json(nullptr) : Json(feedstock.usual_packing);
  json["used"] = {{"moisture_fraction", optional_si(used(feedstock.moisture))},
                  {"carbon_fraction_dry", optional_si(feedstock.used_carbon())},
                  {"nitrogen_fraction_dry", optional_si(feedstock.used_nitrogen())},
                  {"carbon_to_nitrogen", optional_si(feedstock.used_carbon_to_nitrogen())},
                  {"volatile_solids_fraction_dry", optional_si(feedstock.used_organic_matter())},
                  {"bulk_density_kg_m3", optional_si(feedstock.density())}};
  Json densities = Json::object();
  for (const Packing& packing : feedstock.packings) densities[packing.name] = readings_json(packing.readings, materials);
  json["readings"] = {{"moisture_fraction", readings_json(feedstock.moisture, materials)},
                      {"carbon_fraction_dry", readings_json(feedstock.carbon, materials)},
                      {"carbon_to_nitrogen", readings_json(feedstock.carbon_to_nitrogen, materials)},
                      {"nitrogen_fraction_dry", readings_json(feedstock.nitrogen, materials)},
                      {"volatile_solids_fraction_dry", readings_json(feedstock.volatile_solids, materials)},
                      {"ash_fraction_dry", readings_json(feedstock.ash, materials)},
                      {"bulk_density_kg_m3", std::move(densities)}};
  return json;
}

}  // namespace

std::string json_of_mix(const MixAnswer& answer, const Materials& materials) {
  return finished({{"mix", answer.mix ? mix_json(*answer.mix) : Json(nullptr)},
                   {"assumptions", assumptions_json(answer.assumptions)},
                   {"measure_first", measure_first_json(answer.measure_first)},
                   {"working", working_json(answer.working)},
                   {"cautions", cautions_json(answer.cautions, materials)}});
}

std::string json_of_recipe(const Recipe& recipe, const Materials& materials) {
  Json json = recipe_json(recipe);
  json["assumptions"] = assumptions_json(recipe.assumptions);
  json["measure_first"] = measure_first_json(recipe.measure_first);
  json["working"] = working_json(recipe.working);
  json["cautions"] = cautions_json(recipe.cautions, materials);
  return finished(json);
}

std::string json_of_topdressing(const Topdressing& topdressing, const Materials& materials) {
  Json json = topdressing_json(topdressing);
  json["assumptions"] = assumptions_json(topdressing.assumptions);
  json["working"] = working_json(topdressing.working);
  json["cautions"] = cautions_json(topdressing.cautions, materials);
  return finished(json);
}

std::string json_of_plan(const Plan& plan, const Materials& materials) {
  Json own = nullptr;
  if (plan.supply.own_compost)
    own = {{"low", plan.supply.own_compost->low.value()},
           {"likely", plan.supply.own_compost->likely.value()},
           {"high", plan.supply.own_compost->high.value()}};
  Json json{{"yard", plan.title},
            {"built", print_date(plan.built)},
            {"season", nullptr},
            {"recipe", recipe_json(plan.recipe)},
            {"heap", heap_json(plan, materials)},
            {"forecast", plan.forecast ? Json::parse(json_of_forecast(*plan.forecast, materials)) : Json(nullptr)},
            {"readings", plan.readings ? Json::parse(json_of_readings(*plan.readings, materials)) : Json(nullptr)},
            {"maturity", plan.maturity ? Json::parse(json_of_maturity(*plan.maturity, materials)) : Json(nullptr)}};
  json["topdress"] = plan.topdressing ? topdressing_json(*plan.topdressing) : Json(nullptr);
  json["supply"] = {
      {"own_compost_m3", std::move(own)}, {"needed_m3", optional_si(plan.supply.needed)}, {"to_buy_m3", optional_si(plan.supply.to_buy)}};
  json["calendar"] = nullptr;
  json["assumptions"] = assumptions_json(plan.assumptions);
  json["measure_first"] = measure_first_json(plan.measure_first);
  json["cautions"] = cautions_json(plan.cautions, materials);
  return finished(json);
}

std::string json_of_assumptions(const std::vector<Assumption>& assumptions) { return assumptions_json(assumptions).dump(); }

std::string json_of_cautions(const std::vector<std::string>& ids, const Materials& materials) {
  return cautions_json(ids, materials).dump();
}

std::string json_of_feedstocks(const Materials& materials) {
  Json list = Json::array();
  for (const Feedstock& feedstock : materials.feedstocks) list.push_back(feedstock_json(feedstock, materials));
  Json keep_out = Json::array();
  for (const KeepOut& row : materials.keep_out)
    keep_out.push_back({{"id", row.id},
                        {"name", row.name},
                        {"reason", row.reason},
                        {"instead", row.instead},
                        {"evidence", evidence_word(row.evidence)},
                        {"source", source_words(materials, row.source, row.evidence)}});
  return finished({{"feedstocks", std::move(list)}, {"keep_out", std::move(keep_out)}});
}

std::string json_of_feedstock(const Feedstock& feedstock, const Materials& materials) {
  return finished(feedstock_json(feedstock, materials));
}

std::string json_of_compost(const Compost& compost, const Materials& materials) {
  return finished({{"id", compost.id},
                   {"name", compost.name},
                   {"readings",
                    {{"moisture_fraction", readings_json(compost.moisture, materials)},
                     {"bulk_density_kg_m3", readings_json(compost.bulk_density, materials)},
                     {"carbon_to_nitrogen", readings_json(compost.carbon_to_nitrogen, materials)},
                     {"organic_matter_fraction_dry", readings_json(compost.organic_matter, materials)},
                     {"nitrogen_fraction_dry", readings_json(compost.nitrogen, materials)},
                     {"p2o5_fraction_dry", readings_json(compost.phosphate, materials)},
                     {"k2o_fraction_dry", readings_json(compost.potash, materials)}}}});
}

std::string json_of_sources(const Materials& materials) {
  Json list = Json::array();
  for (const Source& source : materials.sources)
    list.push_back({{"id", source.id}, {"title", source.title}, {"kind", source.kind}, {"note", source.note}});
  return finished({{"sources", std::move(list)}});
}

std::string json_of_check(const std::vector<CheckedFeedstock>& checked) {
  const auto number = [](const std::optional<double>& value) { return value ? Json(*value) : Json(nullptr); };
  Json list = Json::array();
  for (const CheckedFeedstock& row : checked) {
    Json values = Json::array();
    for (const CheckedValue& value : row.values)
      values.push_back({{"property", value.key},
                        {"value", value.value},
                        {"low", number(value.low)},
                        {"high", number(value.high)},
                        {"source", value.whose},
                        {"inside", value.inside ? Json(*value.inside) : Json(nullptr)},
                        {"likely_slip", value.slip ? Json(slip_word(*value.slip)) : Json(nullptr)},
                        {"meant", number(value.meant)}});
    list.push_back({{"id", row.id}, {"like", row.like}, {"values", std::move(values)}, {"disagree", row.disagree}});
  }
  return finished({{"checked", std::move(list)}});
}

}  // namespace heapwright
