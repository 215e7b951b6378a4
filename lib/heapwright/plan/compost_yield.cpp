#include "heapwright/plan/compost_yield.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/process/contents.hpp"

namespace heapwright {
namespace {

CompostLeft left_after(const Mix& mix, OrganicMass coarse, ShareOfVolatileSolids lost, ShareOfVolume held_back, const YieldRule& rule) {
  const OrganicMass organic = std::max(coarse, lost.rest() * mix.organic_matter);
  const DryMass dry = ash_mass(mix.dry, mix.organic_matter) + as_dry_mass(organic);
  return compost_left(dry, organic, coarse, held_back, rule);
}

}  // namespace

CompostYield compost_yield(const Mix& mix, OrganicMass coarse, const YieldRule& rule) {
  const auto left = [&](ShareOfVolatileSolids lost) { return left_after(mix, coarse, lost, *rule.held_back_by_screen.typical, rule); };
  const PublishedValue<ShareOfVolatileSolids>& lost = rule.volatile_solids_lost;
  const double spread = spread_between(left(*lost.high).dry, left(*lost.low).dry);
  return yield_about(left(*lost.typical).volume, spread, rule);
}

OrganicMass coarse_wood_of(const Mix& mix, const Materials& materials, const ProcessEnsemble& ensemble) {
  return contents_of(mix, materials, ensemble, ensemble.best).coarse;
}

void assume_yield(std::vector<Assumption>& assumptions, double goes_in, const Mix& mix, OrganicMass coarse, const YieldRule& rule,
                  const Materials& materials, std::optional<Volume> needed) {
  const auto& lost = rule.volatile_solids_lost;
  const auto& held = rule.held_back_by_screen;
  const auto answer = [&](ShareOfVolatileSolids lost_at, ShareOfVolume held_at, double denser) {
    const Volume own = goes_in / denser * left_after(mix, coarse, lost_at, held_at, rule).volume;
    return needed ? std::max(Volume(), *needed - own) : own;
  };
  const Volume likely = answer(*lost.typical, *held.typical, 1.0);
  const auto change = [&](Volume one, Volume other) -> std::optional<double> {
    if (!is_positive(likely)) return std::nullopt;
    return apart(one, other) / likely;
  };
  assumptions.push_back({"organic matter gone when the pile is done", *lost.typical, *lost.low, *lost.high,
                         lost.source == "forecast" ? "the forecast" : source_words(materials, lost.source, lost.evidence),
                         change(answer(*lost.low, *held.typical, 1.0), answer(*lost.high, *held.typical, 1.0))});
  assumptions.push_back({"held back by the screen", *held.typical, *held.low, *held.high,
                         source_words(materials, held.source, held.evidence),
                         change(answer(*lost.typical, *held.low, 1.0), answer(*lost.typical, *held.high, 1.0))});
  const auto& moisture = rule.moisture_at_use;
  assumptions.push_back({"moisture of the finished compost", *moisture.typical, std::nullopt, std::nullopt,
                         source_words(materials, moisture.source, moisture.evidence), std::nullopt});
  const BulkDensity density = left_after(mix, coarse, *lost.typical, *held.typical, rule).density;
  const double times = spread_times(rule.density_spread);
  assumptions.push_back({"weight of the finished compost, screened", density, density / times, times * density,
                         "judged by us, from ten composts that a laboratory measured",
                         change(answer(*lost.typical, *held.typical, 1.0 / times), answer(*lost.typical, *held.typical, times))});
}

}  // namespace heapwright
