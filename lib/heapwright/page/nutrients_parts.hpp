#pragma once
/// What the pages of a topdressing say of nutrients, the soil test and the ground. Not installed.

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {

/// "Hold: spread no compost here until your extension office clears it." @pre there is a reason
Words hold_line(const SpreadingAdvice& advice);
/// Above all else: why to spread none for now, and what to do instead; what only the laboratory can say. Nothing where there is none of it.
void say_hold(PageWriter& writer, const Topdressing& topdressing);
/// How many sections that fills.
std::size_t sections_of_hold(const SpreadingAdvice& advice);
/// Right below an order: what in the compost's analysis is outside a limit for lawns, and the season to wait for.
void say_what_to_ask(PageWriter& writer, const Topdressing& topdressing);
/// What a spreading brings, what of its nitrogen feeds the grass, and what the soil test says.
void add_nutrients(Labels& labels, const Topdressing& topdressing, const Materials& materials);
/// What the soil test of one of several jobs says; nothing where it holds or there is none.
void add_soil_of_job(Labels& labels, const Words& job, const Topdressing& topdressing);
/// Water and slopes.
void add_ground(Labels& labels, const SpreadingAdvice& advice);
/// How the nutrients were worked out, salts, and what was published of nitrogen.
void say_why_of_nutrients(PageWriter& writer, const Topdressing& topdressing, const Materials& materials);

}  // namespace heapwright
