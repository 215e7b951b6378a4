#pragma once
/// The households of a class: a row each of a CSV file, with an answer in each column.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/guide/interview.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/roster/column_names.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

/// What a household answered to a question. The question is one of the tables that the roster was read with.
struct RosterAnswer {
  const Question* question = nullptr;
  std::string typed;           ///< empty where the field is blank, or there is no such column
  std::optional<Reply> reply;  ///< nothing where the question is not asked of who answered so before
  bool is_in_base = false;     ///< not known, and a base file says it

  /// Whether it was asked and nobody knows.
  bool is_unknown() const { return reply && reply->is.contains("unknown"); }
  /// An answer to what is not asked: it is passed over.
  bool is_passed_over() const { return !reply && !typed.empty(); }
};

/// A row that could be read.
struct Household {
  int number = 0;                           ///< its own; else its row's, counted from 1 below the headings, or the lowest that is free
  std::optional<std::string> not_numbered;  ///< what stands in the column of numbers where that is none; may be empty
  std::string name;                         ///< empty where none is given
  Position where;                           ///< of its row
  std::vector<RosterAnswer> answers;        ///< in the order of the questions
};

/// The answers of those questions that were asked.
Replies replies_of(const Household& household);

/// Why a row has no handout.
struct BadRow {
  std::string column;  ///< empty where it is the row as a whole
  Problem problem;
  int household = 0;   ///< its number; 0 of a row whose fields are not known
  std::string name{};  ///< of the household, may be empty
};

/// A file that was read.
struct Roster {
  std::vector<Household> households;  ///< in the order of the rows
  std::vector<BadRow> bad_rows;       ///< in the order of their places; a row may have several
  std::vector<std::string> unknown_columns;
  std::vector<std::string> missing_columns;  ///< whose questions nobody can answer
};

/// Most rows that a roster may have: 10,000, a judged bound on a class.
inline constexpr int most_households = 10'000;

/// Reads a roster; a row that cannot be read is one of the bad rows. A blank field is "don't know". @throws InputError where the file is no
/// roster, has too many rows, or more than a thousand fields that cannot be read
Roster read_roster(const std::string& path, const ColumnNames& names, const Tables& tables, Date today);
/// The same of a text. @param name what positions call it
Roster read_roster_text(const std::string& text, const std::string& name, const ColumnNames& names, const Tables& tables, Date today);

/// A roster to fill in: the headings, and two invented rows.
std::string roster_template(const std::vector<Question>& questions);

}  // namespace heapwright
