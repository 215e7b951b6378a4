#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {

namespace {

Json zones_json(const Topdressing& topdressing) {
  Json zones = Json::array();
  for (const ZoneDressing& zone : topdressing.zones)
    zones.push_back({{"name", zone.name},
                     {"surface", surface_word(zone.surface)},
                     {"area_m2", zone.area.value()},
                     {"area_spread_m2", optional_si(zone.spread)},
                     {"depth_m", zone.depth.value()},
                     {"volume_m3", zone.volume.value()},
                     {"wheelbarrow_loads", zone.wheelbarrow_loads}});
  return zones;
}

}  // namespace

Json topdressing_json(const Topdressing& topdressing) {
  Json mass = nullptr;
  if (const std::optional<MassRange>& range = topdressing.mass)
    mass = {{"low", range->low.value()}, {"likely", range->likely.value()}, {"high", range->high.value()}};
  return {{"area_m2", topdressing.area.value()},
          {"area_spread_m2", optional_si(topdressing.spread)},
          {"zones", zones_json(topdressing)},
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
