#include "heapwright/plan/assumed.hpp"

#include <algorithm>

#include "heapwright/mix/assume.hpp"
#include "heapwright/mix/vary.hpp"

namespace heapwright {

void take_on(const Taken& taken, const Blend& blend, std::size_t ingredient, const Materials& materials,
             std::vector<Assumption>& assumptions) {
  for (Assumption& assumption : assumptions_of(*taken.supply, materials)) {
    assumption.could_change_answer = change_of_mix(blend, ingredient, taken, assumption);
    const auto known = std::find_if(assumptions.begin(), assumptions.end(), [&](const Assumption& other) {
      return other.what == assumption.what && other.value == assumption.value;
    });
    if (known == assumptions.end()) {
      assumptions.push_back(std::move(assumption));
    } else if (known->could_change_answer && assumption.could_change_answer) {  // two supplies of one feedstock move together
      *known->could_change_answer += *assumption.could_change_answer;
    }
  }
}

void assume_windows(const std::vector<Taken>& taken, std::vector<Assumption>& assumptions) {
  for (const bool storable : {true, false}) {
    std::string names;
    for (const Taken& one : taken) {
      const Supply& supply = *one.supply;
      const bool seasonal = supply.amount && !std::holds_alternative<std::monostate>(supply.when);
      if (seasonal && supply.storable == storable) names += (names.empty() ? "" : ", ") + supply.name();
    }
    if (names.empty()) continue;
    const std::string window = storable ? "stored, what came in over the twelve months before the pile is built"
                                        : "fresh, the last week's load, or what keeps from before where it keeps longer";
    assumptions.push_back({names, window, std::nullopt, std::nullopt, "judged by us", std::nullopt});
  }
}

}  // namespace heapwright
