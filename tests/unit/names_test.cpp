// The names that people say: which row they find, and what is refused. everyday_names.tsv was written without sight of the tables' lists.

#include <catch2/catch.hpp>

#include <fstream>
#include <string>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/supply.hpp"

using namespace heapwright;

namespace {

const Materials& materials() {
  static const Materials built_in = built_in_materials();
  return built_in;
}

struct Said {
  std::string kind;
  std::string name;
  std::string expected;
};

std::vector<Said> names_said(const std::string& kind) {
  std::ifstream file("unit/everyday_names.tsv");
  std::vector<Said> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::size_t first = line.find('\t');
    const std::size_t second = line.find('\t', first + 1);
    const Said row{line.substr(0, first), line.substr(first + 1, second - first - 1), line.substr(second + 1)};
    if (row.kind == kind) rows.push_back(row);
  }
  return rows;
}

/// What find_feedstock() says to a name: an id, or the message and the hint.
std::string answer_to(const std::string& name) {
  try {
    return find_feedstock(materials(), name).id;
  } catch (const TextError& error) {
    return std::string(error.what()) + " / " + error.hint();
  }
}

const KeepOut& keep_out_row(const std::string& id) {
  for (const KeepOut& row : materials().keep_out) {
    if (row.id == id) return row;
  }
  FAIL("no such row: " << id);
  throw;
}

bool names_a_feedstock(const std::string& text) {
  return text.find("did you mean") != std::string::npos;
}

}  // namespace

TEST_CASE("everyday names find their feedstock", "[names]") {
  const std::vector<Said> rows = names_said("feedstock");
  REQUIRE(rows.size() >= 100);
  for (const Said& row : rows) {
    CAPTURE(row.name);
    CHECK(answer_to(row.name) == row.expected);
  }
}

TEST_CASE("what stays out is refused by any of its names, with the reason and where it goes", "[names]") {
  const std::vector<Said> rows = names_said("keep-out");
  REQUIRE(rows.size() >= 100);
  for (const Said& row : rows) {
    CAPTURE(row.name);
    const std::string answer = answer_to(row.name);
    const KeepOut& expected = keep_out_row(row.expected);
    CHECK(answer.find(expected.reason) != std::string::npos);
    CHECK(answer.find(expected.instead) != std::string::npos);
    CHECK_FALSE(names_a_feedstock(answer));
  }
}

TEST_CASE("everyday names find their container", "[names]") {
  const std::vector<Said> rows = names_said("container");
  REQUIRE(rows.size() >= 100);
  for (const Said& row : rows) {
    if (row.expected == "?") continue;
    CAPTURE(row.name);
    const Container* found = find_container(materials().containers, row.name);
    CHECK((found == nullptr ? std::string("none") : found->id) == row.expected);
  }
}
