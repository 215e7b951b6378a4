#include "heapwright/input/problems.hpp"

#include <algorithm>
#include <tuple>

namespace heapwright {
namespace {

// A file of nothing but mistakes should not fill the screen for minutes.
constexpr std::size_t most_described = 50;
constexpr std::size_t longest_line_shown = 120;

std::string place(const Position& where) {
  if (where.line == 0) return where.file.empty() ? "" : where.file + ": ";
  return where.file + ":" + std::to_string(where.line) + ":" + std::to_string(where.column) + ": ";
}

/// Spaces (and tabs as they stand) up to the caret; columns count characters, not bytes.
std::string caret_line(const Position& where) {
  std::string spaces;
  int column = 1;
  for (const char c : where.source_line) {
    if (is_continuation_byte(c)) continue;
    if (column++ >= where.column) break;
    spaces += c == '\t' ? '\t' : ' ';
  }
  return spaces + '^';
}

std::string describe_all(const std::vector<Problem>& problems) {
  std::string text;
  for (std::size_t i = 0; i < problems.size() && i < most_described; ++i) text += describe(problems[i]);
  if (problems.size() > most_described) text += "and " + std::to_string(problems.size() - most_described) + " more\n";
  return text;
}

}  // namespace

bool is_continuation_byte(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::string describe(const Problem& problem) {
  std::string text = place(problem.where) + (problem.key.empty() ? "" : problem.key + ": ") + problem.what + "\n";
  const Position& where = problem.where;
  if (where.line > 0 && !where.source_line.empty() && where.source_line.size() <= longest_line_shown)
    text += "    " + where.source_line + "\n    " + caret_line(where) + "\n";
  if (!problem.would_be_right.empty()) text += "    " + problem.would_be_right + "\n";
  return text;
}

InputError::InputError(std::vector<Problem> problems) : Error(describe_all(problems)), problems_(std::move(problems)) {}

void Problems::add(Problem problem) { problems_.push_back(std::move(problem)); }

void Problems::throw_if_any() {
  if (problems_.empty()) return;
  std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
    return std::tie(a.where.file, a.where.line, a.where.column) < std::tie(b.where.file, b.where.line, b.where.column);
  });
  throw InputError(std::move(problems_));
}

}  // namespace heapwright
