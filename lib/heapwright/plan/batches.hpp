#pragma once
/// What a yard's bins are filled with, one after the other, and when each filling is compost.

#include <optional>
#include <vector>

#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/season_of_yard.hpp"

namespace heapwright {

/// One filling of a bin or a place.
struct CompostBatch {
  int bin = 0;  ///< of those described, from 1; 0: none is free, and it wants a place of its own
  Date from;    ///< the first that goes in
  Date until;   ///< the last
  Mix mix;      ///< of all that goes in; of the first pile without what comes week by week
  std::optional<Date> early;
  std::optional<Date> likely;  ///< fit for a lawn, its rest included; nothing where it does not get there
  std::optional<Date> late;
  std::optional<CompostYield> screened;
};

/// The window of the likelier branch, of a pile that may or may not heat.
ReadyWindow likelier_window(const Forecast& forecast);

/// The first pile as it is forecast, and after it what comes week by week: into the same pile where that is filled as it comes and has
/// room, else into the next bin that is free, until that is full or the season ends. Each after the first by the best set alone and as wide
/// as the model is known to be wrong.
/// @param first of a pile that has a forecast
/// @param season after it; where nothing comes in a season there is the first alone
std::vector<CompostBatch> batches_of(const Yard& yard, const YardForecast& first, const std::optional<YardSeason>& season);

}  // namespace heapwright
