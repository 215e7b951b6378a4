#pragma once
/// What the pages of a topdressing say of the compost of one's own pile.

#include "heapwright/lawn/spreading.hpp"
#include "heapwright/page/page.hpp"
#include "heapwright/plan/answers.hpp"

namespace heapwright {

/// Right below the order or what stands in its place: compost that its own tests and checks keep off a lawn. Nothing of any other.
/// @param page of a topdressing @param advice of the same
void say_own_compost(Page& page, const SpreadingAdvice& advice, const YardCompost& compost);

}  // namespace heapwright
