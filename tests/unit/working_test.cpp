#include "heapwright/lawn/working.hpp"

#include <catch2/catch.hpp>

#include <limits>

#include "heapwright/error.hpp"
#include "heapwright/mix/working.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/working/step.hpp"
#include "yards.hpp"

using namespace heapwright;
using Catch::Matchers::WithinRel;

namespace {

Term term(const std::string& symbol, double value) { return given(symbol, symbol, value, "", "your own figure"); }

}  // namespace

TEST_CASE("a formula is written in symbols and in numbers from the same pieces") {
  const Term a = term("a", 10.0);
  const Term b = term("b", 4.0);
  const Term c = term("c", 0.5);
  const auto [formula, symbols, numbers, value] = GENERATE_COPY(table<Expression, std::string, std::string, double>({
      {a + b * c, "a + b × c", "10 + 4 × 0.5", 12.0},
      {(a + b) * c, "(a + b) × c", "(10 + 4) × 0.5", 7.0},
      {a - (b - c), "a − (b − c)", "10 − (4 − 0.5)", 6.5},
      {a - b - c, "a − b − c", "10 − 4 − 0.5", 5.5},
      {a + (b - c), "a + b − c", "10 + 4 − 0.5", 13.5},
      {a - (b + c), "a − (b + c)", "10 − (4 + 0.5)", 5.5},
      {a / (b * c), "a / (b × c)", "10 / (4 × 0.5)", 5.0},
      {a / b / c, "a / b / c", "10 / 4 / 0.5", 5.0},
      {a / (b / c), "a / (b / c)", "10 / (4 / 0.5)", 1.25},
      {a * (b / c), "a × b / c", "10 × 4 / 0.5", 80.0},
      {a * (1.0 - c), "a × (1 − c)", "10 × (1 − 0.5)", 5.0},
      {root(b) * a, "√(b) × a", "√(4) × 10", 20.0},
      {cube_root(a - 2.0) * b, "∛(a − 2) × b", "∛(10 − 2) × 4", 8.0},
      {a * term("t", -3.0), "a × t", "10 × (-3)", -30.0},
      {sum({a, b, c}), "a + b + c", "10 + 4 + 0.5", 14.5},
      {sum({}), "0", "0", 0.0},
  }));
  CHECK(formula.symbols() == symbols);
  CHECK(formula.numbers() == numbers);
  CHECK_THAT(formula.value(), WithinRel(value, 1e-15));
}

TEST_CASE("a formula names each term once, as they come") {
  const Term a = term("a", 2.0);
  const Expression formula = a * term("b", 3.0) + a * a;
  REQUIRE(formula.terms().size() == 2);
  CHECK(formula.terms()[0].symbol == "a");
  CHECK(formula.terms()[1].symbol == "b");
}

TEST_CASE("later steps go on from the printed figures of earlier ones") {
  Working working;
  const Term third = working.step({"t", "a third", "one over three", "", by_definition}, Expression(1.0) / 3.0);
  CHECK(third.number == "0.33333");
  CHECK(third.value == 0.33333);
  const Term again = working.step({"u", "nearly one", "three thirds", "", by_definition}, third * 3.0);
  CHECK(again.number == "0.99999");
  CHECK(again.source == "step 2");
  CHECK(working.steps()[1].terms.front().source == "step 1");
}

TEST_CASE("a figure is the number that is printed of it") {
  CHECK(given("p", "pi", 3.14159265, "", "").value == 3.14159);
  CHECK(given("n", "none", 0.0, "", "").number == "0");
  CHECK(given("b", "big", 123456789.0, "", "").value == 123457000.0);
  CHECK_THROWS_AS(given("x", "x", std::numeric_limits<double>::quiet_NaN(), "", ""), DomainError);
  Working working;
  CHECK_THROWS_AS(working.step({"x", "x", "x", "", by_definition}, term("a", 1.0) / term("z", 0.0)), DomainError);
  CHECK(working.steps().empty());
}

TEST_CASE("the root of what lies below zero is zero") { CHECK(root(term("a", -4.0)).value() == 0.0); }

TEST_CASE("the two closed forms say where no amount will do") {
  const Materials materials = built_in_materials();
  const Supply leaves = supply_of(materials, "leaves-fall");
  const Supply straw = supply_of(materials, "straw-wheat");
  Batch batch;
  batch.portions.push_back(portion_on_hand(leaves, Amount(10.0 * unit::kg)));
  batch.portions.push_back(portion_on_hand(straw, Amount(10.0 * unit::kg)));
  const Working working = working_to_aims(batch, {}, materials, si_working_units());
  const std::vector<Step>& steps = working.steps();
  REQUIRE(steps.size() > 2);
  for (std::size_t i = steps.size() - 2; i < steps.size(); ++i) {
    CHECK_FALSE(steps[i].result);
    CHECK(steps[i].formula.find("the aim must lie between") != std::string::npos);
  }
}

TEST_CASE("a quarter inch on a thousand square feet, step by step") {
  // Geometry: 1000 ft2 × 1/4 in is 0.772 yd3.
  const Lawn lawn{{Zone{"lawn", read_area("1000 ft2"), std::nullopt}}};
  const Working working = working_of_topdressing(topdress(lawn, {}, built_in_materials()).result, us_working_units());
  const Step& volume = working.steps().front();
  CHECK(volume.numbers == "1000 × 0.25 / 324");
  CHECK(volume.result->number == "0.7716");
}

TEST_CASE("zones, and what is cut out of them, are numbered as they come") {
  // 60 × 40 ft less a bed of 10 × 20 ft; a strip of 30 × 10 ft whole; a bank whose area is told.
  const Yard one = yards::yard(
      "[[lawn.zone]]\nname = \"front\"\nshape = \"rectangle\"\nlength = \"60 ft\"\nwidth = \"40 ft\"\n"
      "[[lawn.zone]]\nname = \"strip\"\nshape = \"rectangle\"\nlength = \"30 ft\"\nwidth = \"10 ft\"\n"
      "[[lawn.zone]]\nname = \"bank\"\nshape = \"area\"\narea = \"150 ft2\"\n"
      "[[lawn.without]]\nfrom = \"front\"\nname = \"bed\"\nshape = \"rectangle\"\nlength = \"10 ft\"\nwidth = \"20 ft\"\n");
  const Topdressing spread = topdress(*one.lawn, one.topdressing, one.tables.materials).result;
  const Working working = working_of_topdressing(spread, us_working_units());
  const std::vector<std::pair<std::string, double>> areas{{"S1", 2400.0}, {"S2", 200.0}, {"A1", 2200.0}, {"S3", 300.0}};
  REQUIRE(working.steps().size() > areas.size());
  for (std::size_t i = 0; i < areas.size(); ++i) {
    CHECK(working.steps()[i].result->symbol == areas[i].first);
    CHECK(working.steps()[i].result->value == areas[i].second);
  }
  const Step& lawn = working.steps()[areas.size()];
  CHECK(lawn.symbols == "A1 + S3 + S4");
  CHECK(lawn.result->value == 2650.0);
}
