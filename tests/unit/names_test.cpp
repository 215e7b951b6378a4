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
  for (const KeepOut& row : *materials().keep_out) {
    if (row.id == id) return row;
  }
  FAIL("no such row: " << id);
  throw;
}

bool names_a_feedstock(const std::string& text) { return text.find("did you mean") != std::string::npos; }

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
    const Container* found = find_container(*materials().containers, row.name);
    CHECK((found == nullptr ? std::string("none") : found->id) == row.expected);
  }
}

TEST_CASE("every name and word of the keep-out table is refused, with its own row's reason", "[names]") {
  for (const KeepOut& row : *materials().keep_out) {
    std::vector<std::string> names = row.also;
    names.push_back(row.name);
    names.push_back(row.id);
    for (const std::string& word : row.words) names.push_back("a bucketful of " + word + " odds and ends");
    for (const std::string& name : names) {
      CAPTURE(row.id, name);
      const std::string answer = answer_to(name);
      CHECK(answer.find(row.reason) != std::string::npos);
      CHECK_FALSE(names_a_feedstock(answer));
    }
  }
}

TEST_CASE("a letter lost or doubled turns nothing that stays out into something that may go in", "[names]") {
  std::size_t nth = 0;
  std::size_t slips = 0;
  for (const KeepOut& row : *materials().keep_out) {
    for (const std::string& name : row.also) {
      if (name.size() < 4 || ++nth % 40 != 0) continue;  // a few of them, since a guess takes its time
      for (std::size_t i = 0; i < name.size(); ++i) {
        for (const std::string& slip : {name.substr(0, i) + name.substr(i + 1), name.substr(0, i + 1) + name.substr(i)}) {
          ++slips;
          const std::string answer = answer_to(slip);
          CAPTURE(name, slip, answer);
          CHECK_FALSE(names_a_feedstock(answer));
          CHECK(answer.find(" / ") != std::string::npos);  // no slip is the name of something that may go in
        }
      }
    }
  }
  CHECK(slips > 300);
}

TEST_CASE("what stays out is refused wherever an amount or a row of one's own names it", "[names]") {
  for (const char* amount : {"6 bags of dog poop", "2 buckets of old cat litter", "1 yd3 of chopped chicken"}) {
    CAPTURE(amount);
    CHECK_THROWS_WITH(read_amount(amount, materials()), Catch::Matchers::Contains("stays out of the pile"));
  }
  CHECK_NOTHROW(read_amount("6 bags of shredded leaves", materials()));
  CHECK_NOTHROW(read_amount("6 bags of whatever", materials()));
}
