#include "heapwright/report/json.hpp"
#include "heapwright/report/json_parts.hpp"

namespace heapwright {
namespace {

template <class Quantity>
Json band_json(const Band<Quantity>& band) {
  return {{"low", band.low.value()}, {"high", band.high.value()}};
}

Json ranges_json(const std::optional<MixRanges>& ranges) {
  if (!ranges) return nullptr;
  Json json;
  json["carbon_to_nitrogen"] = ranges->carbon_to_nitrogen ? band_json(*ranges->carbon_to_nitrogen) : Json(nullptr);
  json["moisture_fraction"] = band_json(ranges->moisture);
  json["air_space_fraction"] = ranges->air_space ? band_json(*ranges->air_space) : Json(nullptr);
  json["chance_carbon_to_nitrogen_in_window"] = ranges->chance_carbon_to_nitrogen_in_window;
  json["chance_moisture_in_window"] = ranges->chance_moisture_in_window;
  const auto words = [](const std::string& what) { return what.empty() ? Json(nullptr) : Json(what); };
  json["carbon_to_nitrogen_rests_on"] = words(ranges->ratio_rests_on);
  json["moisture_rests_on"] = words(ranges->moisture_rests_on);
  return json;
}

Json what_rots_json(const std::optional<WhatRots>& found) {
  if (!found) return nullptr;
  return {{"carbon_to_nitrogen", found->carbon_to_nitrogen.value()}, {"hardly_rots", found->hardly_rots}};
}

}  // namespace

Json mix_json(const Mix& mix) {
  Json feedstocks = Json::array();
  for (const MixPart& part : mix.parts)
    feedstocks.push_back({{"id", part.id},
                          {"supply", supply_json(part.supply)},
                          {"mass_kg", part.mass.value()},
                          {"volume_m3", optional_si(part.volume)},
                          {"share_of_volume", optional_si(part.share)}});
  return {{"mass_kg", mix.mass.value()},
          {"dry_mass_kg", mix.dry.value()},
          {"water_kg", mix.water.value()},
          {"carbon_kg", mix.carbon.value()},
          {"nitrogen_kg", mix.nitrogen.value()},
          {"organic_matter_kg", mix.organic_matter.value()},
          {"carbon_to_nitrogen", optional_si(mix.carbon_to_nitrogen)},
          {"moisture_fraction", optional_si(mix.moisture)},
          {"volume_m3", optional_si(mix.volume)},
          {"bulk_density_kg_m3", optional_si(mix.bulk_density)},
          {"air_space_fraction", optional_si(mix.air_space)},
          {"ranges", ranges_json(mix.ranges)},
          {"what_rots", what_rots_json(mix.what_rots)},
          {"feedstocks", std::move(feedstocks)}};
}

std::string json_of_mix(const Answer<MixOnHand>& answer, const Materials& materials) {
  return printed(with_grounds({{"mix", answer->mix ? mix_json(*answer->mix) : Json(nullptr)}}, answer, materials));
}

}  // namespace heapwright
