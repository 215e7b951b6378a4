#pragma once
/// Columns whose names seem to say the other scale: asked about only where no pile can have had what they show.

#include <optional>
#include <vector>

#include "heapwright/maturity/log_summary.hpp"

namespace heapwright {

/// The reading that makes one ask.
struct ScaleInDoubt {
  TemperatureScale written;
  PileReading reading;
  bool felt_hot = false;              ///< by hand on that day
  std::optional<PileReading> from{};  ///< frozen, days before
};

/// Of a column in °C: a reading that no pile gets to. Of columns in °F, none of them warm: a day on which a hand felt it hot, or a frozen
/// pile that warms in days, step by step, which ice does not.
std::optional<ScaleInDoubt> scale_in_doubt(const TemperatureLog& log, const std::vector<CoreReading>& by_hand);

}  // namespace heapwright
