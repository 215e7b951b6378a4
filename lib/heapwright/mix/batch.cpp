#include "heapwright/mix/batch.hpp"

namespace heapwright {
namespace {

std::string whose_amount(const Supply& supply) {
  if (supply.estimated) return supply.estimated->words + ": " + supply.estimated->evidence;
  const bool seasonal = !std::holds_alternative<std::monostate>(supply.when);
  return seasonal ? "your own figure, and when it comes in" : "your own figure";
}

}  // namespace

Portion portion_on_hand(const Supply& supply, const Amount& on_hand) {
  return {supply, *supply.mass(on_hand), on_hand, whose_amount(supply)};
}

}  // namespace heapwright
