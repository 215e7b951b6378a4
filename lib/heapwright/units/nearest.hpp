#pragma once
/// The known name that a misspelt one most likely meant.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace heapwright {

/// Insertions, deletions, changes and swaps of neighbors that make one name of another. Names of more than 80 characters are as far as can
/// be.
std::size_t edit_distance(std::string_view a, std::string_view b);

/// Whether one name is plausibly another with a slip of the pen, as of the names of things, where many another word may be meant: word by
/// word the first letter agrees, or is swapped with the second. In words of four letters and fewer neighbors are swapped or a letter is
/// doubled, in longer ones a letter is wrong, in those of nine letters and more, or of the same letters, two are. Judged.
bool is_likely_slip(std::string_view said, std::string_view meant);

/// Nearest by insertions, deletions, changes and swaps of neighbors (Damerau-Levenshtein, optimal string alignment), if near enough:
/// at most one slip in three letters. Of equals one that begins with the same letter, else the first.
std::optional<std::string> nearest(std::string_view name, const std::vector<std::string>& known);

/// What would be right in place of an unknown name: "did you mean "straw"? It is one of straw, urea".
/// @param known by which it may be called
/// @param listed the names to tell
std::string hint_for(std::string_view name, const std::vector<std::string>& known, const std::vector<std::string>& listed);

}  // namespace heapwright
