#pragma once
/// What no pile at home should get, with the reason and where it goes instead.

#include <string>
#include <string_view>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/materials/published_value.hpp"

namespace heapwright {

/// Something that stays out was named: with the reason, and where it goes instead.
class KeptOut : public TextError {
  using TextError::TextError;
};

/// A row of keep_out.toml.
struct KeepOut {
  std::string id;
  std::string name;
  std::vector<std::string> also;   ///< whole names that people say
  std::vector<std::string> words;  ///< words that give it away wherever they stand in a name
  std::string reason;
  std::string instead;
  std::string source;
  Evidence evidence = Evidence::judged;
};

/// The row that a name means, by its whole name or by one of its words, or none.
const KeepOut* find_keep_out(const std::vector<KeepOut>& rows, std::string_view name);

/// What a misspelt name could mean of what stays out.
struct KeepOutGuess {
  const KeepOut* row = nullptr;
  std::string meant;      ///< the name or word
  std::size_t slips = 0;  ///< between the two
};

/// The nearest name of what stays out, as a whole or by one long word of it with one slip. No row where none is near: one slip in a
/// short name, two in a longer one.
KeepOutGuess guess_keep_out(const std::vector<KeepOut>& rows, std::string_view name);

}  // namespace heapwright
