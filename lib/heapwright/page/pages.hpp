#pragma once
/// A page for each answer: all that is said of it, in words, with its quantities.

#include "heapwright/page/page.hpp"
#include "heapwright/plan/plan.hpp"

namespace heapwright {

/// What to spread on a lawn.
Page topdressing_page(const Answer<Topdressing>& answer, const Materials& materials);
/// How far a volume goes, of a lawn where one is known.
Page coverage_page(const Answer<Topdressing>& covered, Volume volume, const Lawn& lawn, const Materials& materials);

/// What a pile is doing and what to do now; the log, the rules held against it and the forecast that it corrects.
Page readings_page(const Answer<YardReadings>& answer, const Materials& materials);
/// Whether compost is finished and fit for a lawn, and what to do next.
Page maturity_page(const Answer<YardCompost>& answer, const Materials& materials);

}  // namespace heapwright
