#pragma once
/// What the pages of maturity and of a topdressing say of limits for turf. Not installed.

#include <vector>

#include "heapwright/maturity/criteria.hpp"
#include "heapwright/page/words.hpp"

namespace heapwright {

/// "at most 25:1".
Words bound_words(const Bound& bound, const Tested& value);
Words bound_words(const Bound& bound, TestQuantity measured);

/// "Penn State (30 to 50)".
Words limit_with_owner(const TurfLimit& limit, TestQuantity measured);

/// "passes Penn State (30 to 50); fails UK data sheet (35 to 55)".
Words passes_and_fails(const std::vector<Words>& passes, const std::vector<Words>& fails);

}  // namespace heapwright
