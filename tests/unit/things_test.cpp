#include "heapwright/guide/things.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <tuple>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/materials/materials.hpp"

namespace heapwright {

TEST_CASE("bags whose size is said are what they hold in all", "[typed]") {
  const auto [said, all] = GENERATE(table<std::string, std::string>({
      {"20 bags of 2 ft3", "40 ft3"},
      {"20 bags, 1 cubic foot each", "20 cubic foot"},
      {"20 40 lb bags", "800 lb"},
      {"20 x 40 lb bags", "800 lb"},
      {"25 lb bag", "25 lb"},
      {"a 25 lb bag", "25 lb"},
      {"20 bags", "20 bags"},
      {"20 bags of leaves", "20 bags of leaves"},
      {"6 30 gallon bags", "6 30 gallon bags"},
      {"2 yd3", "2 yd3"},
      {"", ""},
  }));
  CAPTURE(said);
  CHECK(sized_bags(said) == all);
}

TEST_CASE("of several things in one text each is told by itself", "[typed]") {
  const Materials materials = built_in_materials();
  const auto [said, each] = GENERATE(table<std::string, std::vector<std::string>>({
      {"6 bags of leaves and 4 buckets of grass", {"6 bags of leaves", "4 buckets of grass"}},
      {"leaves 6 bags, grass 4 buckets", {"leaves 6 bags", "grass 4 buckets"}},
      {"6 bags leaves + 2 bags straw", {"6 bags leaves", "2 bags straw"}},
      {"leaves and grass", {"leaves", "grass"}},
  }));
  CAPTURE(said);
  std::vector<std::string> told;
  try {
    read_said_supply(said, materials);
  } catch (const SeveralThings& several) {
    told = several.each();
  }
  CHECK(told == each);
}

TEST_CASE("a container of nothing is asked about as such, and no other word is", "[typed]") {
  const Materials materials = built_in_materials();
  const auto refusal = [&](const std::string& said) -> std::string {
    try {
      read_said_supply(said, materials);
    } catch (const TextError& error) {
      return error.what();
    }
    return "";
  };
  const auto asks = Catch::Matchers::Contains("of what, and how many?");
  CHECK_THAT(refusal("some bags"), asks);
  CHECK_THAT(refusal("a few buckets"), asks);
  const std::string unknown = refusal("flurbish");
  CHECK_FALSE(unknown.empty());
  CHECK_THAT(unknown, !asks);
  CHECK(refusal("leaves").empty());
}

TEST_CASE("two numbers are a range where the second is larger, and no more than ten times the first", "[typed]") {
  REQUIRE(two_numbers("1 to 10 buckets"));
  CHECK(two_numbers("1 to 10 buckets")->high == "10");
  CHECK(two_numbers("1 to 10 buckets")->unit == "buckets");
  CHECK(two_numbers("between 4 and 5")->unit.empty());
  CHECK_FALSE(two_numbers("1 to 10.5 buckets"));
  CHECK_FALSE(two_numbers("5 to 5 buckets"));
  CHECK_FALSE(two_numbers("5 to 4 buckets"));
  CHECK_FALSE(two_numbers("between 4 to"));
}

}  // namespace heapwright
