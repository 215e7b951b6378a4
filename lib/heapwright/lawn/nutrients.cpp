#include "heapwright/lawn/nutrients.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

/// How far the ends of a figure lie from what is typical, relative to it.
struct SpreadAround {
  double below = 0.0;
  double above = 0.0;
};

/// Independent figures of one product: squares add.
SpreadAround operator+(SpreadAround one, SpreadAround other) {
  return {std::hypot(one.below, other.below), std::hypot(one.above, other.above)};
}

SpreadAround spread_between(double low, double typical, double high) {
  if (!(typical > 0.0)) return {};
  return {1.0 - low / typical, high / typical - 1.0};
}

template <class Quantity>
SpreadAround spread_of_figure(const PublishedValue<Quantity>& figure) {
  const Quantity typical = *figure.typical;
  return spread_between(figure.low.value_or(typical).value(), typical.value(), figure.high.value_or(typical).value());
}

/// Of the dry share, which is least where the moisture is highest.
SpreadAround spread_of_dry_share(const PublishedValue<MoistureWetBasis>& moisture) {
  const MoistureWetBasis typical = *moisture.typical;
  return spread_between(1.0 - moisture.high.value_or(typical).value(), 1.0 - typical.value(), 1.0 - moisture.low.value_or(typical).value());
}

struct DryCompost {
  DryMassPerArea mass;
  SpreadAround spread;
};

DryCompost dry_compost_on(Length depth, const CompostContents& contents) {
  const MassPerArea as_is = depth * *contents.bulk_density.typical;
  const double dry_share = 1.0 - contents.moisture.typical->value();
  return {dry_share * as_is * (unit::kg_dry / unit::kg), spread_of_figure(contents.bulk_density) + spread_of_dry_share(contents.moisture)};
}

template <class PerArea, class Content>
std::optional<LikelyBand<PerArea>> brought(const DryCompost& dry, const std::optional<CompostFigure<Content>>& content) {
  if (!content) return std::nullopt;
  const PerArea likely = dry.mass * *content->typical;
  const SpreadAround spread = dry.spread + spread_of_figure(*content);
  return LikelyBand<PerArea>{std::max(0.0, 1.0 - spread.below) * likely, likely, (1.0 + spread.above) * likely};
}

/// The row of a C:N, or the last one with shares where that lies above it.
const PublishedValue<FreedShare>& share_at_end(const NutrientKnowledge& knowledge, CarbonNitrogenRatio ratio,
                                               const PublishedValue<FreedShare>& likely) {
  const NitrogenRelease* row = release_at(knowledge, ratio);
  if (row != nullptr && row->first_year) return *row->first_year;
  const auto last = std::find_if(knowledge.nitrogen_release.rbegin(), knowledge.nitrogen_release.rend(),
                                 [](const NitrogenRelease& one) { return one.first_year.has_value(); });
  return last == knowledge.nitrogen_release.rend() ? likely : *last->first_year;
}

/// The share that comes free; nothing where the typical C:N ties nitrogen up.
std::optional<LikelyBand<FreedShare>> freed_share(const PublishedValue<CarbonNitrogenRatio>& ratio, const NutrientKnowledge& knowledge) {
  const NitrogenRelease* row = release_at(knowledge, *ratio.typical);
  if (row == nullptr || !row->first_year) return std::nullopt;
  const PublishedValue<FreedShare>& likely = *row->first_year;
  const PublishedValue<FreedShare>& worst = ratio.high ? share_at_end(knowledge, *ratio.high, likely) : likely;
  const PublishedValue<FreedShare>& best = ratio.low ? share_at_end(knowledge, *ratio.low, likely) : likely;
  return LikelyBand<FreedShare>{std::min(*likely.low, *worst.low), *likely.typical, std::max(*likely.high, *best.high)};
}

}  // namespace

Nutrients nutrients_of(Length depth, const CompostContents& contents, const NutrientKnowledge& knowledge) {
  if (!is_positive(depth)) throw DomainError("a topdressing has a depth", "write \"1/4 in\"");
  const DryCompost dry = dry_compost_on(depth, contents);
  Nutrients nutrients;
  nutrients.dry_matter = dry.mass;
  nutrients.nitrogen = brought<NitrogenPerArea>(dry, contents.nitrogen);
  nutrients.phosphate = brought<PhosphatePerArea>(dry, contents.phosphate);
  nutrients.potash = brought<PotashPerArea>(dry, contents.potash);
  if (!nutrients.nitrogen || !contents.carbon_to_nitrogen) return nutrients;
  nutrients.freed = freed_share(*contents.carbon_to_nitrogen, knowledge);
  nutrients.ties_up_nitrogen = !nutrients.freed;
  if (!nutrients.freed) return nutrients;
  const NitrogenPerArea all = nutrients.nitrogen->likely;
  nutrients.nitrogen_first_year =
      LikelyBand<NitrogenPerArea>{nutrients.freed->low * all, nutrients.freed->likely * all, nutrients.freed->high * all};
  return nutrients;
}

std::optional<NitrogenCredit> credit_of(const Nutrients& nutrients, int times_a_year, const std::optional<SoilTest>& soil_test) {
  if (!nutrients.nitrogen_first_year || !soil_test || !soil_test->nitrogen_recommended) return std::nullopt;
  const NitrogenPerArea recommended = *soil_test->nitrogen_recommended;
  if (!is_positive(recommended)) return std::nullopt;
  const auto share = [&](NitrogenPerArea freed) { return times_a_year * (freed / recommended).value(); };
  const LikelyBand<NitrogenPerArea>& freed = *nutrients.nitrogen_first_year;
  return NitrogenCredit{recommended, {share(freed.low), share(freed.likely), share(freed.high)}};
}

}  // namespace heapwright
