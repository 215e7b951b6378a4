#include "heapwright/order/offer.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double most_money = 1e9;

Cost read_price(Table& table, std::string_view key) {
  const double money = table.number(key).value_or(0.0);
  if (!(money >= 0.0 && money <= most_money)) table.problem_at(key, "a price is zero or more", "write a plain number: price = 38");
  return money * unit::money;
}

LoadLimit read_load_limit(Table& table, std::string_view mass_key) {
  LoadLimit load{table.read("volume", read_volume), table.read(mass_key, read_mass)};
  if (load.volume && !is_positive(*load.volume)) table.problem_at("volume", "a load holds something", "write volume = \"10 yd3\"");
  if (load.mass && !is_positive(*load.mass)) table.problem_at(mass_key, "a load holds something", "write a weight above zero");
  return load;
}

void read_breaks(Table& table, Offer& offer, const Materials& materials) {
  for (Table& row : table.tables("breaks")) {
    row.require("from", "write { from = \"10 yd3\", price = 34 }");
    row.require("price", "write { from = \"10 yd3\", price = 34 }");
    PriceBreak one;
    one.from = row.read("from", [&](std::string_view text) { return read_compost_volume(text, materials); }).value_or(Volume());
    one.price = read_price(row, "price");
    row.finish();
    offer.breaks.push_back(one);
  }
  std::stable_sort(offer.breaks.begin(), offer.breaks.end(), [](const PriceBreak& a, const PriceBreak& b) { return a.from < b.from; });
}

void read_pallet(Table& table, Offer& offer) {
  std::optional<Table> row = table.table("pallet");
  if (!row) return;
  Pallet pallet;
  row->require("holds", "write pallet = { holds = 40, price = 12 }");
  pallet.holds = row->number("holds").value_or(1.0);
  if (!(pallet.holds >= 1.0)) row->problem_at("holds", "a pallet holds one unit or more", "write holds = 40");
  pallet.price = read_price(*row, "price");
  row->finish();
  offer.pallet = pallet;
}

void read_own_haulage(Table& table, Offer& offer) {
  std::optional<Table> row = table.table("own_haulage");
  if (!row) return;
  OwnHaulage own;
  own.trip_cost = read_price(*row, "trip_cost");
  own.load = read_load_limit(*row, "payload");
  if (!own.load.volume && !own.load.mass)
    row->problem("what one trip carries is missing", "write own_haulage = { trip_cost = 25, volume = \"2 yd3\", payload = \"1500 lb\" }");
  if (table.has("delivery") || table.has("load"))
    row->problem("a delivery and one's own haulage", "keep one of delivery, with its load, and own_haulage");
  row->finish();
  offer.own_haulage = std::move(own);
}

/// What the price is for, and its volume.
void read_unit(Table& table, Offer& offer, const Materials& materials) {
  table.require("unit", "write unit = \"1 yd3\"");
  const auto amount = table.read("unit", [&](std::string_view text) {
    read_compost_volume(text, materials);
    return read_amount(text, materials);
  });
  if (!amount) return;
  offer.unit = *amount;
  offer.unit_volume = *volume_of(*amount);
  if (!is_positive(offer.unit_volume)) table.problem_at("unit", "a price is for more than nothing", "write unit = \"1 yd3\"");
}

}  // namespace

Volume read_compost_volume(std::string_view text, const Materials& materials) {
  const Amount amount = read_amount(text, materials);
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  if (counted != nullptr && counted->container == "leaf-bag")
    throw TextError("\"" + std::string(text) + "\": bags of compost come in many sizes",
                    "write their size: \"20 compost-bag-1ft3\", or the volume: \"20 ft3\"");
  const std::optional<Volume> volume = volume_of(amount);
  if (!volume) throw TextError("\"" + std::string(text) + "\" is a weight", "write a volume: \"10 yd3\"");
  return *volume;
}

Offer read_offer(Table& table, const Materials& materials) {
  Offer offer;
  offer.name = table.text("name").value_or("compost");
  read_unit(table, offer, materials);
  table.require("price", "write price = 38, for one unit");
  offer.price = read_price(table, "price");
  offer.delivery = read_price(table, "delivery");
  offer.delivery_per =
      table.one_of<DeliveryPer>("delivery_per", {{"load", DeliveryPer::load}, {"order", DeliveryPer::order}}).value_or(DeliveryPer::order);
  if (std::optional<Table> load = table.table("load")) {
    offer.load = read_load_limit(*load, "mass");
    load->finish();
  }
  const auto volume = [&](std::string_view text) { return read_compost_volume(text, materials); };
  offer.minimum = table.read("minimum", volume);
  offer.step = table.read("step", volume).value_or(offer.unit_volume);
  if (table.has("step") && !is_positive(offer.step))
    table.problem_at("step", "an order grows by more than nothing", "write step = \"1/2 yd3\"");
  offer.screen = table.read("screen", read_length);
  read_breaks(table, offer, materials);
  offer.tax = table.read("tax", read_fraction<OfPrice>).value_or(offer.tax);
  read_pallet(table, offer);
  offer.valid_until = table.date("valid_until");
  read_own_haulage(table, offer);
  table.finish();
  return offer;
}

FixedCost read_fixed_cost(Table& table) {
  FixedCost fixed;
  fixed.name = table.text("name").value_or("fixed cost");
  table.require("price", "write price = 95");
  fixed.price = read_price(table, "price");
  table.finish();
  return fixed;
}

}  // namespace heapwright
