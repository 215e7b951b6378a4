#include "heapwright/input/problems.hpp"

#include <algorithm>
#include <tuple>

namespace heapwright {
namespace {

// A file of nothing but mistakes should not fill the screen for minutes.
constexpr std::size_t most_described = 50;
// Nor the memory.
constexpr std::size_t most_kept = 1000;

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

std::string describe_all(const std::vector<Problem>& problems, std::size_t left_out, bool read_on) {
  std::string text;
  for (std::size_t i = 0; i < problems.size() && i < most_described; ++i) text += describe(problems[i]);
  const std::size_t count = problems.size() + left_out;
  if (count > most_described)
    text += "and " + std::to_string(count - most_described) + (read_on ? " more\n" : " more; the rest is not read\n");
  return text;
}

}  // namespace

bool is_continuation_byte(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

std::string describe(const Problem& problem) {
  std::string text = place(problem.where) + (problem.key.empty() ? "" : problem.key + ": ") + problem.what + "\n";
  const Position& where = problem.where;
  if (where.line > 0 && !where.source_line.empty() && where.source_line.size() <= longest_line_shown)
    text += "    " + where.source_line + "\n    " + caret_line(where) + "\n";
  if (!problem.hint.empty()) text += "    " + problem.hint + "\n";
  return text;
}

InputError::InputError(std::vector<Problem> problems, std::size_t left_out, bool read_on)
    : Error(describe_all(problems, left_out, read_on)), problems_(std::move(problems)) {}

void Problems::add(Problem problem) {
  problems_.push_back(std::move(problem));
  if (problems_.size() == 2 * most_kept) leave_out_the_last();
}

void Problems::throw_if_any() {
  if (problems_.empty()) return;
  if (problems_.size() > most_kept) leave_out_the_last();
  sort();
  throw InputError(std::move(problems_), left_out_, read_on_);
}

void Problems::sort() {
  std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) {
    return std::tie(a.where.file, a.where.line, a.where.column) < std::tie(b.where.file, b.where.line, b.where.column);
  });
}

/// Those that stand last, not those that came last: the first of a file are reported, in whatever order it is read.
void Problems::leave_out_the_last() {
  sort();
  left_out_ += problems_.size() - most_kept;
  problems_.resize(most_kept);
}

}  // namespace heapwright
