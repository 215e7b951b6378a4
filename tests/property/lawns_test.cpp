// What must hold of lawns of any shape, of the compost that they take and what it brings, and of what is ordered for them.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <random>

#include "heapwright/error.hpp"
#include "heapwright/lawn/jobs.hpp"
#include "heapwright/lawn/shapes.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/order/order.hpp"

using namespace heapwright;

namespace {

constexpr double rounding = 1e-12;

const Materials& materials() {
  static const Materials tables = built_in_materials();
  return tables;
}

class Draws {
 public:
  explicit Draws(unsigned seed) : random_(seed) {}
  double between(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }
  double whole(int low, int high) { return count(low, high); }
  int count(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  std::vector<Length> lengths(int count) {
    std::vector<Length> all;
    for (int i = 0; i < count; ++i) all.push_back(between(0.5, 40.0) * unit::m);
    return all;
  }
  Lawn lawn() {
    Lawn lawn;
    const int zones = count(1, 6);
    for (int i = 0; i < zones; ++i) {
      Zone zone{"zone " + std::to_string(i), between(5.0, 3000.0) * unit::m2, std::nullopt};
      if (count(0, 2) == 0) zone.depth = between(0.002, 0.012) * unit::m;
      lawn.zones.push_back(zone);
    }
    return lawn;
  }
  TopdressingPlan plan() {
    TopdressingPlan plan;
    plan.depth = between(0.002, 0.009) * unit::m;
    plan.months.assign(static_cast<std::size_t>(count(1, 3)), std::chrono::September);
    if (count(0, 1) == 0) plan.allowance = ShareOfVolume::of(between(0.0, 0.3));
    return plan;
  }
  std::mt19937_64& random() { return random_; }

 private:
  std::mt19937_64 random_;
};

Topdressing dressed(const Lawn& lawn, const TopdressingPlan& plan) { return topdress(lawn, plan, materials()).result; }

void check_same(const Nutrients& a, const Nutrients& b, double times) {
  CHECK(times * a.dry_matter.value() == Approx(b.dry_matter.value()).epsilon(rounding));
  CHECK(times * a.nitrogen->low.value() == Approx(b.nitrogen->low.value()).epsilon(rounding));
  CHECK(times * a.nitrogen->high.value() == Approx(b.nitrogen->high.value()).epsilon(rounding));
  CHECK(times * a.nitrogen_first_year->likely.value() == Approx(b.nitrogen_first_year->likely.value()).epsilon(rounding));
  CHECK(times * a.phosphate->likely.value() == Approx(b.phosphate->likely.value()).epsilon(rounding));
  CHECK(times * a.potash->likely.value() == Approx(b.potash->likely.value()).epsilon(rounding));
}

Offer offer(Draws& draws) {
  Offer offer;
  offer.unit = offer.unit_volume = unit::cubic_yard;
  offer.step = 0.5 * draws.count(1, 4) * unit::cubic_yard;
  offer.price = draws.count(15, 60) * unit::money;
  offer.delivery = draws.count(0, 90) * unit::money;
  offer.delivery_per = draws.count(0, 1) == 0 ? DeliveryPer::load : DeliveryPer::order;
  if (draws.count(0, 1) == 0) offer.load.volume = draws.whole(4, 16) * unit::cubic_yard;
  if (draws.count(0, 2) == 0) offer.breaks.push_back({draws.whole(3, 12) * unit::cubic_yard, 0.85 * offer.price});
  return offer;
}

}  // namespace

TEST_CASE("a piece of ground twice as long and wide has four times the area, by whichever shape", "[lawn][property]") {
  Draws draws(20261208);
  for (int i = 0; i < 50; ++i) {
    const std::vector<Length> sides = draws.lengths(7);
    std::vector<Length> twice = sides;
    for (Length& side : twice) side *= 2.0;
    const auto four_times = [](Area one, Area other) { return 4.0 * one.value() == Approx(other.value()).epsilon(rounding); };
    CHECK(four_times(rectangle_area(sides[0], sides[1]), rectangle_area(twice[0], twice[1])));
    CHECK(four_times(ellipse_area(sides[0], sides[1]), ellipse_area(twice[0], twice[1])));
    CHECK(four_times(circle_area(sides[0]), circle_area(twice[0])));
    CHECK(four_times(triangle_area(sides[0], sides[1]), triangle_area(twice[0], twice[1])));
    CHECK(four_times(trapezoid_area(sides[0], sides[1], sides[2]), trapezoid_area(twice[0], twice[1], twice[2])));
    CHECK(four_times(offsets_area(sides[0], sides), offsets_area(twice[0], twice)));
    CHECK(four_times(offsets_area_by_simpson(sides[0], sides), offsets_area_by_simpson(twice[0], twice)));
    CHECK(four_times(radii_area(sides), radii_area(twice)));
  }
}

TEST_CASE("a piece of ground is as large whichever end or side it is measured from", "[lawn][property]") {
  Draws draws(20261209);
  for (int i = 0; i < 50; ++i) {
    const std::vector<Length> sides = draws.lengths(draws.count(3, 12));
    const Length spacing = sides.front();
    const std::vector<Length> backward(sides.rbegin(), sides.rend());
    std::vector<Length> from_another = sides;
    std::rotate(from_another.begin(), from_another.begin() + draws.count(0, 2), from_another.end());
    const auto same = [](Area one, Area other) { return one.value() == Approx(other.value()).epsilon(rounding); };
    CHECK(same(offsets_area(spacing, sides), offsets_area(spacing, backward)));
    CHECK(same(radii_area(sides), radii_area(backward)));
    CHECK(same(radii_area(sides), radii_area(from_another)));
    CHECK(same(trapezoid_area(sides[0], sides[1], sides[2]), trapezoid_area(sides[1], sides[0], sides[2])));
    CHECK(same(ellipse_area(sides[0], sides[1]), ellipse_area(sides[1], sides[0])));
    if (can_use_simpson(sides)) CHECK(same(offsets_area_by_simpson(spacing, sides), offsets_area_by_simpson(spacing, backward)));
    // A third side between the difference and the sum of two makes a triangle; which of them comes first is nothing to it.
    const Length third = apart(sides[0], sides[1]) + draws.between(0.1, 0.9) * (sides[0] + sides[1] - apart(sides[0], sides[1]));
    const double triangle = triangle_area(sides[0], sides[1], third).value();
    CHECK(triangle_area(third, sides[0], sides[1]).value() == Approx(triangle).epsilon(1e-9));  // a difference of like sides
    CHECK(triangle_area(sides[1], third, sides[0]).value() == Approx(triangle).epsilon(1e-9));
    CHECK(triangle <= 0.5 * sides[0].value() * sides[1].value() * (1.0 + rounding));  // largest at a right angle
  }
}

TEST_CASE("a piece measured by its widths is its two parts, and the wider the larger", "[lawn][property]") {
  Draws draws(20261210);
  for (int i = 0; i < 50; ++i) {
    const std::vector<Length> widths = draws.lengths(9);
    const Length spacing = draws.between(1.0, 8.0) * unit::m;
    const int at = draws.count(1, 7);
    const Area first = offsets_area(spacing, {widths.begin(), widths.begin() + at + 1});
    const Area second = offsets_area(spacing, {widths.begin() + at, widths.end()});
    CHECK((first + second).value() == Approx(offsets_area(spacing, widths).value()).epsilon(rounding));
    std::vector<Length> wider = widths;
    wider[static_cast<std::size_t>(at)] += 1.0 * unit::m;
    CHECK((offsets_area(spacing, wider) - offsets_area(spacing, widths)).value() == Approx(spacing.value()).epsilon(1e-9));
    CHECK(offsets_area_by_simpson(spacing, wider) > offsets_area_by_simpson(spacing, widths));
    // Where the edge is straight both rules are exact.
    std::vector<Length> straight;
    for (int k = 0; k < 9; ++k) straight.push_back((3.0 + 0.4 * k) * unit::m);
    CHECK(offsets_area_by_simpson(spacing, straight).value() == Approx(offsets_area(spacing, straight).value()).epsilon(rounding));
    CHECK(offsets_area(spacing, straight).value() ==
          Approx(trapezoid_area(straight.front(), straight.back(), 8.0 * spacing).value()).epsilon(rounding));
    // Of a circle measured from its middle, the more points the nearer to it.
    const double circle = circle_area(2.0 * widths[0]).value();
    double before = 0.0;
    for (const std::size_t points : {4U, 8U, 16U, 64U}) {
      const double area = radii_area(std::vector<Length>(points, widths[0])).value();
      CHECK(area > before);
      CHECK(area < circle);
      before = area;
    }
    CHECK(before == Approx(circle).epsilon(2e-3));  // sin(x)/x at 2π/64
  }
}

TEST_CASE("the compost of a lawn is that of its zones, whichever comes first", "[lawn][property]") {
  Draws draws(20261211);
  for (int i = 0; i < 60; ++i) {
    Lawn lawn = draws.lawn();
    const TopdressingPlan plan = draws.plan();
    const Topdressing one = dressed(lawn, plan);
    CAPTURE(i, lawn.zones.size());
    double area = 0.0, volume = 0.0, loads = 0.0;
    for (const ZoneDressing& zone : one.zones) {
      CHECK(zone.volume.value() == Approx((zone.area * zone.depth).value()).epsilon(rounding));
      area += zone.area.value();
      volume += zone.volume.value();
      loads += zone.wheelbarrow_loads;
    }
    CHECK(one.area.value() == Approx(area).epsilon(rounding));
    CHECK(one.volume.value() == Approx(volume).epsilon(rounding));
    CHECK(one.wheelbarrow_loads == Approx(loads).epsilon(rounding));
    CHECK((one.area * one.depth).value() == Approx(volume).epsilon(rounding));
    CHECK(one.volume_with_allowance.value() == Approx(volume * (1.0 + allowance_of(plan).value())).epsilon(rounding));
    CHECK(one.per_year.value() == Approx(static_cast<double>(one.times_a_year) * one.volume_with_allowance.value()).epsilon(rounding));
    CHECK(volume_for(lawn, plan).value() == Approx(one.volume_with_allowance.value()).epsilon(rounding));
    std::shuffle(lawn.zones.begin(), lawn.zones.end(), draws.random());
    CHECK(dressed(lawn, plan).volume_with_allowance.value() == Approx(one.volume_with_allowance.value()).epsilon(rounding));
  }
}

TEST_CASE("a lawn of twice the area takes twice the compost, at the same depth, with the same for each yard", "[lawn][property]") {
  Draws draws(20261212);
  for (int i = 0; i < 60; ++i) {
    Lawn lawn = draws.lawn();
    const TopdressingPlan plan = draws.plan();
    const Topdressing one = dressed(lawn, plan);
    for (Zone& zone : lawn.zones) zone.area *= 2.0;
    const Topdressing twice = dressed(lawn, plan);
    CAPTURE(i);
    CHECK(twice.volume_with_allowance.value() == Approx(2.0 * one.volume_with_allowance.value()).epsilon(rounding));
    CHECK(twice.mass->likely.value() == Approx(2.0 * one.mass->likely.value()).epsilon(rounding));
    CHECK(twice.depth.value() == Approx(one.depth.value()).epsilon(rounding));
    check_same(one.nutrients, twice.nutrients, 1.0);
    // A zone in two halves is the zone.
    Lawn split = lawn;
    split.zones.front().area *= 0.5;
    split.zones.push_back(split.zones.front());
    CHECK(dressed(split, plan).volume.value() == Approx(twice.volume.value()).epsilon(rounding));
  }
}

TEST_CASE("the deeper it is spread the more it takes, and brings as much more", "[lawn][property]") {
  Draws draws(20261213);
  for (int i = 0; i < 30; ++i) {
    TopdressingPlan plan = draws.plan();
    plan.depth = draws.between(0.001, 0.004) * unit::m;
    const Lawn lawn{{Zone{"lawn", draws.between(10.0, 2000.0) * unit::m2, std::nullopt}}};
    const Topdressing one = dressed(lawn, plan);
    // What covers it covers just it.
    CHECK(area_covered(one.volume_with_allowance, plan).value() == Approx(one.area.value()).epsilon(rounding));
    CHECK(area_covered(3.0 * one.volume_with_allowance, plan).value() == Approx(3.0 * one.area.value()).epsilon(rounding));
    *plan.depth *= 3.0;
    const Topdressing deep = dressed(lawn, plan);
    CHECK(deep.volume.value() == Approx(3.0 * one.volume.value()).epsilon(rounding));
    CHECK(area_covered(deep.volume_with_allowance, plan).value() == Approx(one.area.value()).epsilon(rounding));
    check_same(one.nutrients, deep.nutrients, 3.0);
    for (const auto* band : {&*deep.nutrients.nitrogen, &*deep.nutrients.nitrogen_first_year}) {
      CHECK(band->low <= band->likely);
      CHECK(band->likely <= band->high);
    }
    CHECK(deep.nutrients.nitrogen_first_year->high < deep.nutrients.nitrogen->high);
    plan.depth = 1.001 * depth_to_refuse;
    CHECK_THROWS_AS(dressed(lawn, plan), DomainError);
  }
}

TEST_CASE("more nitrogen in the compost brings more, more water in it less", "[lawn][property]") {
  Draws draws(20261214);
  for (int i = 0; i < 30; ++i) {
    TopdressingPlan plan = draws.plan();
    const Lawn lawn{{Zone{"lawn", 100.0 * unit::m2, std::nullopt}}};
    CompostAnalysis analysis;
    analysis.moisture = wet_basis(draws.between(0.25, 0.55));
    analysis.bulk_density = bulk_density(draws.between(400.0, 800.0));
    analysis.nitrogen = nitrogen_dry_basis(draws.between(0.008, 0.02));
    analysis.carbon_to_nitrogen = carbon_to_nitrogen(draws.between(10.0, 20.0));
    const auto brings = [&] {
      plan.analysis = analysis;
      return dressed(lawn, plan).nutrients;
    };
    const Nutrients one = brings();
    *analysis.nitrogen *= 1.5;
    const Nutrients richer = brings();
    CHECK(richer.nitrogen->likely.value() == Approx(1.5 * one.nitrogen->likely.value()).epsilon(rounding));
    *analysis.moisture *= 1.2;
    const Nutrients wetter = brings();
    CHECK(wetter.nitrogen->likely < richer.nitrogen->likely);
    CHECK(wetter.dry_matter < richer.dry_matter);
    CHECK(wetter.phosphate->likely < one.phosphate->likely);
    *analysis.carbon_to_nitrogen += carbon_to_nitrogen(8.0);
    CHECK(brings().freed->likely <= wetter.freed->likely);
  }
}

TEST_CASE("each zone of several jobs is dropped once", "[jobs][property]") {
  Draws draws(20261215);
  for (int i = 0; i < 60; ++i) {
    Lawn lawn = draws.lawn();
    std::vector<Job> jobs;
    for (std::size_t k = 0; k < lawn.zones.size(); ++k) {
      if (k == 0 || draws.count(0, 1) == 0) jobs.push_back({"job " + std::to_string(jobs.size()), {}});
      lawn.zones[k].job = jobs.back().name;
    }
    for (std::size_t k = 1; k < jobs.size(); ++k) {
      if (draws.count(0, 2) == 0) jobs[k].shares_loads_with = {jobs[k - 1].name};
    }
    std::vector<std::string> named, zones;
    Area area;
    for (const Drop& drop : drops_of(lawn, jobs)) {
      named.insert(named.end(), drop.jobs.begin(), drop.jobs.end());
      for (const Zone& zone : drop.lawn.zones) zones.push_back(zone.name);
      area += area_of(drop.lawn);
    }
    CAPTURE(i, jobs.size());
    std::sort(named.begin(), named.end());
    std::sort(zones.begin(), zones.end());
    CHECK(named.size() == jobs.size());
    CHECK(std::unique(named.begin(), named.end()) == named.end());
    CHECK(zones.size() == lawn.zones.size());
    CHECK(std::unique(zones.begin(), zones.end()) == zones.end());
    CHECK(area.value() == Approx(area_of(lawn).value()).epsilon(rounding));
  }
}

TEST_CASE("a larger need never costs less, nor does an offer less to choose from", "[order][property]") {
  Draws draws(20261216);
  for (int i = 0; i < 150; ++i) {
    OrderQuestion question{{}, draws.between(0.2, 25.0) * unit::cubic_yard, std::nullopt};
    const int count = draws.count(2, 3);
    for (int k = 0; k < count; ++k) question.offers.push_back(offer(draws));
    const auto cost = [](const OrderQuestion& of) { return cheapest_order(of)->cost.value(); };
    const double usual = cost(question);
    CAPTURE(i, usual);
    OrderQuestion more = question;
    more.need *= draws.between(1.0, 1.5);
    CHECK(cost(more) >= usual * (1.0 - rounding));
    OrderQuestion fewer = question;
    fewer.offers.pop_back();
    CHECK(cost(fewer) >= usual * (1.0 - rounding));
    OrderQuestion turned = question;
    std::reverse(turned.offers.begin(), turned.offers.end());
    CHECK(cost(turned) == Approx(usual).epsilon(rounding));
    OrderQuestion dearer = question;
    for (Offer& offer : dearer.offers) {
      offer.price *= 3.0;
      offer.delivery *= 3.0;
      for (auto& at : offer.breaks) at.price *= 3.0;
    }
    CHECK(cost(dearer) == Approx(3.0 * usual).epsilon(rounding));
    // Money that buys the need buys the need.
    const auto bought = most_for(question, (1.0 + 1e-9) * usual * unit::money);
    REQUIRE(bought);
    CHECK(bought->volume >= (1.0 - 1e-9) * question.need);
  }
}
