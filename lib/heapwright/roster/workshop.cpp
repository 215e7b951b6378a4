#include "heapwright/roster/workshop.hpp"

#include <fmt/format.h>

#include <set>

namespace heapwright {

std::size_t count_of_bad_rows(const Roster& roster) {
  std::set<int> lines;
  for (const BadRow& row : roster.bad_rows) lines.insert(row.problem.where.line);
  return lines.size();
}

std::string handout_file_of(const Household& household) { return fmt::format("household-{:03}.html", household.number); }

}  // namespace heapwright
