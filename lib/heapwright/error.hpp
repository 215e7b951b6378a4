#pragma once
/// The one family of exceptions that the library throws.
///
/// A question without an answer (no recipe inside the limits, say) is a result, not an
/// exception; these are for input that cannot be used and for calls that make no sense.

#include <stdexcept>
#include <string>

namespace heapwright {

/// Where in a text something stands. Lines and columns count from one; no line is known where line is 0.
struct Position {
  std::string file;
  int line = 0;
  int column = 0;
  std::string source_line;  ///< the line itself, for showing it with a caret
};

/// Base of all: what is wrong, and a hint at what would be right (may be empty).
class Error : public std::runtime_error {
 public:
  explicit Error(const std::string& message, std::string hint = {}) : std::runtime_error(message), hint_(std::move(hint)) {}
  const std::string& hint() const noexcept { return hint_; }

 private:
  std::string hint_;
};

/// A text that is not the quantity, name or date it should be.
class TextError : public Error {
  using Error::Error;
};

/// A calculation asked for outside the range in which it means anything.
class DomainError : public Error {
  using Error::Error;
};

/// A number that is none, NaN or infinite, where one is to be printed: a fault of ours.
class NotFinite : public DomainError {
 public:
  NotFinite() : DomainError("a number that is not finite cannot be printed") {}
};

}  // namespace heapwright
