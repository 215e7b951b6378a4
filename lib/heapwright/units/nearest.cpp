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

std::vector<std::string> words_apart(std::string_view name) {
  std::vector<std::string> words(1);
  for (const char c : name) {
    const bool is_between = c == ' ' || c == '-';
    if (!is_between) words.back() += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (is_between && !words.back().empty()) words.emplace_back();
  }
  return words;
}

/// "hya" of "hay", "hayy" of "hay".
bool is_swapped_or_doubled(std::string_view said, std::string_view meant) {
  if (edit_distance(said, meant) != 1) return false;
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
  const bool same_letters = said.size() == meant.size() && std::is_permutation(said.begin(), said.end(), meant.begin());
  return starts_alike && edit_distance(said, meant) <= (length >= long_word || same_letters ? 2U : 1U);
}

}  // namespace

std::size_t edit_distance(std::string_view a, std::string_view b) {
  if (a.size() > longest || b.size() > longest) return std::max(a.size(), b.size());
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};  // from the last three beginnings of a to each of b
  std::iota(rows[0].begin(), rows[0].end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    auto& row = rows[i % 3];
    const auto& last = rows[(i + 2) % 3];
    const auto& before_last = rows[(i + 1) % 3];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, last[j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], before_last[j - 2] + 1);
    }
  }
  return rows[a.size() % 3][b.size()];
}

bool is_likely_slip(std::string_view said, std::string_view meant) {
  const std::vector<std::string> words = words_apart(said);
  const std::vector<std::string> others = words_apart(meant);
  const auto joined = [](const std::vector<std::string>& parts) { return std::accumulate(parts.begin(), parts.end(), std::string()); };
  if (words.size() != others.size()) return is_likely_slip_of_word(joined(words), joined(others));
  return std::equal(words.begin(), words.end(), others.begin(), is_likely_slip_of_word);
}

std::optional<std::string> nearest(std::string_view name, const std::vector<std::string>& known) {
  if (name.empty() || name.size() > longest) return std::nullopt;
  std::optional<std::string> best;
  std::size_t least = std::max<std::size_t>(1, name.size() / 3) + 1;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest || difference_of_lengths(name, candidate) > least) continue;
    const std::size_t slips = edit_distance(name, candidate);
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
