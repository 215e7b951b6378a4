#pragma once
/// What the pages of a topdressing and of a plan share. Not installed: users of the library get whole pages.

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {

/// What to spread, what to order, what it weighs, when again.
void say_topdressing(PageWriter& writer, const Topdressing& topdressing, const Materials& materials);

}  // namespace heapwright
