#include "heapwright/plan/compost_yield.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {
namespace {

Volume volume_left(const Mix& mix, const Compost& compost, double lost, double held_back, BulkDensity density) {
  const double dry_left = ash_mass(mix.dry, mix.organic_matter).value() + (1.0 - lost) * mix.organic_matter.value();
  const double moisture = used(compost.moisture)->value();
  return dry_left / (density.value() * (1.0 - moisture)) * (1.0 - held_back) * unit::m3;
}

}  // namespace

CompostYield compost_yield(const Mix& mix, const Compost& compost, const YieldRule& rule) {
  const auto& lost = rule.volatile_solids_lost;
  const auto& held = rule.held_back_by_screen;
  const Reading<BulkDensity>& density = compost.bulk_density.front();
  return {volume_left(mix, compost, lost.high->value(), held.high->value(), density.high.value_or(*density.typical)),
          volume_left(mix, compost, lost.typical->value(), held.typical->value(), *density.typical),
          volume_left(mix, compost, lost.low->value(), held.low->value(), density.low.value_or(*density.typical))};
}

void assume_yield(std::vector<Assumption>& assumptions, double goes_in, const Mix& mix, const Compost& compost, const YieldRule& rule,
                  const Materials& materials, std::optional<Volume> needed) {
  const auto& lost = rule.volatile_solids_lost;
  const auto& held = rule.held_back_by_screen;
  const auto& density = compost.bulk_density.front();
  const auto answer = [&](double lost_at, double held_at, BulkDensity density_at) {
    const double own = goes_in * volume_left(mix, compost, lost_at, held_at, density_at).value();
    return needed ? std::max(0.0, needed->value() - own) : own;
  };
  const double likely = answer(lost.typical->value(), held.typical->value(), *density.typical);
  const auto change = [&](double one, double other) -> std::optional<double> {
    if (!(likely > 0.0)) return std::nullopt;
    return std::abs(other - one) / likely;
  };
  assumptions.push_back({"organic matter gone when the heap is done", *lost.typical, *lost.low, *lost.high,
                         lost.source == "forecast" ? "the forecast" : source_words(materials, lost.source, lost.evidence),
                         change(answer(lost.low->value(), held.typical->value(), *density.typical),
                                answer(lost.high->value(), held.typical->value(), *density.typical))});
  assumptions.push_back({"held back by the screen", *held.typical, *held.low, *held.high,
                         source_words(materials, held.source, held.evidence),
                         change(answer(lost.typical->value(), held.low->value(), *density.typical),
                                answer(lost.typical->value(), held.high->value(), *density.typical))});
  const auto& moisture = compost.moisture.front();
  assumptions.push_back({"moisture of the finished compost", *moisture.typical, std::nullopt, std::nullopt,
                         source_words(materials, moisture.source, moisture.evidence), std::nullopt});
  if (!density.low || !density.high) return;
  assumptions.push_back({"weight of " + compost.name, *density.typical, *density.low, *density.high,
                         source_words(materials, density.source, density.evidence),
                         change(answer(lost.typical->value(), held.typical->value(), *density.low),
                                answer(lost.typical->value(), held.typical->value(), *density.high))});
}

}  // namespace heapwright
