#include "heapwright/mix/pair.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// Whether a goal lies between two, or is met by the first as it is. NaN fails.
bool can_reach(double goal, double first, double second) { return (goal - first) * (second - goal) > 0.0 || goal == first; }

[[noreturn]] void refuse(const std::string& goal, const std::string& first, const std::string& second) {
  throw DomainError("no mix of the two reaches " + goal + ": they have " + first + " and " + second, "the goal must lie between the two");
}

std::string percent(MoistureWetBasis moisture) { return print_number(100.0 * moisture.value(), 3) + " %"; }
std::string ratio(CarbonNitrogenRatio value) { return print_number(value.value(), 3) + ":1"; }

/// What a cubic meter of one feedstock brings.
Constituents brought_by(const Ingredient& ingredient) {
  if (!ingredient.density || !is_positive(*ingredient.density))
    throw DomainError("no bulk density of " + ingredient.name + " is known, so a volume of it has no weight",
                      "give its bulk_density, or weigh a bucketful");
  return constituents_of(ingredient.properties, ingredient.density, 1.0 * unit::m3 * *ingredient.density);
}

/// A line over the share of the first, from its value at none to that at all of it.
struct Line {
  double at_none;
  double at_all;
  /// Where it crosses zero, if it does.
  std::optional<double> zero() const {
    if (at_none == at_all || !(at_none * at_all <= 0.0)) return std::nullopt;
    return std::clamp(at_none / (at_none - at_all), 0.0, 1.0);
  }
};

/// Carbon less so many times the nitrogen.
Line carbon_beyond(const Constituents& first, const Constituents& second, CarbonNitrogenRatio ratio) {
  const auto beyond = [&](const Constituents& one) { return value_in(unit::kg_carbon, one.carbon - CarbonMass(ratio * one.nitrogen)); };
  return {beyond(second), beyond(first)};
}

/// Water less so much of the mass.
Line water_beyond(const Constituents& first, const Constituents& second, MoistureWetBasis moisture) {
  const auto beyond = [&](const Constituents& one) { return value_in(unit::kg_water, one.water - WaterMass(moisture * one.mass())); };
  return {beyond(second), beyond(first)};
}

Line negative(const Line& line) { return {-line.at_none, -line.at_all}; }

std::optional<PairWindow> window(double low, double high) {
  if (!(low <= high)) return std::nullopt;
  return PairWindow{ShareOfLooseVolume::of(low), ShareOfLooseVolume::of(high)};
}

/// Where a line is not above zero.
std::optional<PairWindow> not_above_zero(const Line& line) {
  if (line.at_none <= 0.0 && line.at_all <= 0.0) return window(0.0, 1.0);
  const std::optional<double> crossing = line.zero();
  if (!crossing) return std::nullopt;
  return line.at_none <= 0.0 ? window(0.0, *crossing) : window(*crossing, 1.0);
}

std::optional<PairWindow> meeting(const std::optional<PairWindow>& a, const std::optional<PairWindow>& b) {
  if (!a || !b) return std::nullopt;
  return window(std::max(a->low, b->low).value(), std::min(a->high, b->high).value());
}

PairMix mix_at(const Constituents& first, const Constituents& second, double s, const Targets& targets) {
  const Constituents both = s * first + (1.0 - s) * second;
  const MoistureWetBasis moisture = mix_formula::moisture(both.water, both.mass());
  PairMix mix{ShareOfLooseVolume::of(s), ShareOfMass::of(std::clamp<double>(s * first.mass() / both.mass(), 0.0, 1.0)), std::nullopt, moisture,
              WaterDensity()};
  if (is_positive(both.nitrogen)) mix.carbon_to_nitrogen = mix_formula::carbon_to_nitrogen(both.carbon, both.nitrogen);
  const MoistureWetBasis aim = targets.moisture.aim;
  if (moisture < just_below(targets.moisture.low) && aim < wet_basis(1.0))
    mix.water_wanted = (WaterMass(both.dry * to_dry_basis(aim)) - both.water) / (1.0 * unit::m3);
  return mix;
}

}  // namespace

Mass mass_for_moisture(Mass first, MoistureWetBasis first_moisture, MoistureWetBasis second_moisture, MoistureWetBasis goal) {
  if (!can_reach(goal.value(), first_moisture.value(), second_moisture.value()))
    refuse(percent(goal), percent(first_moisture), percent(second_moisture));
  if (goal == first_moisture) return 0.0 * unit::kg;
  return first * ((first_moisture - goal) / (goal - second_moisture)).value();
}

Mass mass_for_carbon_to_nitrogen(Mass first, const Properties& a, const Properties& b, CarbonNitrogenRatio goal) {
  const CarbonNitrogenRatio ratio_a = a.carbon / a.nitrogen;
  const CarbonNitrogenRatio ratio_b = b.carbon / b.nitrogen;
  if (!can_reach(goal.value(), ratio_a.value(), ratio_b.value())) refuse(ratio(goal), ratio(ratio_a), ratio(ratio_b));
  const double nitrogen = (a.nitrogen / b.nitrogen).value();
  const double distance = goal == ratio_a ? 0.0 : ((goal - ratio_a) / (ratio_b - goal)).value();
  const double dryness = (1.0 - a.moisture.value()) / (1.0 - b.moisture.value());
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
  Pair pair{first.id, second.id, first.name, second.name, {}, {}, {}, {}, {}, {}, {}};
  for (const PartsOfTwo& proportion : everyday_proportions) {
    const double share = static_cast<double>(proportion.first) / (proportion.first + proportion.second);
    pair.everyday.push_back(mix_at(a, b, share, targets));
  }
  const auto& ratio = targets.carbon_to_nitrogen;
  const auto& moisture = targets.moisture;
  const auto not_above = not_above_zero(carbon_beyond(a, b, just_above(ratio.high)));
  const auto not_below = not_above_zero(negative(carbon_beyond(a, b, just_below(ratio.low))));
  const bool nitrogen = is_positive(a.nitrogen) || is_positive(b.nitrogen);
  if (nitrogen) pair.right_ratio = meeting(not_above, not_below);
  const auto no_wetter = not_above_zero(water_beyond(a, b, just_above(moisture.high)));
  pair.right_moisture = meeting(no_wetter, not_above_zero(negative(water_beyond(a, b, just_below(moisture.low)))));
  pair.both_right = meeting(pair.right_ratio, pair.right_moisture);
  pair.right_with_water = meeting(pair.right_ratio, no_wetter);
  const auto at = [&](const Line& line) -> std::optional<PairMix> {
    const std::optional<double> share = line.zero();
    if (!share) return std::nullopt;
    return mix_at(a, b, *share, targets);
  };
  if (nitrogen) pair.at_ratio_aim = at(carbon_beyond(a, b, ratio.aim));
  pair.at_moisture_aim = at(water_beyond(a, b, moisture.aim));
  return pair;
}

}  // namespace heapwright
