#pragma once
/// A class, with all that is told of it beside the handouts themselves.

#include <string>

#include "heapwright/roster/class_totals.hpp"
#include "heapwright/roster/roster.hpp"

namespace heapwright {

struct Workshop {
  std::string roster_file;
  std::string folder;  ///< that the handouts are in
  Date today;
  bool with_names = false;  ///< else numbers alone stand in every file but the answers
  Roster roster;            ///< each of its households has a handout
  std::size_t kept = 0;     ///< handouts that were there already, made of the same
  ClassTotals totals;
};

/// How many rows have no handout; one with several mistakes counts once.
std::size_t count_of_bad_rows(const Roster& roster);

/// "household-007.html"
std::string handout_file_of(const Household& household);
inline constexpr const char* print_all_file = "print-all.html";
inline constexpr const char* index_file = "index.html";
inline constexpr const char* answers_file = "answers.csv";

}  // namespace heapwright
