#include "heapwright/mix/supply.hpp"

#include <algorithm>
#include <map>

#include "heapwright/input/words.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::month;
using std::chrono::sys_days;

constexpr days days_that_fresh_material_keeps{30};

/// "drips", "clumps", "crumbles": read and kept; the moisture a hand can tell comes with rough knowledge.
const std::vector<std::pair<std::string, Feel>> feel_words{{"drips", Feel::drips}, {"clumps", Feel::clumps}, {"crumbles", Feel::crumbles}};
const std::vector<std::pair<std::string, Use>> use_words{{"up-to", Use::up_to}, {"all", Use::all}, {"unlimited", Use::unlimited}};
const std::vector<std::pair<std::string, Treated>> treated_words{{"no", Treated::no}, {"yes", Treated::yes}, {"unknown", Treated::unknown}};

std::string packings_of(const Feedstock& feedstock) {
  std::string list;
  for (const Packing& packing : feedstock.packings) list += (list.empty() ? "" : ", ") + packing.name;
  return list;
}

void refuse_incomplete(const Feedstock& feedstock) {
  std::string missing;
  for (const std::string& what : feedstock.lacks()) {
    if (what != "bulk density") missing += (missing.empty() ? "" : ", ") + what;
  }
  if (missing.empty()) return;
  throw TextError("\"" + feedstock.id + "\" cannot be mixed: nobody published its " + missing,
                  "take a near relative, or give your own figures with --materials");
}

const Feedstock& find_mixable(const Materials& materials, std::string_view name) {
  const Feedstock& feedstock = find_feedstock(materials, name);
  refuse_incomplete(feedstock);
  return feedstock;
}

std::string checked_packing(const Feedstock& feedstock, std::string_view packing) {
  if (feedstock.find_packing(packing) == nullptr)
    throw TextError("\"" + std::string(packing) + "\" is no packing of " + feedstock.id, "it has " + packings_of(feedstock));
  return std::string(packing);
}

std::optional<Weighed> read_weighed(Table& supply, const Materials& materials) {
  std::optional<Table> table = supply.table("weighed");
  if (!table) return std::nullopt;
  const auto container = table->read("container", [&](std::string_view name) {
    const Container* found = find_container(materials.containers, name);
    if (found == nullptr)
      throw TextError("\"" + std::string(name) + "\" is no known container",
                      "name one of [[container]] or of the table, or write weighed with \"bucket\"");
    return ContainerCount{found->id, 1.0, found->volume};
  });
  const auto full = table->read("full", read_mass);
  const auto empty = table->read("empty", read_mass);
  if (!table->has("container") || !table->has("full"))
    table->problem("a weighing needs a container and its full weight",
                   "write { container = \"bucket\", full = \"9 lb\", empty = \"2 lb\" }");
  table->finish();
  if (!container || !full) return std::nullopt;
  const Weighed weighed{*container, *full, empty.value_or(Mass())};
  if (weighed.full > weighed.empty) return weighed;
  table->problem("the full container weighs no more than the empty one", "check the two weights");
  return std::nullopt;
}

std::optional<Dried> read_dried(Table& supply) {
  std::optional<Table> table = supply.table("dried");
  if (!table) return std::nullopt;
  const auto wet = table->read("wet", read_mass);
  const auto dry = table->read("dry", read_mass);
  if (!table->has("wet") || !table->has("dry"))
    table->problem("a drying needs the weight before and after", "write { wet = \"10 g\", dry = \"2.3 g\" }");
  table->finish();
  if (!wet || !dry) return std::nullopt;
  if (*dry <= *wet && dry->value() > 0.0) return Dried{*wet, *dry};
  table->problem("the dry weight must be above zero and at most the wet one", "check the two weights");
  return std::nullopt;
}

std::variant<std::monostate, Months, Weekly> read_when(Table& supply) {
  std::optional<Table> table = supply.table("when");
  if (!table) return {};
  const Months listed{read_months(*table, "months")};
  const auto every = table->one_of<bool>("every", {{"week", true}});
  const auto from = table->read("from", read_month);
  const auto to = table->read("to", read_month);
  table->finish();
  if (table->has("months") == table->has("every")) {
    table->problem("says either months or every",
                   "write { months = [\"Oct\", \"Nov\"] } or { every = \"week\", from = \"Apr\", to = \"Oct\" }");
    return {};
  }
  if (every) return Weekly{from.value_or(month(1)), to.value_or(month(12))};
  if (table->has("months") && table->list("months").empty()) table->problem("names no month", "write { months = [\"Oct\", \"Nov\"] }");
  if (listed.months.empty()) return {};
  return listed;
}

std::optional<Estimate> read_estimate(Table& supply) {
  std::optional<Table> table = supply.table("estimate");
  if (!table) return std::nullopt;
  Estimate estimate;
  estimate.trees = table->number("trees");
  estimate.canopy_width = table->read("canopy_width", read_length);
  estimate.people = table->number("people");
  estimate.mown_lawn = table->read("mown_lawn", read_area);
  for (const Value& value : table->list("heap")) {
    if (const auto size = value.text()) estimate.heap.push_back(*size);
  }
  table->finish();
  return estimate;
}

void check_amount(Table& table, const Supply& supply) {
  const bool given = table.has("amount");
  if (given && supply.use == Use::unlimited)
    table.problem_at("amount", "an unlimited supply has no amount", "leave out amount, or use = \"unlimited\"");
  const bool known_otherwise = supply.use == Use::unlimited || supply.bought || table.has("estimate");
  if (!given && !known_otherwise) table.problem("amount is missing", "write amount = \"24 leaf-bag\", or use = \"unlimited\"");
  if (!given && supply.use == Use::all && !table.has("estimate"))
    table.problem_at("use", "\"all\" wants an amount", "write amount = \"24 leaf-bag\"");
  if (supply.amount && !supply.mass(*supply.amount)) {
    table.problem_at("amount", "no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                     "give the amount as a weight, or weigh a bucketful: weighed = { … }");
  }
}

void settle_packing(Supply& supply, const Amount& amount, const Materials& materials) {
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  const Container* container = counted != nullptr ? find_container(materials.containers, counted->container) : nullptr;
  if (container != nullptr && supply.packing_assumed && supply.feedstock.find_packing(container->packing) != nullptr)
    supply.packing = container->packing;
}

void read_price(Table& table, Supply& supply, const Materials& materials) {
  supply.price = table.number("price").value_or(0.0);
  if (!(supply.price >= 0.0 && supply.price <= 1e9)) table.problem_at("price", "a price is zero or more", "write a plain number");
  supply.priced_amount = table.read("unit", [&](std::string_view text) { return read_amount(text, materials.containers); });
  if (supply.priced_amount && !supply.amount) settle_packing(supply, *supply.priced_amount, materials);
  if (supply.priced_amount && !supply.mass(*supply.priced_amount))
    table.problem_at("unit", "no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                     "give the unit as a weight");
  if (supply.priced_amount && is_zero(*supply.priced_amount))
    table.problem_at("unit", "a price is for more than nothing", "write unit = \"1 leaf-bag\"");
  if (supply.price > 0.0 && !table.has("unit")) table.problem("unit is missing: the price is for how much?", "write unit = \"1 leaf-bag\"");
}

bool in_season(const Weekly& weekly, month m) {
  if (weekly.from <= weekly.to) return weekly.from <= m && m <= weekly.to;
  return m >= weekly.from || m <= weekly.to;
}

unsigned days_in(month m, std::chrono::year year) { return static_cast<unsigned>((year / m / std::chrono::last).day()); }

/// Times the amount of a supply that comes in on the day: a year's months share one amount, a week has one.
double share_of_day(const Supply& supply, sys_days day) {
  const Date date(day);
  if (const Weekly* weekly = std::get_if<Weekly>(&supply.when)) return in_season(*weekly, date.month()) ? 1.0 / 7.0 : 0.0;
  const Months& listed = std::get<Months>(supply.when);
  if (std::find(listed.months.begin(), listed.months.end(), date.month()) == listed.months.end()) return 0.0;
  unsigned season = 0;
  for (const month m : listed.months) season += days_in(m, date.year());
  return 1.0 / season;
}

Amount times(double factor, const Amount& amount) {
  if (const ContainerCount* counted = std::get_if<ContainerCount>(&amount))
    return ContainerCount{counted->container, factor * counted->count, counted->each};
  if (const Volume* volume = std::get_if<Volume>(&amount)) return Volume(factor * *volume);
  return Mass(factor * std::get<Mass>(amount));
}

template <class Quantity>
void assume(std::vector<Assumption>& assumptions, std::string what, const Readings<Quantity>& readings, const Materials& materials) {
  if (!used(readings)) return;
  const Reading<Quantity>& reading = readings.front();
  Assumption assumption{
      std::move(what), *reading.typical, std::nullopt, std::nullopt, source_words(materials, reading.source, reading.evidence),
      std::nullopt};
  if (reading.low && reading.high) {
    assumption.low = *reading.low;
    assumption.high = *reading.high;
  }
  assumptions.push_back(std::move(assumption));
}

}  // namespace

std::optional<BulkDensity> Supply::density() const {
  if (weighed) return weighed->density();
  if (shredded) {
    if (const auto smaller = feedstock.density("shredded")) return smaller;
  }
  return feedstock.density(packing);
}

std::optional<Mass> Supply::mass(const Amount& counted) const {
  return mass_of(counted, weighed ? weighed->density() : feedstock.density(packing));
}

Properties Supply::properties() const {
  Properties properties = *feedstock.properties();
  if (dried) properties.moisture = dried->moisture();
  return properties;
}

Ingredient Supply::ingredient(Mass mass) const { return {feedstock.id, feedstock.name, packing, properties(), density(), mass}; }

Supply supply_of(const Materials& materials, std::string_view name_and_packing) {
  const std::size_t colon = name_and_packing.find(':');
  Supply supply;
  supply.feedstock = find_mixable(materials, name_and_packing.substr(0, colon));
  supply.packing_assumed = colon == std::string_view::npos;
  supply.packing =
      supply.packing_assumed ? supply.feedstock.usual_packing : checked_packing(supply.feedstock, name_and_packing.substr(colon + 1));
  return supply;
}

void set_amount(Supply& supply, const Amount& amount, const Materials& materials) {
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  const bool bag_of_fertilizer =
      counted != nullptr && counted->container == "leaf-bag" && supply.feedstock.feedstock_class == FeedstockClass::supplement;
  if (bag_of_fertilizer) throw TextError("a bag of " + supply.feedstock.name + " is no leaf bag", "say how many pounds: \"5 lb\"");
  supply.amount = amount;
  settle_packing(supply, amount, materials);
}

std::optional<Supply> read_supply(Table& table, const Materials& materials) {
  table.require("feedstock", "write feedstock = \"leaves-fall\"");
  auto supply = table.read("feedstock", [&](std::string_view name) { return supply_of(materials, name); });
  if (!supply) supply = Supply{};  // read on, so that the other problems of the table are told too
  const bool known = !supply->feedstock.id.empty();
  const auto packing =
      table.read("packing", [&](std::string_view name) { return known ? checked_packing(supply->feedstock, name) : std::string(name); });
  if (packing) {
    supply->packing = *packing;
    supply->packing_assumed = false;
  }
  table.read("amount", [&](std::string_view text) {
    set_amount(*supply, read_amount(text, materials.containers), materials);
    return true;
  });
  supply->when = read_when(table);
  supply->storable = table.flag("storable")
                         .value_or(supply->feedstock.feedstock_class != FeedstockClass::must_go &&
                                   supply->feedstock.feedstock_class != FeedstockClass::clippings);
  supply->shredded = table.flag("shredded").value_or(false);
  supply->treated = table.one_of("treated", treated_words);
  supply->weighed = read_weighed(table, materials);
  supply->dried = read_dried(table);
  supply->feel = table.one_of("feel", feel_words);
  supply->estimate = read_estimate(table);
  supply->use = table.one_of("use", use_words).value_or(Use::up_to);
  supply->most_of_volume = table.read("most_of_volume", read_fraction<OfLooseVolume>);
  supply->bought = table.flag("bought").value_or(false);
  read_price(table, *supply, materials);
  if (known) check_amount(table, *supply);
  if (known && supply->weighed &&
      supply->weighed->density() > density_without_air(supply->properties().moisture, supply->properties().particle_density)) {
    table.problem_at("weighed", "the bucketful weighs more than its own solids and water without any air",
                     "check the weights and the container");
  }
  table.finish();
  return known ? supply : std::nullopt;
}

std::vector<Supply> read_supplies(Table& root, const Materials& materials) {
  std::vector<Supply> supplies;
  std::vector<Table> tables = root.tables("supply");
  if (tables.size() > most_supplies) {
    root.problem_at(
        "supply",
        std::to_string(tables.size()) + " supplies are more than the " + std::to_string(most_supplies) + " that one yard may list",
        "join some");
    return supplies;
  }
  for (Table& table : tables) {
    if (auto supply = read_supply(table, materials)) supplies.push_back(std::move(*supply));
  }
  return supplies;
}

std::optional<Amount> on_hand(const Supply& supply, Date built) {
  if (!supply.amount || std::holds_alternative<std::monostate>(supply.when)) return supply.amount;
  const sys_days end(built);
  const Date year_before(built.year() - std::chrono::years(1), built.month(), built.day());
  const sys_days begin = supply.storable
                             ? sys_days(year_before.ok() ? year_before : year_before.year() / std::chrono::February / std::chrono::last)
                             : end - days_that_fresh_material_keeps;
  double share = 0.0;
  for (sys_days day = begin; day < end; day += days(1)) share += share_of_day(supply, day);
  return times(share, *supply.amount);
}

std::vector<Assumption> assumptions_of(const Supply& supply, const Materials& materials) {
  std::vector<Assumption> assumptions;
  const Feedstock& feedstock = supply.feedstock;
  if (supply.amount && !std::holds_alternative<std::monostate>(supply.when)) {
    const std::string window = supply.storable ? "the twelve months before, stored" : "the last 30 days before, fresh";
    assumptions.push_back(
        {feedstock.name + " in the heap", "what comes in over " + window, std::nullopt, std::nullopt, "judged by us", std::nullopt});
  }
  if (supply.amount && std::holds_alternative<ContainerCount>(*supply.amount)) {
    const auto& counted = std::get<ContainerCount>(*supply.amount);
    const Container* container = find_container(materials.containers, counted.container);
    if (container != nullptr)
      assumptions.push_back({"one " + container->name + " of " + feedstock.name, counted.each, std::nullopt, std::nullopt,
                             source_words(materials, container->source, container->evidence), std::nullopt});
  }
  const auto assume_packing = [&](const std::string& packing, const std::string& how) {
    if (const Packing* found = feedstock.find_packing(packing))
      assume(assumptions, "weight of " + feedstock.name + ", " + packing + how, found->readings, materials);
  };
  if (!supply.weighed) assume_packing(supply.packing, supply.packing_assumed ? " (you named no packing)" : "");
  if (!supply.weighed && supply.shredded) assume_packing("shredded", " as they go into the heap");
  if (!supply.dried) assume(assumptions, "moisture of " + feedstock.name, feedstock.moisture, materials);
  assume(assumptions, "C:N of " + feedstock.name, feedstock.carbon_to_nitrogen, materials);
  if (feedstock.carbon_to_nitrogen.empty()) assume(assumptions, "nitrogen of " + feedstock.name, feedstock.nitrogen, materials);
  assume(assumptions, "carbon of " + feedstock.name, feedstock.carbon, materials);
  return assumptions;
}

std::vector<std::string> cautions_of(const Supply& supply) {
  static const std::map<std::string, std::vector<std::string>, std::less<>> cautions_of_tag{{"dusty", {"dust-and-mould"}},
                                                                                            {"mouldy", {"dust-and-mould"}},
                                                                                            {"scraps", {"meat-and-pet-waste", "rats"}},
                                                                                            {"manure", {"raw-manure", "food-crops"}},
                                                                                            {"sharp-nitrogen", {"sharp-nitrogen"}}};
  std::vector<std::string> ids;
  for (const std::string& tag : supply.feedstock.tags) {
    const auto found = cautions_of_tag.find(tag);
    if (found != cautions_of_tag.end()) ids.insert(ids.end(), found->second.begin(), found->second.end());
  }
  // A lawn known to be untreated is no worry; one that nobody asked about is.
  if (supply.feedstock.has_tag("herbicide") && supply.treated != Treated::no) ids.emplace_back("persistent-herbicide");
  return ids;
}

}  // namespace heapwright
