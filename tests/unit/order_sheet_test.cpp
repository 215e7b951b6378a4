#include "heapwright/lawn/order_sheet.hpp"

#include <catch2/catch.hpp>

#include <limits>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;

namespace {

const std::string lawn_of_1000 = "[[lawn.zone]]\nname = \"front\"\narea = \"1000 ft2\"\n";

Yard yard_with(const std::string& rest) { return read_yard_text(lawn_of_1000 + rest, "lawn.toml"); }

std::string problem_of(const std::string& rest) {
  try {
    yard_with(rest);
  } catch (const InputError& error) {
    return error.what();
  }
  return {};
}

OrderSheet sheet_of(const Yard& yard) {
  Topdressing topdressing = topdress(*yard.lawn, yard.topdressing, yard.tables.materials).result;
  order_for(topdressing, Date(std::chrono::year(2027), std::chrono::month(8), std::chrono::day(20)), false, yard.tables.materials);
  return order_sheet("front", yard.site.value_or(Site()), std::move(topdressing), yard.tables.materials, *yard.tables.sheet_lines);
}

}  // namespace

TEST_CASE("ten cubic yards lie 14 ft across and 5 ft high", "[order]") {
  // By hand, at 37°: r = (3 × 270 ft³/(π × 0.7536))^(1/3) = 6.994 ft, high = 0.7536 r = 5.27 ft.
  const TippedPile pile = tipped_pile(10.0 * unit::cubic_yard);
  CHECK(value_in(unit::foot, pile.across) == Approx(13.99).margin(0.01));
  CHECK(value_in(unit::foot, pile.high) == Approx(5.27).margin(0.01));
  const double cone = std::numbers::pi / 12.0 * pile.across.value() * pile.across.value() * pile.high.value();
  CHECK(cone == Approx(pile.volume.value()).epsilon(1e-12));
}

TEST_CASE("no load lies nowhere", "[order]") {
  CHECK_THROWS_AS(tipped_pile(Volume()), DomainError);
  CHECK_THROWS_AS(tipped_pile(std::numeric_limits<double>::quiet_NaN() * unit::m3), DomainError);
}

TEST_CASE("a barrow, a bucket and a tarp tell how deep compost lies", "[lawn]") {
  // By hand at 1/4 in: 6 ft³ × 48/ft = 288 ft², 16.97 ft a side; 5 gal × 231 in³ over 1/4 in = 4620 in², 67.97 in a side;
  // 16 ft² × 1/48 ft = 1/3 ft³ = 2.494 gal, 0.156 gal on each ft².
  const DepthCheck check = depth_check(0.25 * unit::inch, built_in_materials());
  CHECK(value_in(unit::foot, check.barrow_square) == Approx(16.9706).epsilon(1e-5));
  CHECK(value_in(unit::inch, check.bucket_square) == Approx(67.971).epsilon(1e-5));
  CHECK(value_in(unit::gallon, check.caught) == Approx(2.4935).epsilon(1e-4));
  CHECK_THROWS_AS(depth_check(Length(), built_in_materials()), DomainError);
  CHECK_THROWS_AS(depth_check(std::numeric_limits<double>::quiet_NaN() * unit::m, built_in_materials()), DomainError);
}

TEST_CASE("what was used is the next allowance", "[lawn]") {
  // 1000 ft² × 1/4 in = 0.7716 yd³; 0.85 yd³ were used, 10.16 % more.
  const Yard yard = yard_with("[[spread]]\ndate = 2027-04-12\nused = \"0.85 yd3\"\n");
  REQUIRE(yard.topdressing.spreads.size() == 1);
  CHECK(allowance_of(yard.topdressing).value() == Approx(0.1016).epsilon(1e-3));
  CHECK(value_in(unit::inch, yard.topdressing.spreads.front().depth) == Approx(0.2754).epsilon(1e-3));
  CHECK(allowance_of(yard_with("").topdressing).value() == 0.05);
  CHECK(allowance_of(yard_with("[topdressing]\nallowance = \"8 %\"\n[[spread]]\nused = \"0.85 yd3\"\n").topdressing).value() == 0.08);
}

TEST_CASE("several spreads count by what they took, and never below nothing", "[lawn]") {
  // 0.8 + 0.9 of 2 × 0.7716 yd³ is 10.16 % more; 0.7 is less than was meant.
  CHECK(allowance_of(yard_with("[[spread]]\nused = \"0.8 yd3\"\n[[spread]]\nused = \"0.9 yd3\"\n").topdressing).value() ==
        Approx(0.1016).epsilon(1e-3));
  CHECK(allowance_of(yard_with("[[spread]]\nused = \"0.7 yd3\"\n").topdressing).value() == 0.0);
}

TEST_CASE("a spread of another depth is held against that", "[lawn]") {
  // Half of 0.7716 yd³ was meant at 1/8 in.
  CHECK(allowance_of(yard_with("[[spread]]\ndepth = \"1/8 in\"\nused = \"0.425 yd3\"\n").topdressing).value() ==
        Approx(0.1016).epsilon(1e-3));
}

TEST_CASE("a spread that cannot be is a problem of its line", "[lawn]") {
  CHECK_THAT(problem_of("[[spread]]\ndate = 2027-04-12\n"), Catch::Contains("used"));
  CHECK_THAT(problem_of("[[spread]]\nused = \"11 yd3\"\n"), Catch::Contains("3.6 in deep, and 0.25 in was meant"));
  CHECK_THAT(problem_of("[[spread]]\nused = \"0.2 yd3\"\n"), Catch::Contains("was meant"));
  CHECK_THAT(problem_of("[[spread]]\nused = \"0 yd3\"\n"), Catch::Contains("something was spread"));
  CHECK_THAT(problem_of("[[spread]]\nzone = \"back\"\nused = \"0.8 yd3\"\n"), Catch::Contains("there is no zone \"back\""));
  CHECK_THAT(problem_of("[[spread]]\njob = \"north\"\nused = \"0.8 yd3\"\n"), Catch::Contains("there is no job \"north\""));
  CHECK_THAT(problem_of("[[spread]]\nzone = \"front\"\njob = \"north\"\nused = \"0.8 yd3\"\n"), Catch::Contains("beside a job"));
  CHECK_THROWS_AS(read_yard_text("[[spread]]\nused = \"1 yd3\"\n", "lawn.toml"), InputError);
}

TEST_CASE("what was spread this year counts in the year", "[lawn]") {
  const Yard yard =
      yard_with("[topdressing]\ndepth = \"3/8 in\"\n[[spread]]\ndate = 2027-04-12\nused = \"0.85 yd3\"\ndepth = \"1/4 in\"\n");
  const auto deep_on = [&](int year, unsigned month) {
    const Date day(std::chrono::year(year), std::chrono::month(month), std::chrono::day(12));
    return topdress(*yard.lawn, yard.topdressing, yard.tables.materials, day)->deep_in_a_year;
  };
  CHECK(deep_on(2027, 9));        // 0.28 in in April and 0.375 in now
  CHECK_FALSE(deep_on(2028, 4));  // a year later
  CHECK_FALSE(deep_on(2027, 3));  // before
}

TEST_CASE("a sheet has the room of one load, the weight of a barrow and seed for the area", "[lawn]") {
  const OrderSheet sheet = sheet_of(read_yard_text(
      "[[lawn.zone]]\nname = \"field\"\narea = \"30000 ft2\"\n[topdressing]\ndepth = \"1/4 in\"\n[[topdressing.offer]]\nname = \"bulk\"\n"
      "unit = \"1 yd3\"\nprice = 30\nload = { volume = \"10 yd3\" }\n",
      "field.toml"));
  // 30000 ft² take 23.15 yd³, 24.3 with 5 %: 25 yd³ in three loads.
  REQUIRE(sheet.tipped);
  CHECK(value_in(unit::cubic_yard, sheet.tipped->volume) == Approx(25.0 / 3.0));
  // 6 ft³ at 700 to 1400 lb/yd³.
  REQUIRE(sheet.barrow);
  CHECK(value_in(unit::pound, sheet.barrow->low) == Approx(155.6).margin(0.1));
  CHECK(value_in(unit::pound, sheet.barrow->high) == Approx(311.1).margin(0.1));
  // Tall fescue at 3 to 4 lb/1000 ft² (University of Maryland Extension 2017).
  REQUIRE_FALSE(sheet.seeds.empty());
  CHECK(value_in(unit::pound, sheet.seeds.front().low) == Approx(90.0));
  CHECK(value_in(unit::pound, sheet.seeds.front().high) == Approx(120.0));
  // Half an inch of water is 312 gallons on 1000 ft².
  CHECK(value_in(unit::gallon, sheet.water) == Approx(30.0 * 311.69).epsilon(1e-4));
}

TEST_CASE("a new lawn is sown, and no seed is named for warm-season grass", "[lawn]") {
  const Yard bare = yard_with("[topdressing]\nsurface = \"new\"\n");
  const OrderSheet sheet = sheet_of(bare);
  REQUIRE_FALSE(sheet.seeds.empty());
  CHECK(sheet.seeds.front().of->surface == Surface::bare);
  CHECK(sheet_of(yard_with("[topdressing]\ngrass = \"warm-season\"\n")).seeds.empty());
}

TEST_CASE("a site is read, and its dates in order", "[lawn]") {
  const Yard yard =
      yard_with("[site]\naddress = \"Maple corner\"\ngate_width = \"10 ft\"\ndeliver_from = 2027-09-06\ndeliver_to = 2027-09-10\n");
  REQUIRE(yard.site);
  CHECK(yard.site->address == "Maple corner");
  CHECK_THAT(problem_of("[site]\ndeliver_from = 2027-09-06\ndeliver_to = 2027-09-01\n"), Catch::Contains("is before deliver_from"));
  CHECK_THAT(problem_of("[site]\ngate_width = \"0 ft\"\n"), Catch::Contains("a gate is wider"));
  CHECK_THAT(problem_of("[site]\nadress = \"x\"\n"), Catch::Contains("adress"));
}
