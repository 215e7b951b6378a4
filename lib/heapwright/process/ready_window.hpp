#pragma once
/// When a pile is ready: early, likely and late.

#include <optional>
#include <vector>

#include "heapwright/process/trajectory.hpp"

namespace heapwright {

inline constexpr int horizon = 3 * 365;  ///< days that a pile is followed

/// In days after it was built. Absent where that is beyond the horizon.
struct ReadyWindow {
  std::optional<int> early;
  std::optional<int> likely;
  std::optional<int> late;
};

/// Days that none counts as later than any, in their order.
using DaysOrNever = std::vector<std::optional<int>>;
DaysOrNever in_order(DaysOrNever days);
/// Of days in their order, the one in the middle; of an even number the later of the two.
std::optional<int> middle_of(const DaysOrNever& days);

/// What most of some days are: without the lowest tenth and the highest. Of days as they are, in their order.
ReadyWindow middle_eight_tenths(const DaysOrNever& days);

/// When a pile is ready, three weeks of curing included, by the trajectory that is shown and all its sets. Early and late hold eight of
/// ten sets and are no nearer to the likely day than the model is known to miss published trials by: from 0.7 times as long, of the days on
/// which it works, to 1.7 times (README.md; judged).
/// @param likely when the trajectory shown meets the limits
ReadyWindow ready_window(const Trajectory& trajectory, std::optional<int> likely, const DaysOrNever& sets);

}  // namespace heapwright
