#pragma once
/// What the pages of a topdressing say of the compost of one's own pile.

#include "heapwright/lawn/spreading.hpp"
#include "heapwright/page/page.hpp"
#include "heapwright/plan/answers.hpp"

namespace heapwright {

/// Right below the order or what stands in its place: what its own tests, checks and reports say against compost on a lawn. Nothing
/// where they say nothing.
/// @param page of a topdressing @param advice of the same
void say_own_compost(Page& page, const SpreadingAdvice& advice, const YardCompost& compost, const Criteria& criteria);

}  // namespace heapwright
