#include "heapwright/mix/answer.hpp"

#include <algorithm>

namespace heapwright {

void take_in(Grounds& whole, const Grounds& part) {
  for (const Assumption& assumption : part.assumptions) {
    const auto same = [&](const Assumption& known) { return known.what == assumption.what && known.value == assumption.value; };
    if (std::none_of(whole.assumptions.begin(), whole.assumptions.end(), same)) whole.assumptions.push_back(assumption);
  }
  for (const std::string& id : part.cautions) {
    if (std::find(whole.cautions.begin(), whole.cautions.end(), id) == whole.cautions.end()) whole.cautions.push_back(id);
  }
  if (!whole.measure_first) whole.measure_first = part.measure_first;
}

}  // namespace heapwright
