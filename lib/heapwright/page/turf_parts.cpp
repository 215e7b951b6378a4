#include "heapwright/page/turf_parts.hpp"

namespace heapwright {
namespace {

/// In the unit of the value beside it; sizes are asked for in inches and in millimeters, and keep theirs.
Tested limit_value(TestQuantity measured, const TestValue& value) { return {measured, value, measured == TestQuantity::size}; }

/// "30 to 50"
Words limit_words(const TurfLimit& limit, TestQuantity measured) {
  if (limit.low && limit.high) return say("{} to {}", limit_value(measured, limit.low->value), limit_value(measured, limit.high->value));
  const Bound& bound = limit.low ? *limit.low : *limit.high;
  return bound_words(bound, limit_value(measured, bound.value));
}

}  // namespace

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

Words limit_with_owner(const TurfLimit& limit, TestQuantity measured) {
  return say("{} ({})", limit.specification, limit_words(limit, measured));
}

Words passes_and_fails(const std::vector<Words>& passes, const std::vector<Words>& fails) {
  std::vector<Words> both;
  if (!passes.empty()) both.push_back(say("passes {}", joined(passes)));
  if (!fails.empty()) both.push_back(say("fails {}", joined(fails)));
  return joined(both, "; ");
}

}  // namespace heapwright
