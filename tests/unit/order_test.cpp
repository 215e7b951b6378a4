#include "heapwright/order/order.hpp"

#include <catch2/catch.hpp>

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/order/phone_line.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

Offer by_the_yard(double price) {
  Offer offer;
  offer.name = "bulk";
  offer.unit = unit::cubic_yard;
  offer.unit_volume = unit::cubic_yard;
  offer.step = unit::cubic_yard;
  offer.price = price * unit::money;
  return offer;
}

Order ordered(std::vector<Offer> offers, double yards) {
  return *cheapest_order({std::move(offers), yards * unit::cubic_yard, std::nullopt});
}

double yards(Volume volume) { return volume / unit::cubic_yard; }

}  // namespace

TEST_CASE("an order is rounded up to the step of the supplier, never by display", "[order]") {
  for (const auto& [need, wanted] : {std::pair{99.5, 100.0}, {104.5, 105.0}, {100.0, 100.0}, {100.001, 101.0}, {0.2, 1.0}})
    CHECK(yards(ordered({by_the_yard(38.0)}, need).volume) == Approx(wanted));
  Offer halves = by_the_yard(38.0);
  halves.step = 0.5 * unit::cubic_yard;
  CHECK(yards(ordered({halves}, 12.2).volume) == Approx(12.5));
  CHECK(ordered({halves}, 12.2).cost.value() == Approx(12.5 * 38.0));
  halves.minimum = 20.0 * unit::cubic_yard;
  CHECK(yards(ordered({halves}, 12.2).volume) == Approx(20.0));
}

TEST_CASE("loads, a delivery for each, tax on the compost alone", "[order]") {
  Offer offer = by_the_yard(40.0);
  offer.delivery = 75.0 * unit::money;
  offer.delivery_per = DeliveryPer::load;
  offer.load.volume = 10.0 * unit::cubic_yard;
  offer.tax = ShareOfPrice::of(0.05);
  const Order order = ordered({offer}, 12.2);
  CHECK(order.loads == 2);
  CHECK(order.cost.value() == Approx(13 * 40 * 1.05 + 150));
  // Nine short tons a load of 1000 lb a yard: 18 yards by weight, 10 by volume.
  offer.load.mass = 9.0 * unit::short_ton;
  OrderQuestion question{{offer}, 12.2 * unit::cubic_yard, bulk_density(593.276)};
  CHECK(cheapest_order(question)->loads == 2);
  question.density = bulk_density(2.0 * 593.276);  // 9 yards by weight
  CHECK(cheapest_order(question)->loads == 2);
  question.need = 18.5 * unit::cubic_yard;
  CHECK(cheapest_order(question)->loads == 3);
}

TEST_CASE("more is ordered where a lower price makes it cheaper", "[order]") {
  Offer offer = by_the_yard(38.0);
  offer.breaks = {{10.0 * unit::cubic_yard, 34.0 * unit::money}};
  CHECK(ordered({offer}, 9.0).cost.value() == Approx(340.0));
  CHECK(yards(ordered({offer}, 9.0).volume) == Approx(10.0));
  CHECK(ordered({offer}, 8.0).cost.value() == Approx(304.0));
}

TEST_CASE("a few bags fill up what a yard would overshoot", "[order]") {
  Offer bags = by_the_yard(4.0);
  bags.name = "bags";
  bags.unit = unit::cubic_foot;
  bags.unit_volume = unit::cubic_foot;
  bags.step = unit::cubic_foot;
  const Order order = ordered({by_the_yard(38.0), bags}, 3.0 + 2.0 / 27.0);
  REQUIRE(order.lines.size() == 2);
  CHECK(order.cost.value() == Approx(3 * 38.0 + 2 * 4.0));
  CHECK(order.left_over.value() == Approx(0.0).margin(1e-9));
}

TEST_CASE("one load less and one step less", "[order]") {
  Offer offer = by_the_yard(40.0);
  offer.delivery = 75.0 * unit::money;
  offer.delivery_per = DeliveryPer::load;
  offer.load.volume = 10.0 * unit::cubic_yard;
  const Date today = read_date("2026-11-30");
  const auto ordering =
      ordering_of({{offer}, 10.3 * unit::cubic_yard, std::nullopt}, {{"spreader", 95.0 * unit::money}}, today, false, built_in_materials());
  CHECK(yards(ordering.best->volume) == Approx(11.0));
  REQUIRE(ordering.one_step_less);
  CHECK(yards(*ordering.one_step_less) == Approx(10.0));
  REQUIRE(ordering.one_load_less);
  CHECK(yards(ordering.one_load_less->volume) == Approx(10.0));
  CHECK(ordering.one_load_less->saved.value() == Approx(40.0 + 75.0));
  CHECK(ordering.cost.value() == Approx(11 * 40.0 + 150.0 + 95.0));
}

TEST_CASE("what some money buys is what is left of it after what is paid once", "[order]") {
  Offer old = by_the_yard(10.0);
  old.valid_until = read_date("2026-10-31");
  const OrderQuestion question{{old, by_the_yard(40.0)}, 2.0 * unit::cubic_yard, std::nullopt};
  const std::vector<FixedCost> spreader{{"spreader", 95.0 * unit::money}};
  const Date today = read_date("2026-11-30");
  const auto bought = bought_for(300.0 * unit::money, question, spreader, today);
  REQUIRE(bought);
  CHECK(yards(bought->order.volume) == Approx(5.0));  // 205 at 40 a yard; the cheap offer is out of date
  CHECK(bought->cost.value() == Approx(5 * 40.0 + 95.0));
  CHECK(bought->offers.size() == 1);
  CHECK_FALSE(bought_for(100.0 * unit::money, question, spreader, today));
}

TEST_CASE("the next best order does without one of the offers of the best", "[order]") {
  Offer bags = by_the_yard(108.0);
  bags.name = "bags";
  bags.step = bags.unit_volume / 27.0;
  const OrderQuestion question{{by_the_yard(60.0), by_the_yard(38.0), bags}, (3.0 + 2.0 / 27.0) * unit::cubic_yard, std::nullopt};
  const auto ordering = ordering_of(question, {}, read_date("2026-11-30"), false, built_in_materials());
  CHECK(ordering.best->cost.value() == Approx(3 * 38.0 + 2 * 4.0));
  REQUIRE(ordering.next);
  CHECK(ordering.next->cost.value() == Approx(4 * 38.0));  // not three yards at 60 with bags, which is dearer
  REQUIRE(ordering.next->lines.size() == 1);
  CHECK(ordering.next->lines.front().offer == 1);
}

TEST_CASE("a screen is told in inches as people say them", "[order]") {
  const Materials materials = built_in_materials();
  const auto ordering =
      ordering_of({{by_the_yard(40.0)}, 2.0 * unit::cubic_yard, std::nullopt}, {}, read_date("2026-11-30"), false, materials);
  const auto screen = [&](Length size) {
    const std::string line = phone_line(ordering, size, materials);
    const std::string before = "screened to ";
    const std::size_t from = line.find(before) + before.size();
    return line.substr(from, line.find(" or finer") - from);
  };
  CHECK(screen(0.375 * unit::inch) == "3/8 in");
  CHECK(screen(0.5 * unit::inch) == "1/2 in");
  CHECK(screen(0.75 * unit::inch) == "3/4 in");
  CHECK(screen(1.0 * unit::inch) == "1 in");
  CHECK(screen(10.0 * 0.001 * unit::m) == "10 mm");
}

TEST_CASE("an offer out of date is not ordered, and without an offer the usual steps are", "[order]") {
  Offer old = by_the_yard(10.0);
  old.valid_until = read_date("2026-10-31");
  const Materials materials = built_in_materials();
  const Date today = read_date("2026-11-30");
  const auto ordering = ordering_of({{old, by_the_yard(40.0)}, 2.0 * unit::cubic_yard, std::nullopt}, {}, today, false, materials);
  CHECK(ordering.best->cost.value() == Approx(80.0));
  CHECK(ordering.out_of_date.size() == 1);
  CHECK_FALSE(ordering_of({{old}, 2.0 * unit::cubic_yard, std::nullopt}, {}, today, false, materials).best);
  const auto usual = ordering_of({{}, 4.06 * unit::cubic_yard, std::nullopt}, {}, today, false, materials);
  CHECK(usual.usual);
  CHECK(yards(usual.best->volume) == Approx(4.5));
  const auto bags = ordering_of({{}, 4.4 * unit::cubic_foot, std::nullopt}, {}, today, false, materials);
  CHECK(bags.best->lines.front().units == Approx(5.0));
  CHECK(std::get<ContainerCount>(bags.question.offers.front().unit).count == 1.0);
}

}  // namespace heapwright
