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
