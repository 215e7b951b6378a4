#pragma once
/// A class, with all that is told of it beside the handouts themselves.

#include <functional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/roster/class_totals.hpp"
#include "heapwright/roster/roster.hpp"

namespace heapwright {

/// What a run of the workshop did.
struct Workshop {
  std::string roster_file;
  std::string folder;  ///< that the handouts are in
  Date today;
  bool with_names = false;           ///< else numbers alone stand in every file
  Roster roster;                     ///< each of its households has a handout
  std::size_t kept = 0;              ///< handouts that were there already, made of the same
  std::vector<std::string> removed;  ///< files with handouts of an earlier run that no household has now
  ClassTotals totals;
};

/// How many rows have no handout; one with several mistakes counts once.
std::size_t count_of_bad_rows(const Roster& roster);

/// The numbers of the households without a handout; and the lines of rows that have no number, or that of a household with one.
struct WithoutHandout {
  std::set<int> households;
  std::set<int> lines;
};
WithoutHandout without_handout(const Roster& roster);

/// What is wrong with a row, with its household named.
Problem problem_of_household(const BadRow& row, bool with_name);

/// Does work on the row of a household. What is wrong with the row is told; any other fault is thrown on.
std::vector<BadRow> bad_rows_in(const Household& household, const std::function<void()>& work);

/// "household-007.html"
std::string handout_file_of(const Household& household);
/// Whether a file's name is one that handout_file_of() gives.
bool is_name_of_a_handout(std::string_view file);
/// The files beside the handouts.
inline constexpr const char* print_all_file = "print-all.html";
inline constexpr const char* index_file = "index.html";
inline constexpr const char* answers_file = "answers.csv";

}  // namespace heapwright
