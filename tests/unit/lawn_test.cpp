// Shapes, zones less what is cut out of them, and depths.

#include "heapwright/lawn/lawn.hpp"

#include <catch2/catch.hpp>

#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/lawn/shapes.hpp"
#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::Matchers::WithinRel;

namespace {

Length feet(double value) { return value * 0.3048 * unit::m; }
double square_feet(Area area) { return area.value() / (0.3048 * 0.3048); }

Lawn read(const std::string& text) {
  Problems problems;
  Document document = Document::from_text(text, "lawn.toml", problems);
  Table root = document.root();
  Lawn lawn = read_lawn(root);
  problems.throw_if_any();
  return lawn;
}

}  // namespace

TEST_CASE("areas of shapes") {
  CHECK_THAT(square_feet(rectangle_area(feet(60), feet(30))), WithinRel(1800.0, 1e-12));
  CHECK_THAT(square_feet(circle_area(feet(12))), WithinRel(36.0 * std::numbers::pi, 1e-12));
  CHECK_THAT(square_feet(ellipse_area(feet(12), feet(12))), WithinRel(square_feet(circle_area(feet(12))), 1e-12));
  CHECK_THAT(square_feet(triangle_area(feet(40), feet(30))), WithinRel(600.0, 1e-12));
  CHECK_THAT(square_feet(trapezoid_area(feet(50), feet(70), feet(40))), WithinRel(2400.0, 1e-12));

  SECTION("three sides: the 3-4-5 triangle, in any order") {
    CHECK_THAT(square_feet(triangle_area(feet(30), feet(50), feet(40))), WithinRel(600.0, 1e-12));
    CHECK_THAT(square_feet(triangle_area(feet(50), feet(40), feet(30))), WithinRel(600.0, 1e-12));
  }
  SECTION("a needle: Heron's formula as usually written loses its digits here") {
    // isosceles, base 1e-6 m, legs 100 m: base × height / 2, height = sqrt(100² − 0.25e-12)
    CHECK_THAT(triangle_area(100.0 * unit::m, 100.0 * unit::m, 1e-6 * unit::m).value(), WithinRel(0.5e-6 * 100.0, 1e-9));
  }
  SECTION("no triangle") { CHECK_THROWS_AS(triangle_area(feet(1), feet(2), feet(9)), DomainError); }
  SECTION("a rectangle is the trapezoid of equal sides, and two triangles") {
    const double width = GENERATE(take(20, random(0.1, 300.0)));
    const double length = GENERATE(take(3, random(0.1, 300.0)));
    CHECK_THAT(trapezoid_area(feet(width), feet(width), feet(length)).value(),
               WithinRel(rectangle_area(feet(width), feet(length)).value(), 1e-12));
    CHECK_THAT(2.0 * triangle_area(feet(width), feet(length)).value(), WithinRel(rectangle_area(feet(width), feet(length)).value(), 1e-12));
  }
}

TEST_CASE("zones less what is cut out") {
  const Lawn lawn = read(R"(
[[lawn.zone]]
name = "front"
shape = "rectangle"
length = "60 ft"
width = "30 ft"
[[lawn.zone]]
name = "side"
shape = "triangle"
sides = ["30 ft", "40 ft", "50 ft"]
[[lawn.without]]
from = "front"
shape = "circle"
diameter = "12 ft"
)");
  CHECK_THAT(square_feet(lawn.zones[0].area), WithinRel(1800.0 - 36.0 * std::numbers::pi, 1e-12));
  CHECK_THAT(square_feet(area_of(lawn)), WithinRel(2400.0 - 36.0 * std::numbers::pi, 1e-12));
}

TEST_CASE("zones may have depths of their own") {
  Lawn lawn = read(
      "[[lawn.zone]]\nname = \"a\"\nshape = \"area\"\narea = \"1000 ft2\"\n[[lawn.zone]]\nname = \"b\"\nshape = \"area\"\narea = \"1000 "
      "ft2\"\ndepth = \"1/2 in\"\n");
  const Topdressing result = topdress(lawn, {}, built_in_materials()).result;
  CHECK_THAT(result.volume.value(), WithinRel((3.0 * 0.25 * 0.0254) * 1000.0 * 0.3048 * 0.3048, 1e-12));
  CHECK_THAT(result.depth.value(), WithinRel(0.375 * 0.0254, 1e-12));
  CHECK(result.deep);
}

TEST_CASE("half an inch is the most on a living lawn") {
  CHECK_NOTHROW(check_depth(read_length("1/2 in"), Surface::lawn));
  CHECK_NOTHROW(check_depth(read_length("12.7 mm"), Surface::lawn));
  CHECK_THROWS_AS(check_depth(read_length("9/16 in"), Surface::lawn), DomainError);
  CHECK_NOTHROW(check_depth(read_length("2 in"), Surface::bare));
}

TEST_CASE("what a volume covers takes that volume") {
  TopdressingPlan plan;
  plan.allowance = ShareOfVolume::of(GENERATE(0.0, 0.05, 0.3));
  const Volume volume = read_volume("10 yd3");
  const Lawn covered{{Zone{"lawn", area_covered(volume, plan), std::nullopt}}};
  CHECK_THAT(topdress(covered, plan, built_in_materials()).result.volume_with_allowance.value(), WithinRel(volume.value(), 1e-12));
}
