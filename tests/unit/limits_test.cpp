// How much one input may hold: at each bound it is read, past it refused, with its place and what would be right.

#include "heapwright/input/limits.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <unistd.h>

#include "heapwright/guide/said_load.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/lawn/geo_file.hpp"
#include "heapwright/roster/roster.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Contains;

namespace {

std::string times_over(std::size_t count, const std::string& text) {
  std::string all;
  for (std::size_t i = 0; i < count; ++i) all += text;
  return all;
}

/// What the reading of a yard finds wrong; nothing of one that is read.
std::string wrong_with(const std::string& yard) {
  try {
    read_yard_text(yard, "yard.toml");
    return {};
  } catch (const InputError& error) {
    return error.what();
  }
}

/// What the reading of a map finds wrong.
std::string wrong_with_map(const std::string& map) {
  try {
    read_geojson(map);
    return {};
  } catch (const Error& error) {
    return std::string(error.what()) + "; " + error.hint();
  }
}

const std::string square = "[[[0,0],[0,0.001],[0.001,0.001],[0,0]]]";

/// A polygon in so many levels of JSON: its own are four of arrays in one of braces.
std::string polygon_in_levels(int levels) {
  const auto collections = static_cast<std::size_t>((levels - 4) / 2);
  return times_over(collections, R"({"type":"GeometryCollection","geometries":[)") + R"({"type":"Polygon","coordinates":)" + square + "}" +
         times_over(collections, "]}");
}

}  // namespace

TEST_CASE("a text of a file has a longest length", "[limits]") {
  CHECK(wrong_with("title = \"" + std::string(longest_text, 'x') + "\"\n").empty());
  const std::string wrong = wrong_with("\ntitle = \"" + std::string(longest_text + 1, 'x') + "\"\n");
  CHECK_THAT(wrong, Contains("yard.toml:2:9: title: is longer than 1000 bytes") && Contains("fewer words"));
}

TEST_CASE("tables of one key have a largest count", "[limits]") {
  const std::string reading = "[[reading]]\ndate = 2026-11-01\ncore = \"warm\"\n";
  CHECK(wrong_with(times_over(most_tables, reading)).empty());
  CHECK_THAT(wrong_with(times_over(most_tables + 1, reading)), Contains("reading: stands more than 5000 times") && Contains("leave out"));
}

TEST_CASE("a supply and a load have a largest amount", "[limits]") {
  const std::string supply = "[[supply]]\nfeedstock = \"leaves\"\n";
  const std::string load = "[[load]]\ndate = 2026-11-01\nfeedstock = \"leaves\"\n";
  for (const std::string& table : {supply, load}) {
    CHECK(wrong_with(table + "amount = \"1000000 t\"\n").empty());
    CHECK_THAT(wrong_with(table + "amount = \"1000001 t\"\n"), Contains("amount: is more than a million tonnes") && Contains("smaller"));
  }
  CHECK_THAT(wrong_with(supply + "estimate = { pile = [\"9000 m\", \"9000 m\", \"9000 m\"] }\n"), Contains("estimate: is more than"));
}

TEST_CASE("offers have a largest count", "[limits]") {
  std::string offers;
  for (std::size_t i = 0; i < most_offers; ++i)
    offers += "[[topdressing.offer]]\nname = \"offer " + std::to_string(i) + "\"\nprice = 30\nunit = \"1 yd3\"\n";
  CHECK(wrong_with(offers).empty());
  CHECK_THAT(wrong_with(offers + "[[topdressing.offer]]\nname = \"one more\"\nprice = 30\nunit = \"1 yd3\"\n"),
             Contains("offer: more than 100 offers") && Contains("dearer"));
}

TEST_CASE("a field of a table has a longest length, where it is read, and a column's name too", "[limits]") {
  const auto wrong = [](const std::string& text) {
    Problems problems;
    Csv csv(text, "log.csv", problems);
    while (csv.next()) csv.read(0, [](std::string_view field) { return field.size(); });
    try {
      problems.throw_if_any();
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  const std::string longest(longest_text, 'x');
  CHECK(wrong("one,other\n" + longest + "," + longest + "xx\n").empty());
  CHECK_THAT(wrong("one,other\n" + longest + "x,\n"), Contains("log.csv:2:1: one: is longer than 1000 bytes"));
  CHECK(wrong(longest + ",other\n1,2\n").empty());
  CHECK_THAT(wrong("one," + longest + "x\n1,2\n"), Contains("log.csv:1:5: a column's name is longer than 1000 bytes"));
}

TEST_CASE("what is said of a load has a longest length", "[limits]") {
  const Date day{std::chrono::year(2026), std::chrono::November, std::chrono::day(7)};
  const Materials materials = built_in_tables().materials;
  const std::string load = "2 buckets leaves";
  const std::string longest = load + std::string(longest_answer - load.size(), ' ');
  CHECK(said_loads(longest, day, materials).size() == 1);
  CHECK_THROWS_WITH(said_loads(longest + " ", day, materials), Contains("longer than 300 bytes"));
}

TEST_CASE("what is said to be on hand has a longest length", "[limits]") {
  const Materials materials = built_in_tables().materials;
  const std::string leaves = "leaves";
  const std::string longest = leaves + std::string(longest_answer - leaves.size(), ' ');
  CHECK_FALSE(read_said_supply(longest, materials).feedstock.id.empty());
  CHECK_THROWS_WITH(read_said_supply(longest + " ", materials), Contains("longer than 300 bytes"));
}

TEST_CASE("a household's name has a longest length", "[limits]") {
  const Date day{std::chrono::year(2026), std::chrono::November, std::chrono::day(7)};
  const auto roster_of = [&](std::size_t length) {
    return read_roster_text("household,name,leaves\n1," + std::string(length, 'x') + ",3 bags\n", "class.csv", {}, built_in_tables(), day);
  };
  CHECK(roster_of(longest_answer).bad_rows.empty());
  const Roster refused = roster_of(longest_answer + 1);
  REQUIRE(refused.bad_rows.size() == 1);
  CHECK(refused.households.empty());
  CHECK_THAT(refused.bad_rows.front().problem.what, Contains("longer than any name"));
}

TEST_CASE("a map has a deepest level", "[limits]") {
  CHECK(wrong_with_map(polygon_in_levels(deepest_map)).empty());
  CHECK_THAT(wrong_with_map(polygon_in_levels(deepest_map + 2)), Contains("has more than 64 levels") && Contains("GeoJSON"));
}

TEST_CASE("however deep a map goes, it is refused", "[limits]") {
  constexpr std::size_t deep = 200'000;  // each level took stack once
  const std::string opened = times_over(deep, "[");
  const std::string closed = times_over(deep, "]");
  const std::string deep_list = opened + closed;
  for (const std::string& map : {times_over(deep, R"({"type":"GeometryCollection","geometries":[)"),
                                 R"({"type":"Feature","geometry":null,"properties":)" + deep_list + "}",
                                 R"({"type":"Polygon","coordinates":[[[0,0,)" + deep_list + "],[1,0],[1,1],[0,0," + deep_list + "]]]}"})
    CHECK_THAT(wrong_with_map(map), Contains("levels"));
}

TEST_CASE("a map has a largest count of pieces", "[limits]") {
  const auto wrong_with_pieces = [](std::size_t count) {
    std::string squares = square;
    for (std::size_t i = 1; i < count; ++i) squares += "," + square;
    const std::filesystem::path folder = std::filesystem::temp_directory_path();
    const std::filesystem::path file = folder / ("heapwright-limits-" + std::to_string(getpid()) + ".geojson");
    std::ofstream(file) << R"({"type":"MultiPolygon","coordinates":[)" << squares << "]}";
    std::string wrong = wrong_with("[[lawn.zone]]\nshape = \"geojson\"\nfile = \"" + file.string() + "\"\n");
    std::filesystem::remove(file);
    return wrong;
  };
  CHECK(wrong_with_pieces(most_pieces).empty());
  CHECK_THAT(wrong_with_pieces(most_pieces + 1), Contains("has more than 400 pieces and holes"));
}

TEST_CASE("an area or a volume by its sides has a largest size, as one by its unit", "[limits]") {
  CHECK(read_area("1000000 m by 1000000 m").value() == Approx(1e12));
  CHECK_THROWS_WITH(read_area("1000000 m by 1000001 m"), Contains("beyond"));
  CHECK(read_volume("10000 m by 10000 m by 10000 m").value() == Approx(1e12));
  CHECK_THROWS_WITH(read_volume("10000 m by 10000 m by 10001 m"), Contains("beyond"));
}
