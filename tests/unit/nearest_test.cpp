#include "heapwright/units/nearest.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <string>
#include <tuple>
#include <vector>

using heapwright::hint_for;
using heapwright::is_likely_slip;
using heapwright::nearest;

namespace {
const std::vector<std::string> known{"leaves-fall", "grass-clippings", "kitchen-scraps", "straw", "urea"};
}

TEST_CASE("one slip of the pen still finds the name", "[nearest]") {
  const auto [slip, typed, meant] = GENERATE(table<const char*, std::string, std::string>({
      {"none", "straw", "straw"},
      {"a letter too many", "ureea", "urea"},
      {"a letter too few", "strw", "straw"},
      {"another letter", "strow", "straw"},
      {"two neighbours swapped", "starw", "straw"},
      {"the first letters swapped", "tsraw", "straw"},
      {"the hyphen left out", "kitchenscraps", "kitchen-scraps"},
  }));
  CAPTURE(slip, typed);
  CHECK(nearest(typed, known) == meant);
}

TEST_CASE("one slip in three letters is near enough, more is not", "[nearest]") {
  const auto [typed, meant] = GENERATE(table<std::string, std::optional<std::string>>({
      {"abcdef", "abcdef"},
      {"abcdeX", "abcdef"},
      {"abcdXX", "abcdef"},
      {"abcXXX", std::nullopt},
      {"XbX", std::nullopt},
  }));
  CAPTURE(typed);
  CHECK(nearest(typed, {"abcdef"}) == meant);
}

TEST_CASE("a swap is one slip, not two", "[nearest]") {
  // Four letters allow one slip.
  CHECK(nearest("uera", known) == "urea");
  CHECK(nearest("XXea", known) == std::nullopt);
}

TEST_CASE("the nearer name wins wherever it stands, the first of equals otherwise", "[nearest]") {
  CHECK(nearest("stars", {"stack", "straw", "start"}) == "start");
  CHECK(nearest("stars", {"start", "stack"}) == "start");
  CHECK(nearest("boat", {"coat", "goat"}) == "coat");
  CHECK(nearest("boat", {"goat", "coat"}) == "goat");
}

TEST_CASE("where nothing is near there is no guess", "[nearest]") {
  const std::string endless(100'000, 's');
  CHECK(nearest("", known) == std::nullopt);
  CHECK(nearest("straw", {}) == std::nullopt);
  CHECK(nearest("bicycle", known) == std::nullopt);
  CHECK(nearest(endless, known) == std::nullopt);
  CHECK(nearest("straw", {endless, "straws"}) == "straws");
  CHECK(nearest(endless, {endless}) == std::nullopt);
}

TEST_CASE("what would be right in place of an unknown name", "[nearest]") {
  CHECK(hint_for("strow", known, {"straw", "urea"}) == "did you mean \"straw\"? It is one of straw, urea");
  CHECK(hint_for("bicycle", known, {"straw"}) == "It is one of straw");
}

TEST_CASE("a name of a thing is a slip of another where little else can be meant", "[nearest]") {
  const auto [said, meant, is_slip] = GENERATE(table<std::string, std::string, bool>({
      {"manuer", "manure", true},
      {"wheat stra", "wheat straw", true},
      {"Coffe grouds", "coffee grounds", true},
      {"tsraw", "straw", true},
      {"hya", "hay", true},
      {"hayy", "hay", true},
      {"saw dust", "sawdust", true},
      {"vegtible scraps", "vegetable scraps", true},
      {"ammnoai", "ammonia", true},
      {"mint", "lint", false},
      {"soda", "sod", false},
      {"pot", "poo", false},
      {"ginger", "cinders", false},
      {"glitter", "litter", false},
      {"plaster", "plastik", false},
      {"lichen", "linen", false},
      {"wine", "twine", false},
      {"fig leaves", "fall leaves", false},
      {"paper straw", "pine straw", false},
      {"", "hay", false},
  }));
  CAPTURE(said, meant);
  CHECK(is_likely_slip(said, meant) == is_slip);
}
