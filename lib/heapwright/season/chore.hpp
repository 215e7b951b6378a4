#pragma once
/// What is to be done in a year, in words: materials/calendar.toml.

#include <string>
#include <vector>

#include "heapwright/materials/published_value.hpp"

namespace heapwright {

class Table;

/// A row of that table.
struct ChoreText {
  std::string id;
  std::string title;  ///< in a few words
  std::string text;
  std::string why;
  std::string source;
  Evidence evidence = Evidence::judged;
};

/// Reads [[chore]] onto the rows that are there.
void read_chores(Table& root, std::vector<ChoreText>& rows);
/// The table that comes with the program.
std::vector<ChoreText> built_in_chores();

}  // namespace heapwright
