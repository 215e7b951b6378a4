// Amounts as people write them: containers by any of their names, volumes, weights, and what is refused.

#include "heapwright/materials/amount.hpp"

#include <catch2/catch.hpp>

#include "heapwright/error.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Contains;
using Catch::Matchers::WithinRel;

namespace {

const std::vector<Container>& containers() {
  static const std::vector<Container> all = *built_in_materials().containers;
  return all;
}

constexpr double gallon = 231.0 * 0.0254 * 0.0254 * 0.0254;  // US, of 231 cubic inches
constexpr double pound = 0.45359237;
constexpr double exact = 1e-12;

Container container(const std::string& name, double volume) {
  Container own;
  own.id = own.name = name;
  own.volume = volume * unit::m3;
  return own;
}

}  // namespace

TEST_CASE("containers are counted by id, name and the names people use", "[amount]") {
  const auto [text, id, count] = GENERATE(table<std::string, std::string, double>({
      {"24 leaf-bag", "leaf-bag", 24.0},
      {"24 leaf bags", "leaf-bag", 24.0},
      {"24 Leaf_Bags", "leaf-bag", 24.0},
      {"24 bags", "leaf-bag", 24.0},
      {"6 bags of leaves", "leaf-bag", 6.0},
      {"1 bucket", "bucket", 1.0},
      {"a bucket", "bucket", 1.0},
      {"half a bucket", "bucket", 0.5},
      {"2 1/2 buckets", "bucket", 2.5},
      {"2 five-gallon buckets", "bucket", 2.0},
      {"2 5 gallon buckets", "bucket", 2.0},
      {"3 wheelbarrow loads", "wheelbarrow", 3.0},
      {"0 buckets", "bucket", 0.0},
      {"1.5e1 bucket", "bucket", 15.0},
  }));
  CAPTURE(text);
  const Amount amount = read_amount(text, containers());
  REQUIRE(std::holds_alternative<ContainerCount>(amount));
  const auto& counted = std::get<ContainerCount>(amount);
  CHECK(counted.container == id);
  CHECK(counted.count == count);
  CHECK(counted.each == find_container(containers(), id)->volume);
  CHECK_THAT(volume_of(amount)->value(), WithinRel(count * counted.each.value(), exact));
  CHECK(is_zero(amount) == (count == 0.0));
}

TEST_CASE("volumes and weights, sums of them too", "[amount]") {
  SECTION("volumes") {
    const auto [text, m3] = GENERATE(table<std::string, double>(
        {{"120 L", 0.120}, {"5 gal", 5.0 * gallon}, {"1 yd3", 0.9144 * 0.9144 * 0.9144}, {"1 gal 2 gal", 3.0 * gallon}, {"0 L", 0.0}}));
    const Amount amount = read_amount(text, containers());
    REQUIRE(std::holds_alternative<Volume>(amount));
    CHECK_THAT(std::get<Volume>(amount).value(), WithinRel(m3, exact));
    CHECK(volume_of(amount) == std::get<Volume>(amount));
    CHECK(is_zero(amount) == (m3 == 0.0));
  }
  SECTION("weights") {
    const auto [text, kg] = GENERATE(table<std::string, double>({{"40 lb", 40.0 * pound},
                                                                 {"3 lb 4 oz", 3.25 * pound},
                                                                 {"3 lb, 4 oz", 3.25 * pound},
                                                                 {"1 short_ton", 2000.0 * pound},
                                                                 {"250 g", 0.250},
                                                                 {"1,000 lb", 1000.0 * pound},
                                                                 {"0 lb", 0.0}}));
    CAPTURE(text);
    const Amount amount = read_amount(text, containers());
    REQUIRE(std::holds_alternative<Mass>(amount));
    CHECK_THAT(std::get<Mass>(amount).value(), WithinRel(kg, exact));
    CHECK_FALSE(volume_of(amount));
    CHECK(is_zero(amount) == (kg == 0.0));
  }
}

TEST_CASE("the weight of an amount", "[amount]") {
  const BulkDensity density = bulk_density(200.0);
  CHECK_THAT(mass_of(read_amount("50 L", containers()), density)->value(), WithinRel(10.0, exact));
  CHECK_THAT(mass_of(read_amount("2 bucket", containers()), density)->value(), WithinRel(2000.0 * gallon, exact));
  CHECK(mass_of(read_amount("10 kg", containers()), density)->value() == 10.0);
  SECTION("without a density only a weight has one") {
    CHECK(mass_of(read_amount("10 kg", containers()), std::nullopt)->value() == 10.0);
    CHECK_FALSE(mass_of(read_amount("50 L", containers()), std::nullopt));
    CHECK_FALSE(mass_of(read_amount("2 bucket", containers()), std::nullopt));
  }
}

TEST_CASE("a person's own container stands before the table's", "[amount]") {
  const Yard yard =
      read_yard_text("[[container]]\nname = \"bucket\"\nvolume = \"10 L\"\n[[container]]\nname = \"oddment of joy\"\nvolume = \"80 L\"\n",
                     "yard.toml", built_in_tables());
  const std::vector<Container>& own = *yard.tables.materials.containers;
  CHECK_THAT(volume_of(read_amount("3 buckets", own))->value(), WithinRel(0.030, exact));
  CHECK_THAT(volume_of(read_amount("3 buckets of scraps", own))->value(), WithinRel(0.030, exact));
  CHECK_THAT(volume_of(read_amount("2 oddment of joy", own))->value(), WithinRel(0.160, exact));
  CHECK_THAT(volume_of(read_amount("1 leaf-bag", own))->value(), WithinRel(30.0 * gallon, exact));
  CHECK(find_container(own, "oddment") == nullptr);

  SECTION("even where it is called like a unit") {
    CHECK_THAT(volume_of(read_amount("2 L", {container("L", 1.0)}))->value(), WithinRel(2.0, exact));
  }
}

TEST_CASE("what is no amount", "[amount]") {
  const auto [text, why] = GENERATE(table<std::string, std::string>({
      {"24", "\"24\" has no unit"},
      {"leaf-bag", "does not begin with a number"},
      {"", "is empty"},
      {"-6 leaf-bag", "is negative"},
      {"-6 lb", "is negative"},
      {"6 leaf-bgas", "unknown unit"},
      {"6 ft", "is a length"},
      {"6 ft2", "is an area"},
      {"2 ton", "ambiguous"},
      {"2 imperial gallons", "imperial"},
      {"nan bucket", "does not begin with a number"},
      {"inf L", "does not begin with a number"},
      {"1e300 bucket", "beyond what this tool works with"},
      {"1/0 bucket", "zero"},
      {"3 lb 1 yd3", "is a volume, not a weight"},
  }));
  CAPTURE(text);
  CHECK_THROWS_WITH(read_amount(text, containers()), Contains(why));
  CHECK_THROWS_AS(read_amount(text, containers()), TextError);
}

TEST_CASE("a misspelt container is guessed at", "[amount]") {
  try {
    read_amount("6 leaf-bgas", containers());
    FAIL("read");
  } catch (const TextError& error) {
    CHECK_THAT(error.hint(), Contains("\"leaf-bag\"?"));
  }
}
