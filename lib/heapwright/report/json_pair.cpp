#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

Json pair_mix_json(const PairMix& mix) {
  return {{"share_of_volume", mix.by_volume.value()},
          {"share_of_mass", mix.by_mass.value()},
          {"carbon_to_nitrogen", optional_si(mix.carbon_to_nitrogen)},
          {"moisture_fraction", mix.moisture.value()},
          {"water_wanted_kg_m3", mix.water_wanted.value()}};
}

Json pair_mix_json(const std::optional<PairMix>& mix) { return mix ? pair_mix_json(*mix) : Json(nullptr); }

Json pair_window_json(const std::optional<PairWindow>& window) {
  if (!window) return nullptr;
  return {{"low", window->low.value()}, {"high", window->high.value()}};
}

Json bags_for_one_json(const BagsForOne& row) {
  return {{"leaves_lie", row.leaves_lie},
          {"clippings_lie", row.clippings_lie},
          {"wilted", row.wilted},
          {"bags", row.bags},
          {"low", row.low},
          {"high", optional_json(row.high)},
          {"moisture_fraction", row.moisture.value()}};
}

}  // namespace

Json bags_to_a_catcher_json(const std::optional<BagsToACatcher>& table) {
  if (!table) return nullptr;
  Json rows = Json::array();
  for (const BagsForOne& row : table->rows) rows.push_back(bags_for_one_json(row));
  return {{"leaves", table->leaves},
          {"clippings", table->clippings},
          {"bag", table->bag.container},
          {"bag_m3", table->bag.each.value()},
          {"catcher", table->catcher.container},
          {"catcher_m3", table->catcher.each.value()},
          {"carbon_to_nitrogen", table->aim.value()},
          {"wilted_to_moisture_fraction", wilted_clippings.value()},
          {"rows", std::move(rows)}};
}

Json pair_json(const Pair& pair) {
  Json everyday = Json::array();
  for (std::size_t i = 0; i < pair.everyday.size(); ++i) {
    const PartsOfTwo& proportion = everyday_proportions.at(i);
    Json entry{{"first", proportion.first}, {"second", proportion.second}};
    entry.update(pair_mix_json(pair.everyday[i]));
    everyday.push_back(std::move(entry));
  }
  // Windows and mixes are by the first's share of the loose volume.
  return {{"first", pair.first},
          {"second", pair.second},
          {"proportions", std::move(everyday)},
          {"share_of_volume_where_carbon_to_nitrogen_is_right", pair_window_json(pair.right_ratio)},
          {"share_of_volume_where_moisture_is_right", pair_window_json(pair.right_moisture)},
          {"share_of_volume_where_both_are_right", pair_window_json(pair.both_right)},
          {"share_of_volume_where_both_are_right_with_water", pair_window_json(pair.right_with_water)},
          {"at_carbon_to_nitrogen_aim", pair_mix_json(pair.at_ratio_aim)},
          {"at_moisture_aim", pair_mix_json(pair.at_moisture_aim)}};
}

}  // namespace heapwright
