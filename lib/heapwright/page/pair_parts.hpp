#pragma once
/// What the pages say of two feedstocks and all their mixes. Not installed: users of the library get whole pages.

#include "heapwright/page/parts.hpp"

namespace heapwright {

/// The everyday proportions with what each makes, and where they are right.
void say_pair(PageWriter& writer, const Pair& pair, const Targets& targets);
/// How many bags of leaves a catcher of clippings wants, by how both lie.
void say_bags_to_a_catcher(PageWriter& writer, const BagsToACatcher& table, const Targets& targets, const Materials& materials);

}  // namespace heapwright
