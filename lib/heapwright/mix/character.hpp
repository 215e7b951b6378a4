#pragma once
/// What is wrong with a mix that is off its windows.

#include <optional>
#include <vector>

#include "heapwright/mix/mix.hpp"
#include "heapwright/mix/pair.hpp"
#include "heapwright/mix/targets.hpp"

namespace heapwright {

/// The C:N that says whether a mix is in balance: of all of it, or, where that is above its window and much hardly rots, of what rots in a
/// season. Nothing without nitrogen.
std::optional<CarbonNitrogenRatio> judged_ratio(const Mix& mix, const Targets& targets);
/// Whether it is of what rots.
bool is_judged_by_what_rots(const Mix& mix, const Targets& targets);

/// How a mix is off its windows, and what comes of it.
enum class MixFault {
  no_nitrogen,  ///< it will not rot
  too_brown,    ///< slow, short of nitrogen
  too_green,    ///< it will smell of ammonia
  too_wet,      ///< it will pack down and smell
  too_dry,      ///< to rot
  no_room,      ///< it does not fit in its volume
  short_of_air,
};

/// In the order of carbon, water and air; nothing of a mix in balance. What rounds to the edge counts as the edge: people see a C:N in
/// whole numbers and a moisture in whole percents.
std::vector<MixFault> faults_of(const Mix& mix, const Targets& targets);

/// Of a mix of two: too dry is no fault of it, for water mends that.
enum class PairVerdict { right, right_once_watered, at_the_edge, off };
PairVerdict verdict_of(const PairMix& mix, const Pair& pair, const Targets& targets);
/// What is wrong with one that is off. Without nitrogen it is too brown, as its neighbors in the table are.
std::vector<MixFault> faults_of(const PairMix& mix, const Targets& targets);

}  // namespace heapwright
