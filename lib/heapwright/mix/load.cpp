#include "heapwright/mix/load.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "heapwright/input/document.hpp"

namespace heapwright {
namespace {

constexpr const char* load_wanted = "write feedstock = \"leaves\" and amount = \"2 bucket\", or water = \"2 gal\"";
constexpr std::array<std::string_view, 8> keys_of_a_thing{"feedstock", "packing", "amount", "shredded",
                                                          "treated",   "weighed", "dried",  "feel"};

bool says_a_thing(const Table& table) {
  return std::any_of(keys_of_a_thing.begin(), keys_of_a_thing.end(), [&](std::string_view key) { return table.has(key); });
}

void check_loaded_amount(Table& table, const Supply& supply) {
  table.require("amount", "write amount = \"2 bucket\"");
  if (supply.amount && is_zero(*supply.amount))
    table.problem_at("amount", "is nothing, and a load is what went in", "leave the load out, or write how much it was: \"2 bucket\"");
  check_weights(table, supply);
}

std::optional<Supply> read_thing_loaded(Table& table, const Materials& materials) {
  Supply supply = read_what_it_is(table, materials);
  if (!says_a_thing(table)) return std::nullopt;
  table.require("feedstock", "write feedstock = \"leaves\"");
  if (supply.feedstock.id.empty()) return std::nullopt;
  check_loaded_amount(table, supply);
  supply.use = Use::all;
  return supply;
}

WaterMass read_water_loaded(Table& table, const Materials& materials) {
  const auto water = table.read("water", [&](std::string_view text) { return read_water_amount(text, materials); });
  const bool is_all = !says_a_thing(table);
  if (water && is_all && !is_positive(*water)) table.problem_at("water", "is none, and a load is what went in", "leave the load out");
  return water.value_or(WaterMass());
}

std::optional<Load> read_load(Table& table, const Materials& materials) {
  table.require("date", "write date = 2026-11-07, the day it went in");
  const std::optional<Date> date = table.date("date");
  Load load;
  load.supply = read_thing_loaded(table, materials);
  load.water = read_water_loaded(table, materials);
  if (!says_a_thing(table) && !table.has("water")) table.problem("neither a feedstock nor water went in", load_wanted);
  table.finish();
  if (!date) return std::nullopt;
  load.date = *date;
  return load;
}

/// Whether both are counted in one measure: of containers in the same.
bool is_one_measure(const Amount& one, const Amount& other) {
  if (one.index() != other.index()) return false;
  const ContainerCount* counted = std::get_if<ContainerCount>(&one);
  return counted == nullptr || counted->container == std::get<ContainerCount>(other).container;
}

void add_to(std::vector<LoadedInAll>& things, const Supply& supply) {
  for (LoadedInAll& thing : things) {
    const std::optional<Amount> both = thing.feedstock.id == supply.feedstock.id ? sum_of(thing.amount, *supply.amount) : std::nullopt;
    if (!both) continue;
    thing.amount = *both;
    return;
  }
  things.push_back({supply.feedstock, *supply.amount});
}

/// Those of a feedstock side by side, whatever came between.
void join_feedstocks(std::vector<LoadedInAll>& things) {
  for (auto first = things.begin(); first != things.end(); ++first) {
    std::stable_partition(first, things.end(), [id = first->feedstock.id](const LoadedInAll& thing) { return thing.feedstock.id == id; });
  }
}

bool is_same_thing(const Supply& one, const Supply& other) {
  return one.feedstock.id == other.feedstock.id && one.packing == other.packing && one.shredded == other.shredded &&
         one.amount == other.amount;
}

}  // namespace

std::optional<Amount> sum_of(const Amount& one, const Amount& other) {
  if (!is_one_measure(one, other)) return std::nullopt;
  if (const ContainerCount* counted = std::get_if<ContainerCount>(&one)) {
    ContainerCount both = *counted;
    both.count += std::get<ContainerCount>(other).count;
    return both;
  }
  if (const Volume* volume = std::get_if<Volume>(&one)) return *volume + std::get<Volume>(other);
  return std::get<Mass>(one) + std::get<Mass>(other);
}

std::vector<Load> read_loads(Table& root, const Materials& materials) {
  std::vector<Load> loads;
  std::vector<Table> tables = root.tables("load");
  if (tables.size() > most_loads) {
    root.problem_at("load",
                    std::to_string(tables.size()) + " loads are more than the " + std::to_string(most_loads) + " that one pile may have",
                    "join those of a day");
    return loads;
  }
  for (Table& table : tables) {
    if (auto load = read_load(table, materials)) loads.push_back(std::move(*load));
  }
  sort_by_day(loads);
  return loads;
}

void sort_by_day(std::vector<Load>& loads) {
  std::stable_sort(loads.begin(), loads.end(), [](const Load& one, const Load& other) { return one.date < other.date; });
}

bool are_alike(const Load& one, const Load& other) {
  if (one.date != other.date || one.water != other.water || one.supply.has_value() != other.supply.has_value()) return false;
  return !one.supply || is_same_thing(*one.supply, *other.supply);
}

AllLoaded sum_of(const std::vector<Load>& loads) {
  AllLoaded all;
  for (const Load& load : loads) {
    if (load.supply) add_to(all.things, *load.supply);
    all.water += load.water;
  }
  join_feedstocks(all.things);
  return all;
}

}  // namespace heapwright
