#pragma once
/// Bounds in words. Not installed: users of the library get whole pages.

#include "heapwright/maturity/criteria.hpp"
#include "heapwright/page/words.hpp"

namespace heapwright {

/// "at most 25", of a value as it is to be shown.
Words bound_words(const Bound& bound, const Tested& value);
/// The same with its unit: "above 30 %".
Words bound_words(const Bound& bound, TestQuantity measured);

}  // namespace heapwright
