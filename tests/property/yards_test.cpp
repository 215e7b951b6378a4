// What must hold of whole yards and classes of them: the order in which things stand is nothing, what is larger takes more, and what was
// written down is read back.
#include "../unit/yards.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "heapwright/guide/yard_text.hpp"
#include "heapwright/plan/compost_by_date.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/roster/class_totals.hpp"
#include "heapwright/roster/household_yard.hpp"
#include "heapwright/roster/roster.hpp"

using namespace heapwright;
using yards::supply;
using yards::yard;

namespace {

constexpr double rounding = 1e-12;
const Date today = std::chrono::year(2026) / 11 / 7;

class Draws {
 public:
  explicit Draws(unsigned seed) : random_(seed) {}
  int count(int low, int high) { return std::uniform_int_distribution<int>(low, high)(random_); }
  std::mt19937_64& random() { return random_; }

  std::vector<std::string> supplies() {
    const std::string week = "when = { every = \"week\" }\n";
    std::vector<std::string> all{supply("leaves-fall", bags(4, 40), "when = { months = [\"Oct\", \"Nov\"] }\nstorable = true\n"),
                                 supply("kitchen-scraps", std::to_string(count(1, 3)) + " bucket", week),
                                 supply("coffee-grounds", std::to_string(count(1, 9)) + " bucket"),
                                 supply("horse-manure", std::to_string(count(20, 200)) + " lb"),
                                 supply("straw", std::to_string(count(1, 4)) + " straw-bale")};
    all.resize(static_cast<std::size_t>(count(2, 5)));
    return all;
  }
  std::string row() {
    const auto field = [&](const std::string& text) { return count(0, 5) == 0 ? std::string() : text; };
    return field(std::to_string(count(0, 40))) + ',' + field(std::to_string(count(0, 8))) + ',' + field(count(0, 2) == 0 ? "yes" : "no") +
           ',' + field(std::to_string(count(0, 9) * 1000)) + ',' + field(std::to_string(count(0, 3))) + '\n';
  }

 private:
  std::string bags(int low, int high) { return std::to_string(count(low, high)) + " leaf-bag"; }
  std::mt19937_64 random_;
};

std::string joined(const std::vector<std::string>& parts) {
  std::string all;
  for (const std::string& part : parts) all += part;
  return all;
}

std::vector<HouseholdShare> shares_of(const std::string& rows) {
  const Roster roster = read_roster_text("leaves,clippings,treated,lawn,scraps\n" + rows, "roster.csv", {}, built_in_tables(), today);
  std::vector<HouseholdShare> shares;
  for (const Household& household : roster.households) shares.push_back(share_of(yard_of(household, built_in_tables(), today), today));
  return shares;
}

const std::string lawn_of(int square_feet) {
  return "[[lawn.zone]]\nshape = \"area\"\narea = \"" + std::to_string(square_feet) + " ft2\"\n";
}

}  // namespace

TEST_CASE("a yard is the same whichever of its supplies is listed first", "[plan][property]") {
  Draws draws(20261223);
  for (int i = 0; i < 15; ++i) {
    std::vector<std::string> supplies = draws.supplies();
    const Answer<MixOnHand> one = mix_on_hand(yard(joined(supplies)), 20.0 * unit::kg_water, today);
    std::shuffle(supplies.begin(), supplies.end(), draws.random());
    const Answer<MixOnHand> other = mix_on_hand(yard(joined(supplies)), 20.0 * unit::kg_water, today);
    CAPTURE(i, joined(supplies));
    REQUIRE(one->mix.has_value());
    CHECK(one->mix->mass.value() == Approx(other->mix->mass.value()).epsilon(rounding));
    CHECK(*one->mix->carbon_to_nitrogen / *other->mix->carbon_to_nitrogen == Approx(1.0).epsilon(rounding));
    CHECK(one->mix->volume->value() == Approx(other->mix->volume->value()).epsilon(rounding));
    CHECK(one.assumptions.size() == other.assumptions.size());
    CHECK(one.cautions == other.cautions);
    // Each figure is drawn from another sequence of 4096, whose tenths are off by about a part in a hundred of the width.
    const Band<MoistureWetBasis> a = one->mix->ranges->moisture, b = other->mix->ranges->moisture;
    CHECK(a.low.value() == Approx(b.low.value()).margin(0.03 * (a.high - a.low).value()));
    CHECK(a.high.value() == Approx(b.high.value()).margin(0.03 * (a.high - a.low).value()));
  }
}

TEST_CASE("a yard asked twice on a day answers the same", "[plan][property]") {
  Draws draws(20261224);
  for (int i = 0; i < 3; ++i) {
    const std::string text = joined(draws.supplies()) + lawn_of(3000) + "[climate]\nlike = \"cool\"\n";
    const auto asked = [&] {
      const Yard one = yard(text);
      return json_of_plan(make_plan(one, today), one.tables.materials);
    };
    const std::string once = asked();
    CHECK(once == asked());
    CHECK(once.size() > 1000);
  }
}

TEST_CASE("a larger lawn needs as much more, is covered no further, and wants no less to buy", "[plan][property]") {
  Draws draws(20261225);
  for (int i = 0; i < 4; ++i) {
    const std::string text = joined(draws.supplies());
    SupplyBalance before;
    double feet_before = 0.0;
    for (const int feet : {500, 1000, 4000, 16000}) {
      const SupplyBalance balance = make_plan(yard(text + lawn_of(feet)), today)->supply;
      CAPTURE(i, feet, text);
      REQUIRE(balance.needed);
      REQUIRE(balance.to_buy);
      const Volume own = balance.own_compost ? balance.own_compost->likely : Volume();
      // What there is of one's own and what is bought make what is needed.
      CHECK(balance.to_buy->value() == Approx(std::max(0.0, (*balance.needed - own).value())).margin(1e-12));
      if (before.needed) {
        CHECK((*balance.needed / *before.needed).value() == Approx(feet / feet_before).epsilon(rounding));
        CHECK(*balance.to_buy >= *before.to_buy);
        if (balance.own_compost) CHECK(balance.own_compost->likely.value() == Approx(before.own_compost->likely.value()).epsilon(rounding));
      }
      before = balance;
      feet_before = feet;
    }
  }
}

TEST_CASE("compost of one's own is spread once, and what lacks is bought, at any number of times", "[plan][property]") {
  Draws draws(20261226);
  const Yard one = yard(lawn_of(2000) + "[topdressing]\nmonths = [\"Apr\", \"May\", \"Sep\"]\n");
  const Topdressing spread = topdress(*one.lawn, one.topdressing, one.tables.materials, today).result;
  for (int i = 0; i < 100; ++i) {
    std::vector<CompostBatch> batches;
    double made = 0.0;
    const int count = draws.count(0, 5);
    for (int k = 0; k < count; ++k) {
      CompostBatch batch;
      batch.likely = Date(std::chrono::sys_days(today) + std::chrono::days(draws.count(60, 500)));
      const double likely = 0.01 * draws.count(1, 150);
      batch.screened = CompostYield{0.7 * likely * unit::m3, likely * unit::m3, 1.4 * likely * unit::m3};
      made += likely;
      batches.push_back(batch);
    }
    double used = 0.0;
    for (const LawnByDate& at : lawn_by_date(spread, batches, today)) {
      CAPTURE(i, count);
      CHECK(at.own.low <= at.own.likely);
      CHECK(at.own.likely <= at.own.high);
      CHECK(at.own.likely <= (1.0 + rounding) * at.needed);
      CHECK((at.own.likely + at.to_buy).value() == Approx(at.needed.value()).epsilon(rounding));
      CHECK(at.covers.value() == Approx(spread.area.value() * (at.own.likely / at.needed).value()).epsilon(rounding));
      used += at.own.likely.value();
    }
    CHECK(used <= made * (1.0 + rounding) + 1e-12);
  }
}

TEST_CASE("a class has as much whoever comes first, and twice as much twice over", "[roster][property]") {
  Draws draws(20261227);
  std::string rows;
  for (int i = 0; i < 25; ++i) rows += draws.row();
  std::vector<HouseholdShare> shares = shares_of(rows);
  const ClassTotals totals = totals_of(shares, Yard(), today);
  std::vector<HouseholdShare> twice = shares;
  twice.insert(twice.end(), shares.begin(), shares.end());
  std::shuffle(twice.begin(), twice.end(), draws.random());
  const ClassTotals doubled = totals_of(twice, Yard(), today);
  CHECK(doubled.households == 2 * totals.households);
  CHECK(doubled.lawns == 2 * totals.lawns);
  CHECK(doubled.lawn.value() == Approx(2.0 * totals.lawn.value()).epsilon(rounding));
  REQUIRE(doubled.things.size() == totals.things.size());
  double brought = 0.0, in_all = 0.0;
  for (std::size_t i = 0; i < totals.things.size(); ++i) {
    CHECK(doubled.things[i].feedstock == totals.things[i].feedstock);
    CHECK(doubled.things[i].households == 2 * totals.things[i].households);
    CHECK(doubled.things[i].mass.value() == Approx(2.0 * totals.things[i].mass.value()).epsilon(rounding));
    if (i > 0) CHECK(totals.things[i].volume <= totals.things[i - 1].volume);
    in_all += totals.things[i].mass.value();
  }
  for (const HouseholdShare& share : shares) {
    for (const Brought& thing : share.brought) brought += thing.mass.value();
  }
  CHECK(in_all == Approx(brought).epsilon(rounding));
  CHECK(in_all > 0.0);
}

TEST_CASE("loads that are written into a yard file are read back from it", "[load][property]") {
  Draws draws(20261228);
  const std::vector<std::string> things{"leaves", "coffee grounds", "kitchen scraps", "straw", "horse manure"};
  const std::vector<std::string> measures{"bucket", "gal", "lb", "leaf-bag", "yd3"};
  std::string file = "# kept as it is\n" + supply("leaves-fall", "10 leaf-bag");
  std::vector<Load> written;
  for (int i = 0; i < 30; ++i) {
    std::vector<std::string> parts;
    const int count = draws.count(1, 3);
    for (int k = 0; k < count; ++k) {
      const auto& thing = things[static_cast<std::size_t>(draws.count(0, 4))];
      parts.push_back(std::to_string(draws.count(1, 9)) + " " + measures[static_cast<std::size_t>(draws.count(0, 2))] + " " + thing + "; ");
    }
    if (draws.count(0, 2) == 0) parts.push_back(std::to_string(draws.count(1, 5)) + " gal water");
    const Date day(std::chrono::sys_days(today) + std::chrono::days(i / 2));
    const std::vector<SaidLoad> said = said_loads(joined(parts), day, built_in_materials());
    const std::string longer = with_loads(file, said);
    CHECK(longer.compare(0, file.size(), file) == 0);
    CHECK(with_loads(file, {}) == file);
    file = longer;
    for (const SaidLoad& one : said) written.push_back(one.load);
  }
  const std::vector<Load> read = yard(file).loads;
  REQUIRE(read.size() == written.size());
  for (std::size_t i = 0; i < read.size(); ++i) CHECK(are_alike(read[i], written[i]));
}
