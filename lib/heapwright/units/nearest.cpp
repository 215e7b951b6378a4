#include "heapwright/units/nearest.hpp"

#include <algorithm>
#include <array>
#include <numeric>

namespace heapwright {
namespace {

// A name longer than this is not a misspelt key, and the table below grows with its length.
constexpr std::size_t longest = 80;

/// So many slips there are at least.
std::size_t difference_of_lengths(std::string_view a, std::string_view b) {
  return std::max(a.size(), b.size()) - std::min(a.size(), b.size());
}

bool is_between_words(char c) { return c == ' ' || c == '-'; }
char in_small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// In small letters, with one space between words.
std::string words_apart(std::string_view name) {
  std::string words;
  for (const char c : name) {
    if (!is_between_words(c)) words += in_small(c);
    if (is_between_words(c) && !words.empty() && words.back() != ' ') words += ' ';
  }
  return words;
}

/// The first two letters of a name, whatever stands between them.
std::array<char, 2> first_letters(std::string_view name) {
  std::array<char, 2> letters{};
  std::size_t count = 0;
  for (auto c = name.begin(); c != name.end() && count < letters.size(); ++c) {
    if (!is_between_words(*c)) letters.at(count++) = in_small(*c);
  }
  return letters;
}

/// Whether two names may be likely slips of each other, as far as their beginnings tell. Of most names they tell enough.
bool may_begin_alike(std::string_view said, std::string_view meant) {
  const auto [first, second] = first_letters(said);
  const auto [first_meant, second_meant] = first_letters(meant);
  return first == first_meant || second == first_meant || first == second_meant;
}

std::string_view take_word(std::string_view& words) {
  const std::string_view word = words.substr(0, words.find(' '));
  words.remove_prefix(std::min(word.size() + 1, words.size()));
  return word;
}

/// As edit_distance(), but not past `most`: what is further apart is more than that.
std::size_t slips_up_to(std::size_t most, std::string_view a, std::string_view b) {
  if (a.size() > longest || b.size() > longest) return std::max(a.size(), b.size());
  if (difference_of_lengths(a, b) > most) return most + 1;
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};  // from the last three beginnings of a to each of b
  std::iota(rows[0].begin(), rows[0].end(), std::size_t{0});
  std::size_t least_before = 0;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    const std::size_t first = i > most ? i - most : 1;  // what is further off the diagonal is further apart than that
    const std::size_t end = std::min(b.size(), i + most);
    auto& row = rows[i % 3];
    const auto& last = rows[(i + 2) % 3];
    const auto& before_last = rows[(i + 1) % 3];
    row[first - 1] = i > most ? most + 1 : i;
    if (end < b.size()) row[end + 1] = most + 1;
    std::size_t least = row[first - 1];
    for (std::size_t j = first; j <= end; ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
      least = std::min(least, row[j]);
    }
    if (std::min(least, least_before) > most) return most + 1;  // each row is worked out of the two before it
    least_before = least;
  }
  return rows[a.size() % 3][b.size()];
}

bool is_within(std::size_t most, std::string_view said, std::string_view meant) { return slips_up_to(most, said, meant) <= most; }

/// "hya" of "hay", "hayy" of "hay".
bool is_swapped_or_doubled(std::string_view said, std::string_view meant) {
  if (!is_within(1, said, meant)) return false;
  if (said.size() == meant.size()) return std::is_permutation(said.begin(), said.end(), meant.begin());
  const std::string_view longer = said.size() > meant.size() ? said : meant;
  return std::adjacent_find(longer.begin(), longer.end()) != longer.end();
}

bool is_likely_slip_of_word(std::string_view said, std::string_view meant) {
  constexpr std::size_t short_word = 4;
  constexpr std::size_t long_word = 9;
  if (said == meant) return true;
  if (said.empty() || meant.empty()) return false;
  const std::size_t length = std::max(said.size(), meant.size());
  if (length <= short_word) return is_swapped_or_doubled(said, meant);
  const bool starts_alike = said[0] == meant[0] || (said.size() > 1 && meant.size() > 1 && said[0] == meant[1] && said[1] == meant[0]);
  if (!starts_alike) return false;
  const bool same_letters = said.size() == meant.size() && std::is_permutation(said.begin(), said.end(), meant.begin());
  return is_within(length >= long_word || same_letters ? 2 : 1, said, meant);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) { return slips_up_to(longest, a, b); }

bool is_likely_slip(std::string_view said, std::string_view meant) {
  if (!may_begin_alike(said, meant)) return false;
  std::string words = words_apart(said);
  std::string others = words_apart(meant);
  if (std::count(words.begin(), words.end(), ' ') != std::count(others.begin(), others.end(), ' ')) {
    for (std::string* joined : {&words, &others}) std::erase(*joined, ' ');
    return is_likely_slip_of_word(words, others);
  }
  std::string_view rest = words;
  std::string_view rest_meant = others;
  do {
    if (!is_likely_slip_of_word(take_word(rest), take_word(rest_meant))) return false;
  } while (!rest.empty() || !rest_meant.empty());
  return true;
}

std::optional<std::string> nearest(std::string_view name, const std::vector<std::string>& known) {
  if (name.empty() || name.size() > longest) return std::nullopt;
  std::optional<std::string> best;
  std::size_t least = std::max<std::size_t>(1, name.size() / 3) + 1;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest || difference_of_lengths(name, candidate) > least) continue;
    const std::size_t slips = slips_up_to(least, name, candidate);
    const bool better_start = best && slips == least && best->front() != name.front() && candidate.front() == name.front();
    if (slips < least || better_start) {
      least = slips;
      best = candidate;
    }
  }
  return best;
}

std::string hint_for(std::string_view name, const std::vector<std::string>& known, const std::vector<std::string>& listed) {
  const std::optional<std::string> near = nearest(name, known);
  std::string list;
  for (const std::string& one : listed) list += (list.empty() ? "" : ", ") + one;
  return (near ? "did you mean \"" + *near + "\"? " : "") + "It is one of " + list;
}

}  // namespace heapwright
