// Areas by widths, radii, corners and positions on the globe.

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "heapwright/input/problems.hpp"
#include "heapwright/lawn/geo_file.hpp"
#include "heapwright/lawn/lawn.hpp"
#include "heapwright/lawn/outline.hpp"
#include "heapwright/lawn/shapes.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Matchers::Contains;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

constexpr double exact = 1e-12;

std::vector<Length> meters(const std::vector<double>& values) {
  std::vector<Length> lengths;
  for (const double value : values) lengths.push_back(value * unit::m);
  return lengths;
}

Outline plan(const std::vector<std::pair<double, double>>& points) {
  Outline outline;
  for (const auto& [east, north] : points) outline.push_back({east * unit::m, north * unit::m});
  return outline;
}

std::string why_refused(const Outline& outline) {
  try {
    check_outline(outline);
  } catch (const DomainError& error) {
    return error.what();
  }
  return "taken";
}

Lawn lawn_of(const std::string& zone) { return *read_yard_text("[[lawn.zone]]\n" + zone, "yard.toml").lawn; }

}  // namespace

TEST_CASE("widths at equal spacings", "[survey]") {
  SECTION("trapezoids are exact between straight edges, and Simpson's rule of a cubic") {
    CHECK_THAT(offsets_area(2.0 * unit::m, meters({3, 3, 3})).value(), WithinRel(12.0, exact));
    CHECK_THAT(offsets_area(5.0 * unit::m, meters({0, 4})).value(), WithinRel(10.0, exact));
    CHECK_THAT(offsets_area_by_simpson(2.0 * unit::m, meters({3, 3, 3})).value(), WithinRel(12.0, exact));
    // x³ from 0 to 4, at 0, 1, … 4: the integral is 64
    CHECK_THAT(offsets_area_by_simpson(1.0 * unit::m, meters({0, 1, 8, 27, 64})).value(), WithinRel(64.0, exact));
    CHECK_THAT(offsets_area(1.0 * unit::m, meters({0, 1, 8, 27, 64})).value(), WithinRel(68.0, exact));
    // sin x from 0 to π: the integral is 2, and 2.004560 by Simpson's rule over four spacings
    std::vector<double> sines;
    for (int i = 0; i <= 4; ++i) sines.push_back(std::sin(i * std::numbers::pi / 4.0));
    CHECK_THAT(offsets_area_by_simpson(std::numbers::pi / 4.0 * unit::m, meters(sines)).value(), WithinAbs(2.004560, 5e-7));
  }
  SECTION("a half circle of 10 m: both come near, Simpson's rule nearer") {
    std::vector<double> widths;
    for (int i = 0; i <= 20; ++i) widths.push_back(std::sqrt(std::max(0.0, 100.0 - (i - 10.0) * (i - 10.0))));
    const double half = 50.0 * std::numbers::pi;
    CHECK_THAT(offsets_area(1.0 * unit::m, meters(widths)).value(), WithinRel(half, 0.02));
    CHECK_THAT(offsets_area_by_simpson(1.0 * unit::m, meters(widths)).value(), WithinRel(half, 0.008));
  }
  SECTION("what cannot be") {
    CHECK_THROWS_AS(offsets_area(1.0 * unit::m, meters({3})), DomainError);
    CHECK_THROWS_AS(offsets_area_by_simpson(1.0 * unit::m, meters({3, 4})), DomainError);
  }
}

TEST_CASE("distances from a point", "[survey]") {
  const int n = GENERATE(3, 4, 6, 8, 12, 36);
  const double regular = 0.5 * n * 25.0 * std::sin(2.0 * std::numbers::pi / n);
  CHECK_THAT(radii_area(std::vector<Length>(static_cast<std::size_t>(n), 5.0 * unit::m)).value(), WithinRel(regular, exact));
  CHECK_THAT(radii_area(meters({3, 4, 3, 4})).value(), WithinRel(24.0, exact));  // a rhombus of diagonals 6 and 8
  CHECK_THROWS_AS(radii_area(meters({3, 4})), DomainError);
}

TEST_CASE("corners of a plan", "[survey]") {
  CHECK_THAT(outline_area(plan({{0, 0}, {60, 0}, {60, 30}, {0, 30}})).value(), WithinRel(1800.0, exact));
  CHECK_THAT(outline_area(plan({{0, 30}, {60, 30}, {60, 0}, {0, 0}})).value(), WithinRel(1800.0, exact));  // the other way around
  // An L by hand: 10 by 10 less 6 by 6. A triangle far from the origin: 0.5 × 4 × 3.
  CHECK_THAT(outline_area(plan({{0, 0}, {10, 0}, {10, 4}, {4, 4}, {4, 10}, {0, 10}})).value(), WithinRel(64.0, exact));
  CHECK_THAT(outline_area(plan({{5e6, 5e6}, {5e6 + 4, 5e6}, {5e6, 5e6 + 3}})).value(), WithinRel(6.0, exact));
  // The shoelace by hand: (3·11 + 5·8 + 12·5 + 9·6 + 5·4 − 4·5 − 11·12 − 8·9 − 5·5 − 6·3)/2 = −30 → 30
  CHECK_THAT(outline_area(plan({{3, 4}, {5, 11}, {12, 8}, {9, 5}, {5, 6}})).value(), WithinRel(30.0, exact));
  CHECK(without_repeats(plan({{0, 0}, {0, 0}, {1, 0}, {0, 1}, {0, 0}})).size() == 3);
  CHECK(lies_in(plan({{1, 1}, {2, 1}, {2, 2}}), plan({{0, 0}, {9, 0}, {9, 9}, {0, 9}})));
  CHECK_FALSE(lies_in(plan({{1, 1}, {20, 1}, {2, 2}}), plan({{0, 0}, {9, 0}, {9, 9}, {0, 9}})));
  SECTION("what goes around nothing is refused by the numbers of its points") {
    CHECK_THAT(why_refused(plan({{0, 0}, {10, 10}, {10, 0}, {0, 10}})), Contains("from point 1 to 2, and from point 3 to 4"));
    CHECK_THAT(why_refused(plan({{0, 0}, {10, 0}, {10, 10}, {5, -1}, {0, 10}})), Contains("from point 1 to 2, and from point 3 to 4"));
    CHECK_THAT(why_refused(plan({{0, 0}, {10, 0}, {5, 0}, {5, 5}})), Contains("at point 2"));
    CHECK_THAT(why_refused(plan({{0, 0}, {10, 0}})), Contains("fewer than three"));
    CHECK_THAT(why_refused(plan({{0, 0}, {10, 0}, {NAN, 3}})), Contains("nowhere"));
    CHECK(why_refused(plan({{0, 0}, {10, 0}, {10, 10}})) == "taken");
  }
}

TEST_CASE("a small rectangle of the ellipsoid by its radii of curvature", "[survey]") {
  // WGS 84: a = 6378137 m, 1/f = 298.257223563 (NIMA TR8350.2). A geodesic leaves the parallel by 1e-9 of so small an area.
  constexpr double a = 6378137.0;
  constexpr double f = 1.0 / 298.257223563;
  constexpr double e2 = f * (2.0 - f);
  constexpr double degree = std::numbers::pi / 180.0;
  const double latitude = GENERATE(-45.0, 0.0, 30.0, 44.0, 65.0);
  const double half = 0.0002;
  const double sine = std::sin(latitude * degree);
  const double w = std::sqrt(1.0 - e2 * sine * sine);
  const double meridian = a * (1.0 - e2) / (w * w * w);
  const double across = a / w;
  const double expected = meridian * 2.0 * half * degree * across * std::cos(latitude * degree) * 2.0 * half * degree;
  const Area area = geodesic_area(
      {{latitude - half, -93.0 - half}, {latitude - half, -93.0 + half}, {latitude + half, -93.0 + half}, {latitude + half, -93.0 - half}});
  CHECK_THAT(area.value(), WithinRel(expected, 1e-6));
}

TEST_CASE("a latitude and a longitude the wrong way around", "[survey]") {
  CHECK_NOTHROW(check_geo_point({44.9, -93.2}));
  CHECK_THROWS_AS(check_geo_point({-93.2, 44.9}), DomainError);
  CHECK_THROWS_AS(check_geo_point({44.9, 200.0}), DomainError);
  CHECK_THROWS_AS(check_geo_point({NAN, 3.0}), DomainError);
}

TEST_CASE("zones by widths, radii, corners and paces", "[survey]") {
  const auto area = [](const std::string& zone) { return lawn_of(zone).zones.front().area; };
  const double ft2 = (1.0 * unit::square_foot).value();
  CHECK_THAT(area("shape = \"offsets\"\nspacing = \"10 ft\"\noffsets = [\"0\", \"12 ft\", \"15 ft\", \"0\"]").value() / ft2,
             WithinRel(270.0, exact));
  CHECK_THAT(area("shape = \"offsets\"\nspacing = \"10 ft\"\noffsets = [\"12 ft\", \"15 ft\"]\ntapers = true").value() / ft2,
             WithinRel(270.0, exact));
  CHECK_THAT(area("shape = \"offsets\"\nspacing = \"10 ft\"\noffsets = [\"12 ft\", \"15 ft\"]\ntapers = false").value() / ft2,
             WithinRel(135.0, exact));
  CHECK_THAT(area("shape = \"radii\"\nradii = [\"3 ft\", \"4 ft\", \"3 ft\", \"4 ft\"]").value() / ft2, WithinRel(24.0, exact));
  CHECK_THAT(
      area("shape = \"polygon\"\npoints = [[\"0 ft\", \"0 ft\"], [\"60 ft\", \"0 ft\"], [\"60 ft\", \"10 yd\"], [\"0 ft\", \"30 ft\"]]")
              .value() /
          ft2,
      WithinRel(1800.0, exact));
  const Lawn paced = *read_yard_text(
                          "[lawn]\npace = \"2 1/2 ft\"\n[[lawn.zone]]\nshape = \"rectangle\"\nlength = \"24 paces\"\nwidth = \"12 "
                          "paces\"\nmeasured_by = \"paces\"\n",
                          "yard.toml")
                          .lawn;
  CHECK_THAT(paced.zones.front().area.value() / ft2, WithinRel(1800.0, exact));
  CHECK_THAT(spread_of(paced)->value() / ft2, WithinRel(180.0, exact));
  CHECK_THROWS_AS(lawn_of("shape = \"rectangle\"\nlength = \"24 paces\"\nwidth = \"12 paces\""), InputError);
  CHECK_THROWS_AS(lawn_of("shape = \"offsets\"\nspacing = \"10 ft\"\noffsets = [\"12 ft\", \"15 ft\"]"),
                  InputError);  // do its ends run out?
  const Lawn on_slope = lawn_of("shape = \"area\"\narea = \"1000 ft2\"\nmeasured_by = \"tracing\"\nslope = \"25 %\"");
  CHECK_THAT(area_of(on_slope).value() / ft2, WithinRel(1000.0 * std::sqrt(1.0625), exact));
  CHECK_THROWS_AS(lawn_of("shape = \"area\"\narea = \"1000 ft2\"\nmeasured_by = \"wheel\"\nslope = \"25 %\""), InputError);
  CHECK_FALSE(spread_of(lawn_of("shape = \"area\"\narea = \"1000 ft2\"")));
}

TEST_CASE("a phone's fix is worth little on a small lawn", "[survey]") {
  // 4.9 m within which a fix lies 19 times in 20 is a deviation of 2.0 m in each direction: of a square of side s the area is off by
  // √2 × 2.0 m × s, one time in three, worked by moving each corner by itself; 1.96 times that, one time in 20.
  const Area area = 1000.0 * unit::square_foot;
  const double side = std::sqrt(area.value());
  CHECK_THAT(spread_of_area(area, MeasuredBy::gps).value(),
             WithinRel(1.96 * std::sqrt(2.0) * 4.9 / std::sqrt(-2.0 * std::log(0.05)) * side, exact));
  CHECK(spread_of_area(area, MeasuredBy::gps) > 0.5 * area);
  CHECK(spread_of_area(100.0 * area, MeasuredBy::gps) < 0.06 * 100.0 * area);
}

TEST_CASE("depths by what is dressed, and in a year", "[survey]") {
  const auto dressed = [](const std::string& yard) {
    const Yard read = read_yard_text("[[lawn.zone]]\nname = \"a\"\nshape = \"area\"\narea = \"1000 ft2\"\n" + yard, "yard.toml");
    return topdress(*read.lawn, read.topdressing, read.tables.materials).result;
  };
  CHECK_THAT(dressed("").depth.value(), WithinRel(0.25 * 0.0254, exact));
  const Topdressing bare = dressed("surface = \"new\"\n");
  CHECK_THAT(bare.depth.value(), WithinRel(0.0254, exact));
  // 3.1 yd3 on 1000 ft2 at an inch (University of Maryland Extension TT-120, 2015, seen)
  CHECK_THAT(bare.volume / unit::cubic_yard, WithinAbs(3.1, 0.05));
  CHECK_FALSE(bare.deep_on_bare);
  CHECK(dressed("surface = \"new\"\ndepth = \"3 in\"\n").deep_on_bare);
  CHECK_FALSE(dressed("[topdressing]\nmonths = [\"Apr\", \"Sep\"]\n").deep_in_a_year);
  CHECK(dressed("[topdressing]\nmonths = [\"Apr\", \"Jun\", \"Sep\"]\n").deep_in_a_year);
  CHECK_THROWS_AS(dressed("depth = \"3/4 in\"\n"), DomainError);
}
