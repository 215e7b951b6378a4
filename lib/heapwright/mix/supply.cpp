#include "heapwright/mix/supply.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "heapwright/input/document.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using std::chrono::days;
using std::chrono::month;
using std::chrono::sys_days;

constexpr int days_between_loads = 7;  // a mowing, a pail emptied: judged
constexpr month mowing_begins{4};      // judged: April to October, most lawns of the temperate north
constexpr month mowing_ends{10};

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
  const std::string what_to_do = feedstock.note.empty() ? "Leave it out, or write the name of something like it." : feedstock.note;
  throw TextError("\"" + feedstock.id + "\" cannot be mixed: we have no figures of its " + missing,
                  what_to_do + " Or write figures of your own for --materials.");
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
    const Container* found = find_container(*materials.containers, name);
    if (found == nullptr)
      throw TextError("\"" + std::string(name) + "\" is no known container",
                      "name one of [[container]] or of the table, or write weighed with \"bucket\"");
    return so_many(1.0, *found);
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
  if (*dry <= *wet && is_positive(*dry)) return Dried{*wet, *dry};
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

/// Beside larger ones what fills a bin is lost in the rounding of a linear programme. Judged, far above any site's year.
constexpr Mass most_of_a_supply = 1e9 * unit::kg;

void check_amount(Table& table, const Supply& supply) {
  const bool given = table.has("amount");
  if (given && supply.use == Use::unlimited)
    table.problem_at("amount", "an unlimited supply has no amount", "leave out amount, or use = \"unlimited\"");
  const bool known_otherwise = supply.use == Use::unlimited || supply.bought || table.has("estimate");
  if (!given && !known_otherwise) table.problem("amount is missing", "write amount = \"24 leaf-bag\", or use = \"unlimited\"");
  if (!given && supply.use == Use::all && !table.has("estimate"))
    table.problem_at("use", "\"all\" wants an amount", "write amount = \"24 leaf-bag\"");
}

/// What a person would call it by, beside the name of its feedstock.
std::string trait_of(const Supply& supply) {
  if (supply.shredded) return "shredded";
  if (supply.bought) return "bought";
  if (!supply.packing_assumed && supply.packing != supply.feedstock.usual_packing) return supply.packing;
  return "";
}

/// By a trait that no other has; the rest by their order, but for a single one.
void name_apart(const std::vector<Supply*>& alike) {
  std::vector<Supply*> plain;
  for (Supply* supply : alike) {
    const std::string trait = trait_of(*supply);
    const auto share_it = std::count_if(alike.begin(), alike.end(), [&](const Supply* other) { return trait_of(*other) == trait; });
    if (!trait.empty() && share_it == 1) {
      supply->apart = trait;
    } else {
      plain.push_back(supply);
    }
  }
  if (plain.size() < 2) return;
  constexpr std::array<const char*, 4> ordinals{"first", "second", "third", "fourth"};
  for (std::size_t i = 0; i < plain.size(); ++i) plain[i]->apart = i < ordinals.size() ? ordinals[i] : "no. " + std::to_string(i + 1);
}

void refuse_bag_of_fertilizer(const Supply& supply, const Amount& amount) {
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  if (counted != nullptr && counted->container == "leaf-bag" && supply.feedstock.feedstock_class == FeedstockClass::supplement)
    throw TextError("a bag of " + supply.feedstock.name + " is no leaf bag", "say how many pounds: \"5 lb\"");
}

void read_price(Table& table, Supply& supply, const Materials& materials) {
  supply.price = table.number("price").value_or(0.0) * unit::money;
  if (!(supply.price >= Cost() && supply.price <= 1e9 * unit::money))
    table.problem_at("price", "a price is zero or more", "write a plain number");
  supply.priced_amount = table.read("unit", [&](std::string_view text) {
    const Amount amount = read_amount(text, materials);
    refuse_bag_of_fertilizer(supply, amount);
    return amount;
  });
  if (supply.priced_amount && !supply.mass(*supply.priced_amount))
    table.problem_at("unit", "no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                     "give the unit as a weight");
  if (supply.priced_amount && is_zero(*supply.priced_amount))
    table.problem_at("unit", "a price is for more than nothing", "write unit = \"1 leaf-bag\"");
  if (is_positive(supply.price) && !table.has("unit"))
    table.problem("unit is missing: the price is for how much?", "write unit = \"1 leaf-bag\"");
}

bool in_season(const Weekly& weekly, month m) {
  if (weekly.from <= weekly.to) return weekly.from <= m && m <= weekly.to;
  return m >= weekly.from || m <= weekly.to;
}

unsigned days_in(month m, std::chrono::year year) { return static_cast<unsigned>((year / m / std::chrono::last).day()); }

/// Times the amount of a supply that comes in on the day: a year's months share one amount, a week has one.
double share_of_day(const Supply& supply, sys_days day) {
  const Date date(day);
  if (const Weekly* weekly = std::get_if<Weekly>(&supply.when)) return in_season(*weekly, date.month()) ? 1.0 / days_between_loads : 0.0;
  const Months& listed = std::get<Months>(supply.when);
  if (std::find(listed.months.begin(), listed.months.end(), date.month()) == listed.months.end()) return 0.0;
  unsigned season = 0;
  for (const month m : listed.months) season += days_in(m, date.year());
  return 1.0 / season;
}

std::vector<month> months_between(month from, month to) {
  std::vector<month> listed;
  for (month m = from; m != to; ++m) listed.push_back(m);
  listed.push_back(to);
  return listed;
}

double days_of(const std::vector<month>& months) {
  unsigned count = 0;
  for (const month m : months) count += days_in(m, std::chrono::year(2025));
  return count;
}

sys_days year_before(Date date) {
  const Date before(date.year() - std::chrono::years(1), date.month(), date.day());
  return before.ok() ? before : before.year() / std::chrono::February / std::chrono::last;
}

/// Times the amount of a supply that comes in from one day up to another.
double share_of_days(const Supply& supply, sys_days from, sys_days to) {
  double share = 0.0;
  for (sys_days day = from; day < to; day += days(1)) share += share_of_day(supply, day);
  return share;
}

/// Fresh things come in loads, a mowing or a pail: the last one is there whole if any of what keeps came in, that day's among it.
double share_that_keeps(const Supply& supply, sys_days built) {
  const days keeps(std::lround(supply.feedstock.used_keeps() / unit::day));
  int in_season = 0;
  double of_a_day = 0.0;
  for (sys_days day = built; day > built - keeps; day -= days(1)) {
    const double share = share_of_day(supply, day);
    if (!(share > 0.0)) continue;
    if (++in_season == 1) of_a_day = share;
  }
  return in_season == 0 ? 0.0 : std::max(in_season, days_between_loads) * of_a_day;
}

/// People's scraps come each week; of listed months their weeks' together.
void settle_scraps(Supply& supply, RoughAmount& rough, Amount& amount) {
  if (std::holds_alternative<std::monostate>(supply.when)) supply.when = Weekly{};
  const Months* listed = std::get_if<Months>(&supply.when);
  if (listed != nullptr) amount = times(days_of(listed->months) / 7.0, amount);
  rough.words += listed != nullptr ? ", in those months" : ", a week";
}

/// A lawn's clippings come from April to October; of other months their part of that, by days, and at most all of it.
void settle_clippings(Supply& supply, RoughAmount& rough, Amount& amount) {
  const std::vector<month> season = months_between(mowing_begins, mowing_ends);
  if (std::holds_alternative<std::monostate>(supply.when)) {
    supply.when = Months{season};
    rough.words += ", April to October";
    return;
  }
  if (const Weekly* weekly = std::get_if<Weekly>(&supply.when)) supply.when = Months{months_between(weekly->from, weekly->to)};
  amount = times(std::min(1.0, days_of(std::get<Months>(supply.when).months) / days_of(season)), amount);
  rough.words += ", in those months";
}

/// When an estimated amount comes in, and how much of it then.
void settle_season(Table& table, const Estimate& estimate, Supply& supply, RoughAmount& rough, Amount& amount) {
  if (std::holds_alternative<People>(estimate)) settle_scraps(supply, rough, amount);
  if (std::holds_alternative<MownLawn>(estimate)) settle_clippings(supply, rough, amount);
  if (std::holds_alternative<Trees>(estimate) && std::holds_alternative<Weekly>(supply.when))
    table.problem_at("when", "leaves of trees come once a year", "write when = { months = [\"Oct\", \"Nov\"] }");
}

/// A mass becomes so many of the containers that people count it in.
Amount counted_as_usual(const Supply& supply, const Amount& amount, const Materials& materials) {
  const Mass* mass = std::get_if<Mass>(&amount);
  const Container* container = row_with_id(*materials.containers, supply.feedstock.usual_container);
  if (mass == nullptr || container == nullptr) return amount;
  const ContainerCount one = so_many(1.0, *container);
  const std::optional<Mass> each = supply.mass(one);
  return each ? times(*mass / *each, one) : amount;
}

/// Loose where the table knows it so: what lies in a pile on the ground is in no bag.
void lie_loose(Supply& supply) {
  if (supply.packing_assumed && supply.feedstock.find_packing("loose") != nullptr) supply.packing = "loose";
}

void take_estimate(Table& table, Supply& supply, const Materials& materials) {
  const std::optional<Estimate> estimate = read_estimate(table, supply.feedstock, *materials.rough);
  if (!estimate) return;
  if (table.has("amount")) table.problem_at("estimate", "stands beside an amount", "give one of the two");
  if (supply.use == Use::unlimited)
    table.problem_at("estimate", "an unlimited supply has no amount", "leave out estimate, or use = \"unlimited\"");
  if (std::holds_alternative<LoosePile>(*estimate)) lie_loose(supply);
  RoughAmount rough = rough_amount_of(*estimate, supply.properties().moisture, materials);
  Amount amount = std::visit([](auto quantity) { return Amount(quantity); }, rough.likely);
  settle_season(table, *estimate, supply, rough, amount);
  supply.amount = counted_as_usual(supply, amount, materials);
  supply.estimated = std::move(rough);
}

/// Nothing weighs more than its own solids and water without any air: neither as weighed, nor the table's packing at the moisture that was
/// measured or felt.
void check_air(Table& table, const Supply& supply) {
  const Properties properties = supply.properties();
  const BulkDensity most = density_without_air(properties.moisture, properties.particle_density);
  if (supply.weighed && supply.weighed->density() > most)
    return table.problem_at("weighed", "the bucketful weighs more than its own solids and water without any air",
                            "check the weights and the container");
  const std::optional<BulkDensity> lies = supply.density();
  if (!(supply.dried || supply.feel) || !lies || *lies <= most) return;
  table.problem_at(supply.dried ? "dried" : "feel",
                   "at " + print_percent(properties.moisture, 3) + " moisture " + supply.feedstock.name + " weighs at most " +
                       print_density(most, 4) + " without any air, and as it lies we took it at " + print_density(*lies, 4),
                   "weigh a bucketful of it too: weighed = { … }");
}

}  // namespace

std::string_view treated_word(Treated treated) {
  for (const auto& [word, meaning] : treated_words) {
    if (meaning == treated) return word;
  }
  return "";
}

std::optional<Treated> treated_called(std::string_view word) {
  for (const auto& [name, meaning] : treated_words) {
    if (name == word) return meaning;
  }
  return std::nullopt;
}

std::optional<BulkDensity> Supply::density() const {
  const std::optional<std::string> in_pile = packing_in_pile();
  return in_pile ? feedstock.density(*in_pile) : counted_density();
}

std::optional<BulkDensity> Supply::counted_density() const {
  return weighed ? weighed->density() : feedstock.density(packing_as_counted());
}

const std::string& Supply::packing_of(const Amount& counted) const {
  const ContainerCount* containers = std::get_if<ContainerCount>(&counted);
  if (containers == nullptr || !packing_assumed) return packing;
  const auto found = std::find_if(containers->packings.begin(), containers->packings.end(),
                                  [&](const std::string& lies) { return feedstock.find_packing(lies) != nullptr; });
  return found == containers->packings.end() ? packing : *found;
}

const std::string& Supply::packing_as_counted() const {
  const std::optional<Amount>& counted = amount ? amount : priced_amount;
  return counted ? packing_of(*counted) : packing;
}

std::optional<std::string> Supply::packing_in_pile() const {
  if (shredded && feedstock.density("shredded")) return "shredded";
  const bool baled = packing_assumed && packing_as_counted() == "packed" && feedstock.usual_packing != "packed";
  return baled && feedstock.density(feedstock.usual_packing) ? std::optional(feedstock.usual_packing) : std::nullopt;
}

std::optional<Mass> Supply::mass(const Amount& counted) const {
  return mass_of(counted, weighed ? weighed->density() : feedstock.density(packing_of(counted)));
}

Properties Supply::properties() const {
  Properties properties = *feedstock.properties();
  if (feel) properties.moisture = *feel->moisture.typical;
  if (dried) properties.moisture = dried->moisture();
  return properties;
}

bool Supply::may_carry_weedkiller() const {
  return treated == Treated::yes || (treated == Treated::unknown && feedstock.has_tag("herbicide"));
}

Ingredient Supply::ingredient(Mass mass) const {
  return {{properties(), density(), mass}, feedstock.id, name(), packing_as_counted(), number};
}

std::string Supply::name() const { return apart.empty() ? feedstock.name : feedstock.name + " (" + apart + ")"; }

void tell_apart(std::vector<Supply>& supplies) {
  std::map<std::string, std::vector<Supply*>> of_one_feedstock;
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    supplies[i].number = static_cast<int>(i) + 1;
    supplies[i].apart.clear();
    of_one_feedstock[supplies[i].feedstock.id].push_back(&supplies[i]);
  }
  for (auto& [id, alike] : of_one_feedstock) {
    if (alike.size() > 1) name_apart(alike);
  }
}

Supply supply_of(const Materials& materials, std::string_view name_and_packing) {
  const std::size_t colon = name_and_packing.find(':');
  const NamedFeedstock named = find_named_feedstock(materials, name_and_packing.substr(0, colon));
  refuse_incomplete(*named.feedstock);
  Supply supply;
  supply.feedstock = *named.feedstock;
  const bool says_packing = colon != std::string_view::npos;
  supply.packing_assumed = !says_packing && named.packing.empty();
  supply.packing = named.packing.empty() ? supply.feedstock.usual_packing : named.packing;
  if (says_packing) supply.packing = checked_packing(supply.feedstock, name_and_packing.substr(colon + 1));
  return supply;
}

void set_amount(Supply& supply, const Amount& amount) {
  refuse_bag_of_fertilizer(supply, amount);
  supply.amount = amount;
}

namespace {

/// Whether an amount counts one of some words: "4 bags", "a bag", "3 to 4 bags"; not "4 leaf bags" or "4 compost-bag-1ft3".
template <std::size_t n>
bool counts_any_of(std::string_view text, const std::array<std::string_view, n>& words) {
  const std::size_t to = text.find(" to ");
  const auto counted = counted_words(to == std::string_view::npos ? text : text.substr(to + 4));
  return counted && std::find(words.begin(), words.end(), counted->words) != words.end();
}

constexpr std::array<std::string_view, 4> plain_bags{"bag", "bags", "sack", "sacks"};
constexpr std::array<std::string_view, 8> plain_packs{"bag", "bags", "sack", "sacks", "box", "boxes", "can", "cans"};

}  // namespace

void take_amount(Supply& supply, std::string_view text, const Materials& materials) {
  if (supply.feedstock.has_tag("sold-in-packs") && counts_any_of(text, plain_packs))
    throw TextError("bags and boxes of " + supply.feedstock.name + " come in many sizes",
                    "write what they hold or weigh: \"2 buckets\", \"1 grocery bag\" or \"5 lb\"");
  if (supply.feedstock.has_tag("sold-in-bags") && counts_any_of(text, plain_bags))
    throw TextError("bags of " + supply.feedstock.name + " come in many sizes",
                    "write what one holds or weighs: \"4 compost-bag-1ft3\", \"4 ft3\" or \"160 lb\"");
  const std::optional<AmountRange> range = read_amount_range(text, *materials.containers);
  set_amount(supply, range ? range->likely : read_amount(text, materials));
  if (!range) return;
  const Mass* mass = std::get_if<Mass>(&range->likely);
  const std::variant<Mass, Volume> likely = mass != nullptr ? std::variant<Mass, Volume>(*mass) : *volume_of(range->likely);
  supply.estimated = RoughAmount{std::nullopt, likely, range->low, range->high, std::string(text), "you said so"};
}

std::optional<Containerful> containerful_of(Supply supply, const ContainerCount& container) {
  const std::optional<Mass> mass = supply.mass(container);
  if (!mass) return std::nullopt;
  supply.amount = container;
  return Containerful{container, supply.ingredient(*mass)};
}

Supply read_what_it_is(Table& table, const Materials& materials) {
  Supply supply = table.read("feedstock", [&](std::string_view name) { return supply_of(materials, name); }).value_or(Supply{});
  const bool known = !supply.feedstock.id.empty();
  const auto packing =
      table.read("packing", [&](std::string_view name) { return known ? checked_packing(supply.feedstock, name) : std::string(name); });
  if (packing) {
    supply.packing = *packing;
    supply.packing_assumed = false;
  }
  table.read("amount", [&](std::string_view text) {
    take_amount(supply, text, materials);
    return true;
  });
  supply.shredded = table.flag("shredded").value_or(false);
  supply.treated = table.one_of("treated", treated_words);
  supply.weighed = read_weighed(table, materials);
  supply.dried = read_dried(table);
  supply.feel = table.read("feel", [&](std::string_view word) { return find_feel(word, *materials.rough); });
  return supply;
}

void check_weights(Table& table, const Supply& supply) {
  const std::optional<Mass> mass = supply.amount ? supply.mass(*supply.amount) : std::nullopt;
  if (mass && !(*mass <= most_of_a_supply))
    table.problem_at(table.has("amount") ? "amount" : "estimate", "is more than a million tonnes, which no yard has",
                     "write a smaller one");
  if (supply.amount && !mass) {
    table.problem_at("amount", "no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                     "give the amount as a weight, or weigh a bucketful: weighed = { … }");
  }
  check_air(table, supply);
}

std::optional<Supply> read_supply(Table& table, const Materials& materials) {
  table.require("feedstock", "write feedstock = \"leaves-fall\"");
  Supply supply = read_what_it_is(table, materials);
  const bool known = !supply.feedstock.id.empty();
  supply.when = read_when(table);
  supply.storable = table.flag("storable")
                        .value_or(supply.feedstock.feedstock_class != FeedstockClass::must_go &&
                                  supply.feedstock.feedstock_class != FeedstockClass::clippings);
  supply.use = table.one_of("use", use_words).value_or(Use::up_to);
  if (known) take_estimate(table, supply, materials);
  supply.most_of_volume = table.read("most_of_volume", read_fraction<OfLooseVolume>);
  supply.bought = table.flag("bought").value_or(false);
  read_price(table, supply, materials);
  if (known) check_amount(table, supply);
  if (known) check_weights(table, supply);
  table.finish();
  return known ? std::optional(std::move(supply)) : std::nullopt;
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
  tell_apart(supplies);
  return supplies;
}

std::optional<Amount> on_hand(const Supply& supply, Date built) {
  if (!supply.amount || std::holds_alternative<std::monostate>(supply.when)) return supply.amount;
  return times(share_on_hand(supply, built), *supply.amount);
}

double share_on_hand(const Supply& supply, Date built) {
  const sys_days day(built);
  return supply.storable ? share_of_days(supply, year_before(built), day) : share_that_keeps(supply, day);
}

double share_in_month(const Supply& supply, month m) {
  const Date first = std::chrono::year(2025) / m / 1;
  return share_of_days(supply, sys_days(first), sys_days(first) + days(days_in(m, first.year())));
}

bool is_mowing_season(Date day) { return mowing_begins <= day.month() && day.month() <= mowing_ends; }

bool may_be_there(const Supply& supply, Date built) { return !comes_fresh(supply) || share_that_keeps(supply, sys_days(built)) > 0.0; }

bool comes_fresh(const Supply& supply) { return !supply.storable && !std::holds_alternative<std::monostate>(supply.when); }

bool comes_on(const Supply& supply, Date date) {
  if (std::holds_alternative<std::monostate>(supply.when)) return false;
  return share_of_day(supply, sys_days(date)) > 0.0;
}

bool Season::is_one_run() const { return months.back() == months.front() + std::chrono::months(static_cast<int>(months.size()) - 1); }

std::optional<Season> season_of(const Supply& supply) {
  if (std::holds_alternative<std::monostate>(supply.when)) return std::nullopt;
  const auto comes = [&](month m) { return comes_on(supply, std::chrono::year(2025) / m / 1); };
  month first{1};
  while (first != month(12) && !(comes(first) && !comes(first - std::chrono::months(1)))) ++first;
  Season season;
  for (int later = 0; later < 12; ++later) {
    const month m = first + std::chrono::months(later);
    if (comes(m)) season.months.push_back(m);
  }
  return season.months.size() == 12 ? std::nullopt : std::optional(std::move(season));
}

std::optional<Amount> load_of(const Supply& supply) {
  if (!supply.amount || !comes_fresh(supply)) return std::nullopt;
  const Months* listed = std::get_if<Months>(&supply.when);
  return listed == nullptr ? *supply.amount : times(days_between_loads / days_of(listed->months), *supply.amount);
}

Facts facts_of(const Supply& supply) {
  Facts facts;
  for (const auto& [word, fact] : fact_words()) {
    if (is_tag(fact) && supply.feedstock.has_tag(word)) facts.insert(fact);
  }
  // A lawn known to be untreated is no worry; one that nobody asked about is.
  if (supply.treated == Treated::no) facts.erase(Fact::herbicide);
  if (supply.shredded) facts.insert(Fact::shredded);
  const bool from_the_curb = supply.packing == "collected" && !supply.packing_assumed && supply.feedstock.has_tag("leaves");
  const FeedstockClass sort = supply.feedstock.feedstock_class;
  const bool from_a_shelf =
      sort == FeedstockClass::supplement || sort == FeedstockClass::must_go || supply.feedstock.has_tag("sharp-nitrogen");
  if (from_the_curb || (supply.bought && !from_a_shelf)) facts.insert(Fact::from_elsewhere);
  return facts;
}

}  // namespace heapwright
