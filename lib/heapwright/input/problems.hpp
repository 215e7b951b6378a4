#pragma once
/// What is wrong with an input, all of it gathered and reported at once.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/error.hpp"

namespace heapwright {

/// One thing wrong: where, at which key, what, and what would be right (may be empty).
struct Problem {
  Position where;
  std::string key;
  std::string what;
  std::string hint;
};

/// Bytes of a line that is shown under its problem; a longer one is not kept either, or a file of one line would stand in each of its
/// problems.
inline constexpr std::size_t longest_line_shown = 120;

/// Of the bytes of a character in UTF-8 all but the first: columns count characters.
bool is_continuation_byte(char c);

/// "yard.toml:7:12: moisture_wet_basis: "162 %" is outside 0–100 %", the line, a caret, what would be right.
std::string describe(const Problem& problem);

/// All problems of an input; of a file of nothing but mistakes the first thousand, and how many more there are.
class InputError : public Error {
 public:
  /// @param read_on whether the input was read to its end, so that there are no more than these
  explicit InputError(std::vector<Problem> problems, std::size_t left_out = 0, bool read_on = true);
  const std::vector<Problem>& problems() const noexcept { return problems_; }

 private:
  std::vector<Problem> problems_;
};

/// Gathers problems while an input is read on.
class Problems {
 public:
  /// Takes one more in.
  void add(Problem problem);
  /// Whether there is none so far.
  bool none() const { return problems_.empty(); }
  /// An input is not read on, so that there may be more.
  void break_off() { read_on_ = false; }

  /// @throws InputError with all problems, in the order of their places
  void throw_if_any();

 private:
  void sort();
  void leave_out_the_last();
  std::vector<Problem> problems_;
  std::size_t left_out_ = 0;
  bool read_on_ = true;
};

}  // namespace heapwright
