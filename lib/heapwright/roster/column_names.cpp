#include "heapwright/roster/column_names.hpp"

#include <fmt/ranges.h>

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The column of a name, spelt any way; "people" is another name for scraps, which are counted by them.
std::string column_of_name(const std::string& name, const std::vector<Question>& questions) {
  const std::string plain = plain_name(name);
  if (plain == plain_name("people")) return "scraps";
  for (const std::string& column : roster_columns(questions)) {
    if (plain_name(column) == plain) return column;
  }
  return {};
}

std::string hint_at_columns(const std::string& word, const std::vector<Question>& questions) {
  if (const auto near = nearest(word, roster_columns(questions))) return "did you mean \"" + *near + "\"?";
  return roster_columns_in_words(questions);
}

}  // namespace

std::vector<std::string> roster_columns(const std::vector<Question>& questions) {
  std::vector<std::string> columns{"household", "name"};
  for (const Question& question : questions) columns.push_back(question.id);
  return columns;
}

std::string roster_columns_in_words(const std::vector<Question>& questions) {
  return fmt::format("the columns are {}", fmt::join(roster_columns(questions), ", "));
}

ColumnNames read_column_names(const std::string& base_file, const std::vector<Question>& questions) {
  Problems problems;
  const Document document = Document::from_file(base_file, problems);
  ColumnNames names;
  Table root = document.root();
  std::optional<Table> table = root.table("columns");
  if (table) {
    for (const std::string& heading : table->keys()) {
      const std::optional<std::string> word = table->text(heading);
      if (!word) continue;
      const std::string column = column_of_name(*word, questions);
      if (column.empty()) table->problem_at(heading, "\"" + *word + "\" is no column of a roster", hint_at_columns(*word, questions));
      names.emplace_back(heading, column);
    }
  }
  problems.throw_if_any();
  return names;
}

std::string column_meant(const std::string& heading, const ColumnNames& names, const std::vector<Question>& questions) {
  for (const auto& [own, column] : names) {
    if (plain_name(own) == plain_name(heading)) return column;
  }
  return column_of_name(heading, questions);
}

}  // namespace heapwright
