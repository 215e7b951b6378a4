#include "heapwright/mix/pair.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/mix/constituents.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// Whether a goal lies between two, or is met by the first as it is. NaN fails.
template <class Quantity>
bool can_reach(Quantity goal, Quantity first, Quantity second) {
  return (first < goal && goal < second) || (second < goal && goal < first) || goal == first;
}

[[noreturn]] void refuse(const std::string& goal, const std::string& first, const std::string& second) {
  throw DomainError("no mix of the two reaches " + goal + ": they have " + first + " and " + second, "the goal must lie between the two");
}

/// What a cubic meter of one feedstock brings.
Constituents brought_by(const Ingredient& ingredient) {
  if (!ingredient.density || !is_positive(*ingredient.density))
    throw DomainError("no bulk density of " + ingredient.name + " is known, so a volume of it has no weight",
                      "give its bulk_density, or weigh a bucketful");
  return constituents_of(ingredient.properties, ingredient.density, 1.0 * unit::m3 * *ingredient.density);
}

/// A line over the share of the first, from its value at none to that at all of it.
template <class Quantity>
struct Line {
  Quantity at_none;
  Quantity at_all;
  /// Where it crosses zero, if it does.
  std::optional<double> zero() const {
    const Quantity none;
    const bool crosses = (at_none <= none && none <= at_all) || (at_all <= none && none <= at_none);
    if (at_none == at_all || !crosses) return std::nullopt;
    return std::clamp<double>(at_none / (at_none - at_all), 0.0, 1.0);
  }
  Line negative() const { return {-at_none, -at_all}; }
};

/// Carbon less so many times the nitrogen.
Line<CarbonMass> carbon_beyond(const Constituents& first, const Constituents& second, CarbonNitrogenRatio ratio) {
  const auto beyond = [&](const Constituents& one) { return CarbonMass(one.carbon - CarbonMass(ratio * one.nitrogen)); };
  return {beyond(second), beyond(first)};
}

/// Water less so much of the mass.
Line<WaterMass> water_beyond(const Constituents& first, const Constituents& second, MoistureWetBasis moisture) {
  const auto beyond = [&](const Constituents& one) { return WaterMass(one.water - WaterMass(moisture * one.mass())); };
  return {beyond(second), beyond(first)};
}

std::optional<PairWindow> window(double low, double high) {
  if (!(low <= high)) return std::nullopt;
  return PairWindow{ShareOfLooseVolume::of(low), ShareOfLooseVolume::of(high)};
}

/// Where a line is not above zero.
template <class Quantity>
std::optional<PairWindow> not_above_zero(const Line<Quantity>& line) {
  const Quantity none;
  if (line.at_none <= none && line.at_all <= none) return window(0.0, 1.0);
  const std::optional<double> crossing = line.zero();
  if (!crossing) return std::nullopt;
  return line.at_none <= none ? window(0.0, *crossing) : window(*crossing, 1.0);
}

std::optional<PairWindow> meeting(const std::optional<PairWindow>& a, const std::optional<PairWindow>& b) {
  if (!a || !b) return std::nullopt;
  const auto low = std::max(a->low, b->low);
  const auto high = std::min(a->high, b->high);
  return low <= high ? std::optional(PairWindow{low, high}) : std::nullopt;
}

PairMix mix_at(const Constituents& first, const Constituents& second, double s, const Targets& targets) {
  const Constituents both = s * first + (1.0 - s) * second;
  const MoistureWetBasis moisture = mix_formula::moisture(both.water, both.mass());
  PairMix mix{ShareOfLooseVolume::of(s), ShareOfMass::of(std::clamp<double>(s * first.mass() / both.mass(), 0.0, 1.0)), std::nullopt,
              moisture, WaterDensity()};
  if (is_positive(both.nitrogen)) mix.carbon_to_nitrogen = mix_formula::carbon_to_nitrogen(both.carbon, both.nitrogen);
  const MoistureWetBasis aim = targets.moisture.aim;
  if (moisture < just_below(targets.moisture.low) && aim < wet_basis(1.0))
    mix.water_wanted = (WaterMass(both.dry * to_dry_basis(aim)) - both.water) / (1.0 * unit::m3);
  return mix;
}

}  // namespace

Mass mass_for_moisture(Mass first, MoistureWetBasis first_moisture, MoistureWetBasis second_moisture, MoistureWetBasis goal) {
  if (!can_reach(goal, first_moisture, second_moisture))
    refuse(print_percent(goal, 3), print_percent(first_moisture, 3), print_percent(second_moisture, 3));
  if (goal == first_moisture) return 0.0 * unit::kg;
  return first * ((first_moisture - goal) / (goal - second_moisture));
}

Mass mass_for_carbon_to_nitrogen(Mass first, const Properties& a, const Properties& b, CarbonNitrogenRatio goal) {
  const CarbonNitrogenRatio ratio_a = a.carbon / a.nitrogen;
  const CarbonNitrogenRatio ratio_b = b.carbon / b.nitrogen;
  if (!can_reach(goal, ratio_a, ratio_b)) refuse(print_ratio(goal, 3), print_ratio(ratio_a, 3), print_ratio(ratio_b, 3));
  const double nitrogen = a.nitrogen / b.nitrogen;
  const double distance = goal == ratio_a ? 0.0 : static_cast<double>((goal - ratio_a) / (ratio_b - goal));
  const double dryness = dry_mass(first, a.moisture) / dry_mass(first, b.moisture);
  return first * (nitrogen * distance * dryness);
}

bool holds(const std::optional<PairWindow>& window, ShareOfLooseVolume share) {
  return window && window->low.value() - of_a_bound <= share.value() && share.value() <= window->high.value() + of_a_bound;
}

PairMix pair_mix(const Ingredient& first, const Ingredient& second, ShareOfLooseVolume share, const Targets& targets) {
  return mix_at(brought_by(first), brought_by(second), share.value(), targets);
}

Pair pair_of(const Ingredient& first, const Ingredient& second, const Targets& targets) {
  const Constituents a = brought_by(first);
  const Constituents b = brought_by(second);
  Pair pair{first.id, second.id, first.name, second.name, {}, {}, {}, {}, {}, {}, {}, {}};
  constexpr int steps = 40;
  for (int step = 0; step <= steps; ++step) pair.line.push_back(mix_at(a, b, static_cast<double>(step) / steps, targets));
  for (const PartsOfTwo& proportion : everyday_proportions) {
    const double share = static_cast<double>(proportion.first) / (proportion.first + proportion.second);
    pair.everyday.push_back(mix_at(a, b, share, targets));
  }
  const auto& ratio = targets.carbon_to_nitrogen;
  const auto& moisture = targets.moisture;
  const auto not_above = not_above_zero(carbon_beyond(a, b, just_above(ratio.high)));
  const auto not_below = not_above_zero(carbon_beyond(a, b, just_below(ratio.low)).negative());
  const bool nitrogen = is_positive(a.nitrogen) || is_positive(b.nitrogen);
  if (nitrogen) pair.right_ratio = meeting(not_above, not_below);
  const auto no_wetter = not_above_zero(water_beyond(a, b, just_above(moisture.high)));
  pair.right_moisture = meeting(no_wetter, not_above_zero(water_beyond(a, b, just_below(moisture.low)).negative()));
  pair.both_right = meeting(pair.right_ratio, pair.right_moisture);
  pair.right_with_water = meeting(pair.right_ratio, no_wetter);
  const auto at = [&](const auto& line) -> std::optional<PairMix> {
    const std::optional<double> share = line.zero();
    if (!share) return std::nullopt;
    return mix_at(a, b, *share, targets);
  };
  if (nitrogen) pair.at_ratio_aim = at(carbon_beyond(a, b, ratio.aim));
  pair.at_moisture_aim = at(water_beyond(a, b, moisture.aim));
  return pair;
}

}  // namespace heapwright
