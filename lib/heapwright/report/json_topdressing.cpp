#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {

Json topdressing_json(const Topdressing& topdressing) {
  Json mass = nullptr;
  if (const std::optional<MassRange>& range = topdressing.mass)
    mass = {{"low", range->low.value()}, {"likely", range->likely.value()}, {"high", range->high.value()}};
  return {{"area_m2", topdressing.area.value()},
          {"depth_m", topdressing.depth.value()},
          {"volume_m3", topdressing.volume.value()},
          {"volume_with_allowance_m3", topdressing.volume_with_allowance.value()},
          {"covers_m2", topdressing.covers.value()},
          {"mass_kg", std::move(mass)},
          {"per_year_m3", topdressing.per_year.value()},
          {"orders", nullptr},
          {"best_order", nullptr},
          {"phone_line", nullptr},
          {"wheelbarrow_loads", topdressing.wheelbarrow_loads},
          {"nutrients_kg_per_100m2", nullptr}};
}

std::string json_of_topdressing(const Answer<Topdressing>& answer, const Materials& materials) {
  return printed(with_grounds(topdressing_json(answer.result), answer, materials));
}

}  // namespace heapwright
