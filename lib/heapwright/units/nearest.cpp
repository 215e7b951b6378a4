#include "heapwright/units/nearest.hpp"

#include <algorithm>

namespace heapwright {
namespace {

// A name longer than this is not a misspelt key, and the table below grows with its length.
constexpr std::size_t longest = 80;

}  // namespace

std::size_t slips_between(std::string_view a, std::string_view b) {
  if (a.size() > longest || b.size() > longest) return std::max(a.size(), b.size());
  std::vector<std::vector<std::size_t>> slips(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) slips[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) slips[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      slips[i][j] = std::min({slips[i - 1][j] + 1, slips[i][j - 1] + 1, slips[i - 1][j - 1] + change});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) slips[i][j] = std::min(slips[i][j], slips[i - 2][j - 2] + 1);
    }
  }
  return slips[a.size()][b.size()];
}

std::optional<std::string> nearest(std::string_view name, const std::vector<std::string>& known) {
  if (name.empty() || name.size() > longest) return std::nullopt;
  std::optional<std::string> best;
  std::size_t least = std::max<std::size_t>(1, name.size() / 3) + 1;
  for (const std::string& candidate : known) {
    if (candidate.size() > longest) continue;
    const std::size_t slips = slips_between(name, candidate);
    if (slips < least) {
      least = slips;
      best = candidate;
    }
  }
  return best;
}

}  // namespace heapwright
