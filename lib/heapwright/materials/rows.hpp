#pragma once
/// Rows of tables: found by their id, read from TOML onto those that are there.

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/materials/embedded.hpp"
#include "heapwright/materials/lazy.hpp"
#include "heapwright/materials/read_published_values.hpp"

namespace heapwright {

/// The row of just this id; nothing where there is none.
template <class Row>
const Row* row_with_id(const std::vector<Row>& rows, std::string_view id) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

/// The same. @throws DomainError where there is none
template <class Row>
const Row& known_row(const std::vector<Row>& rows, std::string_view id) {
  if (const Row* row = row_with_id(rows, id)) return *row;
  throw DomainError("\"" + std::string(id) + "\" is the id of no row");
}

/// The row at an id, made where there is none.
template <class Row>
Row& row_at(std::vector<Row>& rows, const std::string& id) {
  const auto known = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  if (known != rows.end()) return *known;
  rows.emplace_back().id = id;
  return rows.back();
}

/// Reads the tables of a key, each with its id, which must be there and unlike the others of the file. A row whose id is known takes the
/// place of that one.
template <class Row, class ReadRow>
void read_rows(Table& root, std::string_view key, std::vector<Row>& rows, ReadRow read_row) {
  std::vector<std::string> seen;
  for (Table& table : root.tables(key)) {
    table.require("id", "write id = \"a-short-name\"");
    const auto id = table.read("id", read_name);
    if (!id) continue;
    if (std::find(seen.begin(), seen.end(), *id) != seen.end())
      table.problem_at("id", "\"" + *id + "\" stands twice in this file", "give each row an id of its own");
    seen.push_back(*id);
    read_row(table, row_at(rows, *id));
    table.finish();
  }
}

/// Reads a file of the materials folder onto what is there. A mistake in it is ours. @throws InputError
template <class T>
T read_built_in(const char* file, void (*read)(Table&, T&), T table = T()) {
  Problems problems;
  const Document document = Document::from_tree(embedded_table(file), file, problems);
  Table root = document.root();
  read(root, table);
  root.finish();
  problems.throw_if_any();
  return table;
}

/// The table of a file of the materials folder.
template <class T>
Lazy<T> built_in(const char* file, void (*read)(Table&, T&)) {
  return Lazy<T>([file, read] { return read_built_in(file, read); });
}

/// Reads what a file says of a table onto it.
template <class T>
void read_onto(Table& root, Lazy<T>& table, void (*read)(Table&, T&)) {
  T rows = *table;
  read(root, rows);
  table = Lazy<T>(std::move(rows));
}

}  // namespace heapwright
