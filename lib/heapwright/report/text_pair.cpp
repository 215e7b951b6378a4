#include "heapwright/page/pair_parts.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {

std::string text_of_pair(const Pair& pair, const Targets& targets, const Show& show) {
  PageWriter writer;
  say_pair(writer, pair, targets);
  return "\n" + text_of(std::move(writer).page(), show, Screen());
}

}  // namespace heapwright
