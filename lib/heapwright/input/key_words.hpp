#pragma once
/// What people say in their own words, by the words in it that carry the meaning.

#include <string>
#include <string_view>
#include <vector>

namespace heapwright {

/// A word as it was written and without its ending: "steaming" and "steam".
struct KeyWord {
  std::string written;
  std::string stem;
};

/// The words of a text, each once, in small letters and without apostrophes, but for those that say little ("it", "is", "all over"):
/// "It's NOT heating up!" is "not", "heating". "won't", "isn't", "never" and "nothing" all are "not".
std::vector<KeyWord> key_words(std::string_view text);

/// Whether a word is an ordinary one that is no slip of any other: "weeks" of "weeds".
bool is_no_slip(std::string_view word);

/// Whether a text has all words of a phrase, whatever their order. Of words of five letters and more one slip is forgiven. Who denies
/// something does not say it: a text with "not" has only phrases with "not".
bool has_words(const std::vector<KeyWord>& text, const std::vector<KeyWord>& phrase);

}  // namespace heapwright
