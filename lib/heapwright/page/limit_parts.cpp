#include "heapwright/page/limit_parts.hpp"

namespace heapwright {

Words bound_words(const Bound& bound, const Tested& value) {
  switch (bound.side) {
    case Bound::Side::below: return say("below {}", value);
    case Bound::Side::at_most: return say("at most {}", value);
    case Bound::Side::above: return say("above {}", value);
    case Bound::Side::at_least: return say("at least {}", value);
  }
  return {};
}

Words bound_words(const Bound& bound, TestQuantity measured) { return bound_words(bound, Tested{measured, bound.value}); }

}  // namespace heapwright
