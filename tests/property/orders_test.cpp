// What must hold of any order, and the cheapest against every mix there is.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <random>

#include "heapwright/order/order.hpp"

using namespace heapwright;

namespace {

/// An offer in plain numbers, priced by hand below: volumes are in steps of one cubic foot.
struct Priced {
  int unit;
  int step;
  int minimum;
  double price;
  double delivery;
  bool by_load;
  int load;        ///< 0: no limit
  int break_from;  ///< 0: none
  double break_price;
  double tax;
  int pallet;  ///< 0: none
  double pallet_price;
};

constexpr double no_order = 1e300;

double cost_by_hand(const Priced& offer, int volume) {
  if (volume == 0) return 0.0;
  if (volume < offer.minimum) return no_order;
  const double price = offer.break_from > 0 && volume >= offer.break_from ? offer.break_price : offer.price;
  const double units = static_cast<double>(volume) / offer.unit;
  const int loads = offer.load > 0 ? (volume + offer.load - 1) / offer.load : 1;
  double cost = units * price * (1.0 + offer.tax) + (offer.by_load ? loads : 1) * offer.delivery;
  if (offer.pallet > 0) cost += std::ceil(units / offer.pallet) * offer.pallet_price;
  return cost;
}

/// Every mix: each offer from nothing up to twice the need, and to its break.
double cheapest_by_hand(const std::vector<Priced>& offers, int need, std::size_t first = 0) {
  if (first == offers.size()) return need <= 0 ? 0.0 : no_order;
  const Priced& offer = offers[first];
  const int most = std::max({2 * need + offer.step, offer.minimum + offer.step, offer.break_from + offer.step});
  double cheapest = no_order;
  for (int volume = 0; volume <= most; volume += offer.step) {
    const double cost = cost_by_hand(offer, volume);
    if (cost >= cheapest) continue;
    cheapest = std::min(cheapest, cost + cheapest_by_hand(offers, need - volume, first + 1));
  }
  return cheapest;
}

Volume feet(int count) { return static_cast<double>(count) * unit::cubic_foot; }

Offer offer_of(const Priced& priced) {
  Offer offer;
  offer.unit = feet(priced.unit);
  offer.unit_volume = feet(priced.unit);
  offer.step = feet(priced.step);
  if (priced.minimum > 0) offer.minimum = feet(priced.minimum);
  offer.price = priced.price * unit::money;
  offer.delivery = priced.delivery * unit::money;
  offer.delivery_per = priced.by_load ? DeliveryPer::load : DeliveryPer::order;
  if (priced.load > 0) offer.load.volume = feet(priced.load);
  if (priced.break_from > 0) offer.breaks.push_back({feet(priced.break_from), priced.break_price * unit::money});
  offer.tax = ShareOfPrice::of(priced.tax);
  if (priced.pallet > 0) offer.pallet = Pallet{static_cast<double>(priced.pallet), priced.pallet_price * unit::money};
  return offer;
}

class PriceLists {
 public:
  std::vector<Priced> next() {
    std::vector<Priced> offers;
    const int count = between(1, 3);
    for (int i = 0; i < count; ++i) offers.push_back(one());
    return offers;
  }
  int between(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }

 private:
  Priced one() {
    const int unit = between(1, 4);
    const double price = unit * between(4, 12);
    const bool breaks = between(0, 2) == 0;
    const bool on_pallets = between(0, 3) == 0;
    return {unit,
            unit * between(1, 2),
            between(0, 2) == 0 ? between(1, 12) : 0,
            price,
            static_cast<double>(between(0, 1) * between(5, 40)),
            between(0, 1) == 0,
            between(0, 1) * between(4, 15),
            breaks ? between(3, 30) : 0,
            price * 0.1 * between(6, 10),
            0.01 * between(0, 9),
            on_pallets ? between(2, 10) : 0,
            static_cast<double>(between(1, 15))};
  }
  std::mt19937 random_{20261130};
};

OrderQuestion question_of(const std::vector<Priced>& priced, double need) {
  OrderQuestion question{{}, need * unit::cubic_foot, std::nullopt};
  for (const Priced& one : priced) question.offers.push_back(offer_of(one));
  return question;
}

}  // namespace

TEST_CASE("the cheapest order is the cheapest of every mix, for 500 price lists", "[order][property]") {
  PriceLists lists;
  for (int i = 0; i < 500; ++i) {
    const std::vector<Priced> priced = lists.next();
    const int need = lists.between(1, 24);
    const OrderQuestion question = question_of(priced, need);
    const std::optional<Order> order = cheapest_order(question);
    REQUIRE(order);
    INFO("list " << i << ", " << need << " cu ft of " << priced.size() << " offers");
    CHECK(order->cost.value() == Approx(cheapest_by_hand(priced, need)).epsilon(1e-9));
  }
}

TEST_CASE("no order is below the need, its lines add up, and what else there is costs no less", "[order][property]") {
  PriceLists lists;
  for (int i = 0; i < 2000; ++i) {
    const std::vector<Priced> priced = lists.next();
    const double need = 0.01 * lists.between(1, 9000);
    const OrderQuestion question = question_of(priced, need);
    const std::optional<Order> order = cheapest_order(question);
    REQUIRE(order);
    INFO("list " << i << ", " << need << " cu ft");
    CHECK(order->volume >= (1.0 - 1e-9) * question.need);
    Volume volume;
    Cost cost;
    for (const OrderLine& line : order->lines) {
      const Offer& offer = question.offers[line.offer];
      const double steps = line.volume / offer.step;
      CHECK(steps == Approx(std::round(steps)).margin(1e-6));
      if (offer.minimum) CHECK(line.volume >= (1.0 - 1e-9) * *offer.minimum);
      volume += line.volume;
      cost += line.cost;
    }
    CHECK(volume.value() == Approx(order->volume.value()));
    CHECK(cost.value() == Approx(order->cost.value()));
    if (const auto next = runner_up(question, *order)) CHECK(next->cost >= (1.0 - 1e-9) * order->cost);
    for (std::size_t place = 0; place < question.offers.size(); ++place)
      CHECK(rounded_up_to_step(question.offers[place], question.need) >= (1.0 - 1e-9) * question.need);
  }
}

TEST_CASE("what a budget buys costs no more, and a step more of anything does not fit", "[order][property]") {
  PriceLists lists;
  for (int i = 0; i < 300; ++i) {
    const std::vector<Priced> priced = lists.next();
    const Cost budget = lists.between(1, 300) * unit::money;
    const OrderQuestion question = question_of(priced, 0.0);
    const std::optional<Order> order = most_for(question, budget);
    INFO("list " << i);
    if (!order) {
      for (const Priced& one : priced)
        CHECK(cost_by_hand(one, std::max(one.step, (one.minimum + one.step - 1) / one.step * one.step)) > budget.value());
      continue;
    }
    CHECK(order->cost <= (1.0 + 1e-9) * budget);
    OrderQuestion more = question;
    more.need = order->volume + 0.5 * unit::cubic_foot;
    CHECK(cheapest_order(more)->cost > budget);
  }
}
