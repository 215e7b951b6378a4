#include "heapwright/page/mix_parts.hpp"

#include <algorithm>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {
namespace {

/// Air that is less than none is none.
Percent shown_air(AirLeft air) { return {std::max(0.0, air.value())}; }

Words ratio_that_works(const Targets& targets) {
  const auto& window = targets.carbon_to_nitrogen;
  return say("{} works", Between<CarbonNitrogenRatio>{window.low, window.high});
}

std::vector<Words> ratio_row(const Mix& mix, const Targets& targets) {
  Words likely;
  if (mix.ranges && mix.ranges->carbon_to_nitrogen)
    likely = say("likely {}", Between<CarbonNitrogenRatio>{mix.ranges->carbon_to_nitrogen->low, mix.ranges->carbon_to_nitrogen->high});
  return {"C:N ratio", say("about {}", *mix.carbon_to_nitrogen), likely,
          is_judged_by_what_rots(mix, targets) ? Words() : ratio_that_works(targets)};
}

std::vector<Words> what_rots_row(const Mix& mix, const Targets& targets) {
  return {"of what rots", say("about {}", mix.what_rots->carbon_to_nitrogen), Words(),
          is_judged_by_what_rots(mix, targets) ? ratio_that_works(targets) : Words()};
}

std::vector<Words> moisture_row(const Mix& mix, const Targets& targets) {
  Words likely;
  if (mix.ranges) likely = say("likely {}", Between<MoistureWetBasis>{mix.ranges->moisture.low, mix.ranges->moisture.high});
  return {"moisture", say("about {}", *mix.moisture), likely,
          say("{} works: a handful clumps", Between<MoistureWetBasis>{targets.moisture.low, targets.moisture.high})};
}

std::vector<Words> air_row(const Mix& mix, const Targets& targets) {
  Words likely;
  if (mix.ranges && mix.ranges->air_space && mix.ranges->air_space->high.value() >= 0.0)
    likely = say("likely {}", Between<Percent>{shown_air(mix.ranges->air_space->low), shown_air(mix.ranges->air_space->high)});
  const Words about = mix.air_space->value() < 0.0 ? Words("none") : say("about {}", Percent{mix.air_space->value()});
  return {"air", about, likely, say("at least {}", Percent{targets.least_air.value()})};
}

Words slight_fault_words(MixFault fault, std::string_view degree) {
  switch (fault) {
    case MixFault::too_brown: return say("{} brown", degree);
    case MixFault::too_green: return say("{} green", degree);
    case MixFault::too_wet: return say("{} wet", degree);
    case MixFault::too_dry: return say("{} dry", degree);
    case MixFault::no_nitrogen:
    case MixFault::no_room:
    case MixFault::short_of_air: break;
  }
  return fault_words(fault);
}

}  // namespace

bool is_a_little_off(const Mix& mix, const Targets& targets) { return distance_from_aim(mix, targets) <= hardly_off; }

Words fault_words(MixFault fault) {
  switch (fault) {
    case MixFault::no_nitrogen: return "without nitrogen: it will not rot";
    case MixFault::too_brown: return "slow and brown, short of nitrogen";
    case MixFault::too_green: return "too green: it will smell of ammonia";
    case MixFault::too_wet: return "too wet: it will pack down and smell";
    case MixFault::too_dry: return "too dry to rot";
    case MixFault::no_room: return "without air: it does not fit in that room";
    case MixFault::short_of_air: return "short of air";
  }
  return {};
}

Words character_words(const Mix& mix, const Targets& targets) {
  const std::string_view degree = is_a_little_off(mix, targets) ? "a little" : is_acceptable(mix, targets) ? "rather" : "";
  std::vector<Words> words;
  for (const MixFault fault : faults_of(mix, targets))
    words.push_back(degree.empty() ? fault_words(fault) : slight_fault_words(fault, degree));
  if (words.empty()) return "in balance";
  if (degree.empty()) return joined(words, "; ");
  return say("{}, and will work{}", listed(words), degree == "rather" ? ", but slower" : "");
}

Words judged_by_words(const Mix& mix, const Targets& targets) {
  if (!is_judged_by_what_rots(mix, targets)) return {};
  const std::vector<std::string>& names = mix.what_rots->hardly_rots;
  return say("by what rots in a season, C:N about {}: of {} hardly any does", mix.what_rots->carbon_to_nitrogen,
             listed({names.begin(), names.end()}));
}

Words ratio_words(const Mix& mix) { return mix.carbon_to_nitrogen ? say("C:N about {}", *mix.carbon_to_nitrogen) : Words("no nitrogen"); }

std::optional<ShareBars> shares_of(const Mix& mix) {
  const bool has_all = mix.volume && is_positive(mix.carbon) && is_positive(mix.nitrogen) && is_positive(mix.water);
  if (mix.parts.size() < 2 || !has_all) return std::nullopt;
  ShareBars bars{"Each feedstock's share", {"volume", "carbon", "nitrogen", "water"}, {}, {}};
  std::vector<Words> words;
  WaterMass added = mix.water;
  for (const MixPart& part : mix.parts) {
    if (!part.share || !is_positive(part.mass)) continue;
    added -= part.water;
    const double carbon = part.carbon / mix.carbon;
    const double nitrogen = part.nitrogen / mix.nitrogen;
    const double water = part.water / mix.water;
    bars.parts.push_back({part.name, {part.share->value(), carbon, nitrogen, water}});
    words.push_back(say("{}: {} of the volume, {} of the carbon, {} of the nitrogen, {} of the water", part.name,
                        Percent{part.share->value()}, Percent{carbon}, Percent{nitrogen}, Percent{water}));
  }
  constexpr double worth_a_part = 0.005;
  const double poured = added / mix.water;
  if (poured > worth_a_part) bars.parts.push_back({"water added", {0.0, 0.0, 0.0, poured}});
  bars.in_words = say("{}.", joined(words, "; "));
  return bars;
}

Grid figures_of(const Mix& mix, const Targets& targets) {
  Grid grid;
  if (mix.carbon_to_nitrogen) grid.rows.push_back(ratio_row(mix, targets));
  if (mix.what_rots) grid.rows.push_back(what_rots_row(mix, targets));
  if (mix.moisture) grid.rows.push_back(moisture_row(mix, targets));
  if (mix.air_space) grid.rows.push_back(air_row(mix, targets));
  return grid;
}

Words size_words(const Mix& mix) {
  if (!mix.volume) return {};
  const Words size = say("{}, {}", *mix.volume, mix.mass);
  return mix.bulk_density ? say("{}, {}", size, *mix.bulk_density) : size;
}

Words on_the_figures(const Mix& mix) {
  Words band;
  if (mix.ranges) {
    const std::string& most = mix.ranges->ratio_rests_on;
    band = say("Likely: eight times in ten, as published figures vary{}. ",
               most.starts_with("C:N") ? say(", most of all the {}, which only a laboratory can measure", most) : Words());
  }
  return say("{}The ratio counts carbon and nitrogen: 30 to 1 is not thirty buckets to one.", band);
}

}  // namespace heapwright
