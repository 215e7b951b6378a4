#include "heapwright/roster/workshop.hpp"

#include <fmt/format.h>

namespace heapwright {

namespace {

constexpr std::string_view handout_begins = "household-";
constexpr std::string_view handout_ends = ".html";

/// Nobody sees the file that a household's answers make, so its line stands in the message.
std::string with_place(const Problem& problem) {
  const Position& where = problem.where;
  if (where.line == 0) return problem.what;
  return fmt::format("{} ({}, line {}: {})", problem.what, where.file, where.line, where.source_line);
}

}  // namespace

std::size_t count_of_bad_rows(const Roster& roster) {
  std::set<int> lines;
  for (const BadRow& row : roster.bad_rows) lines.insert(row.problem.where.line);
  return lines.size();
}

WithoutHandout without_handout(const Roster& roster) {
  std::set<int> with;
  for (const Household& household : roster.households) with.insert(household.number);
  WithoutHandout without;
  for (const BadRow& row : roster.bad_rows) {
    if (row.household != 0 && with.count(row.household) == 0) {
      without.households.insert(row.household);
    } else {
      without.lines.insert(row.problem.where.line);
    }
  }
  return without;
}

Problem problem_of_household(const BadRow& row, bool with_name) {
  Problem problem = row.problem;
  const bool is_named = with_name && !row.name.empty();
  if (row.household != 0)
    problem.what = fmt::format("household {}{}: {}", row.household, is_named ? ", " + row.name : std::string(), problem.what);
  return problem;
}

std::vector<BadRow> bad_rows_in(const Household& household, const std::function<void()>& work) {
  std::vector<BadRow> bad;
  const auto add = [&](const std::string& key, const std::string& what, const std::string& hint) {
    bad.push_back({{}, {household.where, key, what, hint}, household.number, household.name});
  };
  try {
    work();
  } catch (const InputError& error) {
    for (const Problem& problem : error.problems()) add(problem.key, with_place(problem), problem.hint);
  } catch (const TextError& error) {
    add({}, error.what(), error.hint());
  } catch (const DomainError& error) {
    add({}, error.what(), error.hint());
  }
  return bad;
}

std::string handout_file_of(const Household& household) { return fmt::format("{}{:03}{}", handout_begins, household.number, handout_ends); }

bool is_name_of_a_handout(std::string_view file) {
  constexpr std::size_t fewest_digits = 3;
  if (!file.starts_with(handout_begins) || !file.ends_with(handout_ends)) return false;
  if (file.size() < handout_begins.size() + fewest_digits + handout_ends.size()) return false;
  file.remove_prefix(handout_begins.size());
  file.remove_suffix(handout_ends.size());
  return file.find_first_not_of("0123456789") == std::string_view::npos;
}

}  // namespace heapwright
