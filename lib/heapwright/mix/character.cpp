#include "heapwright/mix/character.hpp"

#include <optional>

namespace heapwright {
namespace {

// Half of the last digit that is shown.
const CarbonNitrogenRatio half_a_ratio = carbon_to_nitrogen(0.5);
const MoistureWetBasis half_a_percent = wet_basis(0.005);
constexpr double half_a_percent_of_air = 0.005;

std::optional<MixFault> fault_of(CarbonNitrogenRatio ratio, const Targets& targets) {
  if (ratio >= targets.carbon_to_nitrogen.high + half_a_ratio) return MixFault::too_brown;
  if (ratio < targets.carbon_to_nitrogen.low - half_a_ratio) return MixFault::too_green;
  return std::nullopt;
}

bool is_too_wet(MoistureWetBasis moisture, const Targets& targets) { return moisture >= targets.moisture.high + half_a_percent; }

bool is_too_dry(MoistureWetBasis moisture, const Targets& targets) { return moisture < targets.moisture.low - half_a_percent; }

std::optional<MixFault> fault_of(AirLeft air, const Targets& targets) {
  if (air < AirLeft::of(0.0)) return MixFault::no_room;
  if (short_of(air, targets.least_air) > half_a_percent_of_air) return MixFault::short_of_air;
  return std::nullopt;
}

void add(std::vector<MixFault>& faults, const std::optional<MixFault>& fault) {
  if (fault) faults.push_back(*fault);
}

}  // namespace

bool is_judged_by_what_rots(const Mix& mix, const Targets& targets) {
  return mix.what_rots && mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen > targets.carbon_to_nitrogen.high;
}

std::optional<CarbonNitrogenRatio> judged_ratio(const Mix& mix, const Targets& targets) {
  return is_judged_by_what_rots(mix, targets) ? mix.what_rots->carbon_to_nitrogen : mix.carbon_to_nitrogen;
}

std::vector<MixFault> faults_of(const Mix& mix, const Targets& targets) {
  std::vector<MixFault> faults;
  const std::optional<CarbonNitrogenRatio> ratio = judged_ratio(mix, targets);
  add(faults, ratio ? fault_of(*ratio, targets) : MixFault::no_nitrogen);
  if (mix.moisture && is_too_wet(*mix.moisture, targets)) faults.push_back(MixFault::too_wet);
  if (mix.moisture && is_too_dry(*mix.moisture, targets)) faults.push_back(MixFault::too_dry);
  if (mix.air_space) add(faults, fault_of(*mix.air_space, targets));
  return faults;
}

std::vector<MixFault> faults_of(const PairMix& mix, const Targets& targets) {
  std::vector<MixFault> faults;
  add(faults, mix.carbon_to_nitrogen ? fault_of(*mix.carbon_to_nitrogen, targets) : MixFault::too_brown);
  if (is_too_wet(mix.moisture, targets)) faults.push_back(MixFault::too_wet);
  return faults;
}

PairVerdict verdict_of(const PairMix& mix, const Pair& pair, const Targets& targets) {
  if (holds(pair.both_right, mix.by_volume)) return PairVerdict::right;
  if (holds(pair.right_with_water, mix.by_volume)) return PairVerdict::right_once_watered;
  return faults_of(mix, targets).empty() ? PairVerdict::at_the_edge : PairVerdict::off;
}

}  // namespace heapwright
