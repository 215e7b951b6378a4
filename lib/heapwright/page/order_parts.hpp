#pragma once
/// What the pages say of an order of compost. Not installed: users of the library get whole pages.

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/page/parts.hpp"

namespace heapwright {

/// The line for the phone: line one of a topdressing.
void say_order(PageWriter& writer, const Topdressing& topdressing);
/// What it costs, what a step or a load less would be, what else there is.
void add_order(Labels& labels, const Topdressing& topdressing, const Materials& materials);
/// "13 cu yd in 2 loads"
Words in_loads(const OrderLine& line);
/// Each offer with what it comes to, and the order load by load.
void say_why_of_order(PageWriter& writer, const Topdressing& topdressing, const Materials& materials);

}  // namespace heapwright
