#pragma once
/// Between what a mix lies, since the figures of its feedstocks do.

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "heapwright/mix/targets.hpp"
#include "heapwright/mix/vary.hpp"

namespace heapwright {

/// The 10–90 % band of C:N, moisture and air space, and how often they fall inside their windows, over 4096 quasi-random draws: every
/// figure with a range is drawn from a triangle over its low, typical and high, all of them together, each independent of the others; what
/// two supplies of one feedstock assume alike is drawn once. C:N and carbon are drawn and nitrogen follows; carbon and nitrogen where there
/// is no C:N. A fixed Sobol sequence (Boost.Random), so the same question has the same answer.
/// Nothing where the blend has no mass.
/// @param taken of each ingredient of the blend, in its order
std::optional<MixRanges> ranges_of(const Blend& blend, const std::vector<Taken>& taken, const Targets& targets, const Materials& materials);

/// A figure of several ingredients alike, between low, typical and high in SI, with its response in each.
struct Varied {
  std::string what;                                   ///< in the first one's words
  std::vector<std::pair<std::size_t, Variation>> of;  ///< ingredient and its response
};
std::vector<Varied> varied(const Blend& blend, const std::vector<Taken>& taken, const Materials& materials);

/// What follows from the ingredients of a blend, in each of the draws.
std::vector<double> drawn_values(const Blend& blend, const std::vector<Varied>& figures,
                                 const std::function<double(const std::vector<Matter>&)>& value);

/// The draws themselves, of what varies.
MixRanges drawn_ranges(const Blend& blend, const std::vector<Varied>& figures, const Targets& targets);

}  // namespace heapwright
