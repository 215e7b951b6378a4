#pragma once
/// What the pages of a topdressing say of nutrients, the soil test and the ground. Not installed.

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {

/// Above all else: why to spread none for now, and what to do instead. Nothing where there is no such reason.
void say_hold(PageWriter& writer, const Topdressing& topdressing);
/// What a spreading brings, what of its nitrogen feeds the grass, and what the soil test says.
void add_nutrients(Labels& labels, const Topdressing& topdressing, const Materials& materials);
/// Water and slopes.
void add_ground(Labels& labels, const SpreadingAdvice& advice);
/// How the nutrients were worked out, salts, and what was published of nitrogen.
void say_why_of_nutrients(PageWriter& writer, const Topdressing& topdressing, const Materials& materials);

}  // namespace heapwright
