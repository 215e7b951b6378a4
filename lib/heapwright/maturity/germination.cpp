#include "heapwright/maturity/germination.hpp"

#include <cmath>
#include <string>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double most_seeds = 1e6;

double share_of(Sprouted seeds) { return seeds.sprouted / seeds.sown; }

bool is_count(double number) { return number >= 0.0 && number <= most_seeds && number == std::floor(number); }

}  // namespace

Sprouted read_sprouted(std::string_view text) {
  const std::string shown = "\"" + std::string(text) + "\"";
  const std::string example = "write how many came up of how many sown: \"18 of 20\"";
  const CountedWords sprouted = read_counted_words(text);
  if (!sprouted.words.starts_with("of ")) throw TextError(shown + " is no count of seeds", example);
  const CountedWords sown = read_counted_words(sprouted.words.substr(3));
  if (!sown.words.empty() || !is_count(sprouted.number) || !is_count(sown.number) || !(sown.number > 0.0))
    throw TextError(shown + " is no count of seeds", example);
  if (!(sprouted.number <= sown.number)) throw TextError(shown + ": more came up than were sown", example);
  return {sprouted.number, sown.number};
}

double emergence(Sprouted in_compost, Sprouted control) {
  if (!(control.sprouted > 0.0))
    throw DomainError("nothing came up in the control, so there is nothing to compare with", "sow again, with fresh seeds");
  return share_of(in_compost) / share_of(control);
}

double germination_index(Sprouted in_compost, Sprouted control, Length root, Length control_root) {
  if (!is_positive(control_root))
    throw DomainError("the control's roots have no length, so there is nothing to compare with", "sow again, with fresh seeds");
  return emergence(in_compost, control) * (root / control_root);
}

}  // namespace heapwright
