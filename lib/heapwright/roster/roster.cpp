#include "heapwright/roster/roster.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>
#include <utility>

#include "heapwright/input/columns.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/input/limits.hpp"

namespace heapwright {
namespace {

constexpr const char* wanted_headings = "write the columns' names in the first row: household,leaves,lawn,scraps";
constexpr std::size_t most_misread = 1000;     // fields, as in other tables
constexpr std::size_t most_flawed_rows = 100;  // at which Csv reads no further

/// Where each column stands, by its name.
using Places = std::map<std::string, std::size_t>;

bool is_blank_cell(std::string_view text) { return text.find_first_not_of(" \t\r\n") == std::string_view::npos; }

/// The number that a field is; nothing for another text.
std::optional<int> household_number(const std::string& said) {
  constexpr std::size_t most_digits = 6;
  const bool is_number = !said.empty() && said.size() <= most_digits && said.find_first_not_of("0123456789") == std::string::npos &&
                         said.find_first_not_of('0') != std::string::npos;
  return is_number ? std::optional<int>(std::stoi(said)) : std::nullopt;
}

/// A row as it was read, with a number or without.
struct RowRead {
  Household household;
  std::vector<BadRow> refused;
  int row = 0;  ///< counted from 1 below the headings
};

/// Numbers for rows without one: their row's where it is free, else the lowest that is.
void number_the_rest(std::vector<RowRead>& rows) {
  std::set<int> taken;
  for (const RowRead& read : rows) taken.insert(read.household.number);
  for (RowRead& read : rows) {
    if (read.household.number == 0 && taken.insert(read.row).second) read.household.number = read.row;
  }
  int free = 1;
  for (RowRead& read : rows) {
    while (read.household.number == 0) {
      if (taken.insert(free).second) read.household.number = free;
      ++free;
    }
  }
}

/// Reads a roster row by row.
class RosterReader {
 public:
  RosterReader(Csv& csv, const ColumnNames& names, const Tables& tables, Date today)
      : csv_(csv), tables_(tables), today_(today), questions_(*tables.questions) {
    take_headings(names);
  }

  void read_rows() {
    while (csv_.next()) {
      if (csv_.rows() > most_households) {
        csv_.problem_of_file("a roster has at most 10,000 rows, and this has more", "part it into several files");
        return;
      }
      read_row();
      if (misread_ > most_misread) return refuse_all();
    }
  }

  Roster roster() && {
    number_the_rest(rows_);
    for (RowRead& read : rows_) {
      if (read.refused.empty()) roster_.households.push_back(std::move(read.household));
      for (BadRow& bad : read.refused) {
        bad.household = read.household.number;
        bad.name = read.household.name;
        roster_.bad_rows.push_back(std::move(bad));
      }
    }
    return std::move(roster_);
  }

 private:
  /// Of a file that is hardly a roster: no handout is made of the few rows that can be read.
  void refuse_all() {
    csv_.problem_of_file("more than 1000 of its fields cannot be read, so the rest is not", "is each heading above its own answers?");
    for (const RowRead& read : rows_) {
      for (const BadRow& row : read.refused) csv_.problem_at(row.problem.where, row.problem.key, row.problem.what, row.problem.hint);
    }
  }

  void take_headings(const ColumnNames& names) {
    const std::vector<std::string>& header = csv_.header();
    bool any_question = false;
    for (std::size_t at = 0; at < header.size(); ++at) {
      const std::string column = column_meant(header[at], names, questions_);
      if (column.empty()) {
        if (!is_blank_cell(header[at])) roster_.unknown_columns.push_back(header[at]);
      } else if (!places_.emplace(column, at).second) {
        csv_.problem_of_column(at, "is a second column of " + column, "leave one of them out, or give it another name");
      }
    }
    for (const Question& question : questions_) {
      const bool is_there = places_.count(question.id) != 0;
      any_question = any_question || is_there;
      if (!is_there) roster_.missing_columns.push_back(question.id);
    }
    if (!any_question && !header.empty())
      csv_.problem_of_header("none of the headings is a question's",
                             roster_columns_in_words(questions_) + "; a form's own headings go into [columns] of a base file");
  }

  std::string cell(const std::string& column) const {
    const auto place = places_.find(column);
    return place == places_.end() || is_blank_cell(csv_.text(place->second)) ? std::string() : std::string(csv_.text(place->second));
  }

  Position position_of(const std::string& column) const {
    const auto place = places_.find(column);
    return csv_.position(place == places_.end() ? 0 : place->second);
  }

  void refuse(const std::string& column, std::string what, std::string hint) {
    const auto place = places_.find(column);
    const std::string heading = place == places_.end() ? column : csv_.header()[place->second];
    rows_.back().refused.push_back({column, {position_of(column), heading, std::move(what), std::move(hint)}});
    ++misread_;
  }

  /// A cell that stands on handouts, answered or not.
  std::string short_cell(const std::string& column) {
    std::string text = cell(column);
    if (text.size() <= longest_answer) return text;
    refuse(column, "this is longer than any name or number", "write it in a few words");
    return {};
  }

  void read_row() {
    Household& household = rows_.emplace_back(RowRead{{}, {}, csv_.rows()}).household;
    household.where = csv_.position(0);
    household.name = short_cell("name");
    take_number(household);
    take_answers(household);
  }

  void take_number(Household& household) {
    const std::string said = short_cell("household");
    const std::optional<int> number = household_number(said);
    if (!number) {
      if (places_.count("household") != 0) household.not_numbered = said;
      return;
    }
    household.number = *number;
    const auto [before, is_new] = numbers_.emplace(*number, household.where.line);
    if (is_new) return;
    refuse("household", fmt::format("this number stands in line {} already", before->second), "give each household a number of its own");
  }

  /// As the questions are asked, one after another; a row's other answers are read on after one that cannot be.
  void take_answers(Household& household) {
    Interview interview(tables_, today_);
    for (const Question& question : questions_) {
      RosterAnswer& answer = household.answers.emplace_back(RosterAnswer{&question, cell(question.id), std::nullopt, false});
      if (interview.due() != &question) continue;
      try {
        interview.answer(answer.typed.empty() ? "?" : answer.typed);
      } catch (const Error& error) {
        refuse(question.id, error.what(), error.hint());
        interview.answer("?");
      }
      answer.reply = interview.answers().at(question.id);
    }
  }

  Csv& csv_;
  const Tables& tables_;
  Date today_;
  const std::vector<Question>& questions_;
  Places places_;
  Roster roster_;
  std::vector<RowRead> rows_;
  std::size_t misread_ = 0;     ///< fields
  std::map<int, int> numbers_;  ///< that were given so far, each with its line
};

/// The rows that the file itself has wrong, with those whose answers are.
void add_flawed_rows(Roster& roster, const InputError& error) {
  for (const Problem& problem : error.problems()) roster.bad_rows.push_back({{}, problem});
  const auto place = [](const BadRow& row) { return std::tie(row.problem.where.line, row.problem.where.column); };
  std::stable_sort(roster.bad_rows.begin(), roster.bad_rows.end(),
                   [&](const BadRow& one, const BadRow& other) { return place(one) < place(other); });
}

Roster roster_of(Csv& csv, Problems& problems, const ColumnNames& names, const Tables& tables, Date today) {
  has_names([](std::string_view) { return false; }, csv, wanted_headings);
  problems.throw_if_any();
  RosterReader reader(csv, names, tables, today);
  problems.throw_if_any();
  reader.read_rows();
  const bool any_row = csv.rows() > 0;
  if (!any_row) csv.problem_of_file("there is no row below the headings", "write a row for each household");
  Roster roster = std::move(reader).roster();
  try {
    problems.throw_if_any();
  } catch (const InputError& error) {
    const bool of_the_file =
        std::any_of(error.problems().begin(), error.problems().end(), [](const Problem& problem) { return problem.where.line == 0; });
    if (of_the_file || csv.cut_off() || error.problems().size() >= most_flawed_rows) throw;
    add_flawed_rows(roster, error);
  }
  return roster;
}

/// A field of a CSV file, in quotation marks where it needs them.
std::string field_of_template(const std::string& text) { return text.find(',') == std::string::npos ? text : "\"" + text + "\""; }

}  // namespace

Replies replies_of(const Household& household) {
  Replies replies;
  for (const RosterAnswer& answer : household.answers) {
    if (answer.reply) replies.emplace(answer.question->id, *answer.reply);
  }
  return replies;
}

Roster read_roster(const std::string& path, const ColumnNames& names, const Tables& tables, Date today) {
  Problems problems;
  Csv csv = Csv::from_file(path, problems);
  return roster_of(csv, problems, names, tables, today);
}

Roster read_roster_text(const std::string& text, const std::string& name, const ColumnNames& names, const Tables& tables, Date today) {
  Problems problems;
  Csv csv(text, name, problems);
  return roster_of(csv, problems, names, tables, today);
}

std::string roster_template(const std::vector<Question>& questions) {
  const std::array<std::map<std::string, std::string>, 2> examples{{{{"household", "1"},
                                                                     {"name", "Example One"},
                                                                     {"leaves", "12 bags"},
                                                                     {"lawn", "5000 ft2"},
                                                                     {"near-water", "no"},
                                                                     {"clippings", "4 buckets"},
                                                                     {"treated", "no"},
                                                                     {"scraps", "3"},
                                                                     {"other", "2 buckets of coffee grounds, 1 bale of straw"},
                                                                     {"treated-other", "no"},
                                                                     {"bin", "4 by 4 by 4"},
                                                                     {"turn", "every 2 weeks"},
                                                                     {"winter", "cool"}},
                                                                    {{"household", "2"},
                                                                     {"name", "Example Two"},
                                                                     {"leaves", "idk"},
                                                                     {"trees", "3"},
                                                                     {"lawn", "60 ft by 30 ft"},
                                                                     {"near-water", "yes"},
                                                                     {"clippings", "0"},
                                                                     {"scraps", "2"},
                                                                     {"bin", "60 gal"},
                                                                     {"built", "today"},
                                                                     {"turn", "weekly"},
                                                                     {"winter", "cold"}}}};
  const std::vector<std::string> columns = roster_columns(questions);
  std::string text;
  for (const std::string& column : columns) text += (text.empty() ? "" : ",") + column;
  text += '\n';
  for (const auto& example : examples) {
    std::string row;
    for (const std::string& column : columns) {
      const auto field = example.find(column);
      row += (column == columns.front() ? "" : ",") + (field == example.end() ? std::string() : field_of_template(field->second));
    }
    text += row + '\n';
  }
  return text;
}

}  // namespace heapwright
