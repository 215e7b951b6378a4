#include "heapwright/mix/ranges.hpp"

#include <boost/random/sobol.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>

#include "heapwright/mix/assume.hpp"
#include "heapwright/mix/constituents.hpp"

namespace heapwright {
namespace {

constexpr std::size_t draws = 4096;
constexpr std::size_t block = 256;  // of draws at a time, so that they stay in the processor's cache
constexpr std::size_t most_figures = 1024;

using Sobol = boost::random::sobol_engine<std::uint32_t, 32>;
using Column = std::array<double, block>;

/// The inverse of a triangle's distribution function. Boost.Math's checks its arguments at each of the 65,536 draws of an ordinary mix,
/// which makes them cost seven tenths more.
class Triangle {
 public:
  explicit Triangle(const Variation& variation) : low_(variation.low()), high_(variation.high()) {
    const double width = high_ - low_;
    if (width > 0.0) share_below_ = std::clamp((variation.typical() - low_) / width, 0.0, 1.0);
    below_ = width * width * share_below_;
    above_ = width * width * (1.0 - share_below_);
  }
  double at(double share) const {
    return share < share_below_ ? low_ + std::sqrt(share * below_) : high_ - std::sqrt((1.0 - share) * above_);
  }

 private:
  double low_;
  double high_;
  double share_below_ = 1.0;
  double below_;
  double above_;
};

/// What the draws of a mix come to.
struct Outcomes {
  std::vector<CarbonNitrogenRatio> ratios;
  std::vector<MoistureWetBasis> moistures;
  std::vector<AirLeft> airs;
};

/// An ingredient as it is in each draw of a block.
using Drawn = std::array<Matter, block>;

void record(const std::vector<Drawn>& ingredients, std::size_t at, const Blend& blend, Outcomes& outcomes) {
  Constituents all;
  all.water = blend.added_water;
  for (const Drawn& ingredient : ingredients) all += constituents_of(ingredient[at]);
  outcomes.moistures.push_back(mix_formula::moisture(all.water, all.mass()));
  if (is_positive(all.nitrogen)) outcomes.ratios.push_back(mix_formula::carbon_to_nitrogen(all.carbon, all.nitrogen));
  const Volume volume = blend.settling * all.loose;
  if (is_positive(volume)) outcomes.airs.push_back(AirLeft::of(share_of_air(all, volume)));
}

template <class Quantity>
double share_inside(const std::vector<Quantity>& values, const Window<Quantity>& window) {
  const auto inside = std::count_if(values.begin(), values.end(), [&](Quantity value) { return is_inside(value, window); });
  return static_cast<double>(inside) / static_cast<double>(draws);
}

/// Calls take(ingredients, at) for each draw.
template <class Take>
void draw_each(const Blend& blend, const std::vector<Varied>& figures, Take take) {
  std::vector<Column> columns(figures.size());
  std::vector<Drawn> ingredients(blend.ingredients.size());
  Sobol sobol(std::max<std::size_t>(1, figures.size()));
  for (std::size_t done = 0; done < draws; done += block) {
    for (std::size_t at = 0; at < block; ++at) {
      for (Column& column : columns) column[at] = (sobol() + 0.5) * 0x1p-32;
    }
    for (std::size_t i = 0; i < ingredients.size(); ++i) ingredients[i].fill(blend.ingredients[i]);
    for (std::size_t f = 0; f < figures.size(); ++f) {
      for (const auto& [ingredient, variation] : figures[f].of) {
        const Triangle triangle(variation);
        for (std::size_t at = 0; at < block; ++at) variation.apply(triangle.at(columns[f][at]), ingredients[ingredient][at]);
      }
    }
    for (std::size_t at = 0; at < block; ++at) take(ingredients, at);
  }
}

Outcomes draw(const Blend& blend, const std::vector<Varied>& figures) {
  Outcomes outcomes;
  outcomes.ratios.reserve(draws);
  outcomes.moistures.reserve(draws);
  outcomes.airs.reserve(draws);
  draw_each(blend, figures, [&](const std::vector<Drawn>& ingredients, std::size_t at) { record(ingredients, at, blend, outcomes); });
  return outcomes;
}

/// How far a mix moves where one figure goes from its low to its high end.
struct Move {
  CarbonNitrogenRatio ratio;
  MoistureWetBasis moisture;
};

Move move_of(const Blend& blend, const Varied& figure) {
  const auto mix_at = [&](double (Variation::*end)() const) {
    Blend other = blend;
    for (const auto& [ingredient, variation] : figure.of) variation.apply((variation.*end)(), other.ingredients[ingredient]);
    return mix_of(other);
  };
  const Mix low = mix_at(&Variation::low);
  const Mix high = mix_at(&Variation::high);
  const bool ratios = low.carbon_to_nitrogen && high.carbon_to_nitrogen;
  return {ratios ? apart(*high.carbon_to_nitrogen, *low.carbon_to_nitrogen) : CarbonNitrogenRatio(), apart(*high.moisture, *low.moisture)};
}

void say_what_it_rests_on(const Blend& blend, const std::vector<Varied>& figures, MixRanges& ranges) {
  Move widest;
  for (const Varied& figure : figures) {
    const Move move = move_of(blend, figure);
    if (move.ratio > widest.ratio) {
      widest.ratio = move.ratio;
      ranges.ratio_rests_on = figure.what;
    }
    if (move.moisture > widest.moisture) {
      widest.moisture = move.moisture;
      ranges.moisture_rests_on = figure.what;
    }
  }
}

}  // namespace

std::vector<Varied> varied(const Blend& blend, const std::vector<Taken>& taken, const Materials& materials) {
  std::vector<Varied> figures;
  std::map<FigureInUse, std::size_t> known;
  for (std::size_t i = 0; i < taken.size(); ++i) {
    for (const Assumption& assumption : assumptions_of(*taken[i].supply, materials)) {
      const auto variation = Variation::of(assumption, blend.ingredients.at(i), taken[i]);
      if (!variation) continue;
      const auto [place, is_new] = known.emplace(figure_in_use(assumption), figures.size());
      if (is_new) figures.push_back({assumption.what, {}});
      figures[place->second].of.emplace_back(i, *variation);
    }
  }
  if (figures.size() > most_figures) figures.resize(most_figures);
  return figures;
}

std::vector<double> drawn_values(const Blend& blend, const std::vector<Varied>& figures,
                                 const std::function<double(const std::vector<Matter>&)>& value) {
  std::vector<double> values;
  values.reserve(draws);
  std::vector<Matter> matters(blend.ingredients.size());
  draw_each(blend, figures, [&](const std::vector<Drawn>& ingredients, std::size_t at) {
    std::transform(ingredients.begin(), ingredients.end(), matters.begin(), [at](const Drawn& drawn) { return drawn[at]; });
    values.push_back(value(matters));
  });
  return values;
}

MixRanges drawn_ranges(const Blend& blend, const std::vector<Varied>& figures, const Targets& targets) {
  Outcomes outcomes = draw(blend, figures);
  MixRanges ranges;
  ranges.chance_carbon_to_nitrogen_in_window = share_inside(outcomes.ratios, targets.carbon_to_nitrogen);
  ranges.chance_moisture_in_window = share_inside(outcomes.moistures, targets.moisture);
  ranges.moisture = eight_of_ten(std::move(outcomes.moistures));
  if (outcomes.ratios.size() == draws) ranges.carbon_to_nitrogen = eight_of_ten(std::move(outcomes.ratios));
  if (outcomes.airs.size() == draws && has_volume(blend)) ranges.air_space = eight_of_ten(std::move(outcomes.airs));
  return ranges;
}

std::optional<MixRanges> ranges_of(const Blend& blend, const std::vector<Taken>& taken, const Targets& targets,
                                   const Materials& materials) {
  const bool something = std::any_of(blend.ingredients.begin(), blend.ingredients.end(),
                                     [](const Ingredient& ingredient) { return is_positive(ingredient.mass); });
  if (!something) return std::nullopt;
  const std::vector<Varied> figures = varied(blend, taken, materials);
  MixRanges ranges = drawn_ranges(blend, figures, targets);
  say_what_it_rests_on(blend, figures, ranges);
  return ranges;
}

}  // namespace heapwright
