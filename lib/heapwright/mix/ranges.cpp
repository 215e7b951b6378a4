#include "heapwright/mix/ranges.hpp"

#include <boost/random/sobol.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <map>

#include "heapwright/mix/assume.hpp"

namespace heapwright {
namespace {

constexpr std::size_t draws = 4096;
constexpr std::size_t block = 256;  // of draws at a time, so that they stay in the processor's cache
constexpr double outside = 0.10;    // of the draws below the band, and as many above
constexpr std::size_t most_figures = 1024;

using Sobol = boost::random::sobol_engine<std::uint32_t, 32>;
using Column = std::array<double, block>;

/// The inverse of a triangle's distribution function.
class Triangle {
 public:
  Triangle(double low, double typical, double high)
      : low_(low), high_(high), share_below_(high > low ? std::clamp((typical - low) / (high - low), 0.0, 1.0) : 1.0) {
    below_ = (high - low) * (high - low) * share_below_;
    above_ = (high - low) * (high - low) * (1.0 - share_below_);
  }
  double at(double share) const {
    return share < share_below_ ? low_ + std::sqrt(share * below_) : high_ - std::sqrt((1.0 - share) * above_);
  }

 private:
  double low_;
  double high_;
  double share_below_;
  double below_;
  double above_;
};

Triangle triangle_of(const Variation& variation) { return {variation.low(), variation.typical(), variation.high()}; }

/// What the draws of a mix come to.
struct Outcomes {
  std::vector<double> ratios;
  std::vector<double> moistures;
  std::vector<double> airs;
};

void record(const Matter* matter, std::size_t count, const Blend& blend, Outcomes& outcomes) {
  double water = blend.added_water.value();
  double dry = 0.0;
  double carbon = 0.0;
  double nitrogen = 0.0;
  double loose = 0.0;
  double solids = 0.0;
  bool poured = true;
  for (std::size_t i = 0; i < count; ++i) {
    const Properties& properties = matter[i].properties;
    const double mass = matter[i].mass.value();
    const double own_water = mass * properties.moisture.value();
    const double own_dry = mass - own_water;
    const double own_carbon = own_dry * properties.carbon.value();
    water += own_water;
    dry += own_dry;
    carbon += own_carbon;
    nitrogen += own_dry * properties.nitrogen.value();
    solids += own_dry / properties.particle_density.value();
    if (matter[i].density) loose += mass / matter[i].density->value();
    poured = poured && (matter[i].density.has_value() || !(mass > 0.0));
  }
  outcomes.moistures.push_back(water / (water + dry));
  if (nitrogen > 0.0) outcomes.ratios.push_back(carbon / nitrogen);
  const double volume = blend.settling.value() * loose;
  if (poured && volume > 0.0) outcomes.airs.push_back(1.0 - (solids + water / water_kg_per_m3) / volume);
}

template <class Quantity>
double share_inside(const std::vector<double>& values, const Window<Quantity>& window) {
  const auto inside =
      std::count_if(values.begin(), values.end(), [&](double value) { return is_inside(from_si<Quantity>(value), window); });
  return static_cast<double>(inside) / static_cast<double>(draws);
}

/// Puts the values out of order.
Band<double> band_of(std::vector<double>& values) {
  const auto from_the_end = static_cast<std::ptrdiff_t>(outside * static_cast<double>(values.size()));
  const auto low = values.begin() + from_the_end;
  const auto high = values.end() - 1 - from_the_end;
  std::nth_element(values.begin(), low, values.end());
  std::nth_element(low + 1, high, values.end());  // the low end stays where it is
  return {*low, *high};
}

Outcomes draw(const Blend& blend, const std::vector<Varied>& figures) {
  std::vector<Matter> start(blend.ingredients.begin(), blend.ingredients.end());
  const std::size_t count = start.size();

  Outcomes outcomes;
  for (std::vector<double>* values : {&outcomes.ratios, &outcomes.moistures, &outcomes.airs}) values->reserve(draws);
  std::vector<Column> columns(figures.size());
  std::vector<Matter> matter(block * count);
  Sobol sobol(std::max<std::size_t>(1, figures.size()));
  for (std::size_t done = 0; done < draws; done += block) {
    for (std::size_t at = 0; at < block; ++at) {
      for (Column& column : columns) column[at] = (sobol() + 0.5) * 0x1p-32;
      std::copy(start.begin(), start.end(), matter.begin() + static_cast<std::ptrdiff_t>(at * count));
    }
    for (std::size_t f = 0; f < figures.size(); ++f) {
      for (const auto& [ingredient, variation] : figures[f].of) {
        const Triangle triangle = triangle_of(variation);
        for (std::size_t at = 0; at < block; ++at) variation.apply(triangle.at(columns[f][at]), matter[at * count + ingredient]);
      }
    }
    for (std::size_t at = 0; at < block; ++at) record(&matter[at * count], count, blend, outcomes);
  }
  return outcomes;
}

/// How far a mix moves where one figure goes from its low to its high end.
struct Move {
  double ratio;
  double moisture;
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
  return {ratios ? std::abs((*high.carbon_to_nitrogen - *low.carbon_to_nitrogen).value()) : 0.0,
          std::abs((*high.moisture - *low.moisture).value())};
}

void say_what_it_rests_on(const Blend& blend, const std::vector<Varied>& figures, MixRanges& ranges) {
  Move widest{0.0, 0.0};
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

MixRanges drawn_ranges(const Blend& blend, const std::vector<Varied>& figures, const Targets& targets) {
  Outcomes outcomes = draw(blend, figures);
  MixRanges ranges;
  ranges.chance_carbon_to_nitrogen_in_window = share_inside(outcomes.ratios, targets.carbon_to_nitrogen);
  ranges.chance_moisture_in_window = share_inside(outcomes.moistures, targets.moisture);
  const Band<double> moistures = band_of(outcomes.moistures);
  ranges.moisture = {wet_basis(moistures.low), wet_basis(moistures.high)};
  if (outcomes.ratios.size() == draws) {
    const Band<double> ratios = band_of(outcomes.ratios);
    ranges.carbon_to_nitrogen = {carbon_to_nitrogen(ratios.low), carbon_to_nitrogen(ratios.high)};
  }
  if (outcomes.airs.size() == draws) {
    const Band<double> airs = band_of(outcomes.airs);
    ranges.air_space = {AirLeft::of(airs.low), AirLeft::of(airs.high)};
  }
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
