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
constexpr std::size_t most_columns = 1024;  // those of thousands of loads share them
constexpr std::size_t draws_abreast = 256;  // few enough to stay in the processor's cache

template <class Quantity>
using Drawn = std::array<Quantity, draws_abreast>;

/// An ingredient in each of the draws; what no figure moves is the same in all.
struct DrawnMatter {
  explicit DrawnMatter(const Matter& typical) : same(typical.properties), has_density(typical.density) {
    mass.fill(typical.mass);
    density.fill(typical.density.value_or(BulkDensity()));
    moisture.fill(same.moisture);
    carbon.fill(same.carbon);
    nitrogen.fill(same.nitrogen);
  }
  /// Of some draws, one after the other.
  MovableFigures some(std::size_t first, std::size_t count) {
    const auto of = [&](auto& column) { return std::span(column).subspan(first, count); };
    return {of(mass), has_density ? of(density) : std::span<BulkDensity>(), of(moisture), of(carbon), of(nitrogen)};
  }
  Matter at(std::size_t draw) const {
    Matter matter{same, has_density ? std::optional(density[draw]) : std::nullopt, mass[draw]};
    matter.properties.moisture = moisture[draw];
    matter.properties.carbon = carbon[draw];
    matter.properties.nitrogen = nitrogen[draw];
    return matter;
  }

  Properties same;
  bool has_density;
  Drawn<Mass> mass;
  Drawn<BulkDensity> density;
  Drawn<MoistureWetBasis> moisture;
  Drawn<CarbonDryBasis> carbon;
  Drawn<NitrogenDryBasis> nitrogen;
};

/// A fixed Sobol sequence (Boost.Random), a column for each figure. Its first point, which Boost leaves out, is 0 in all: without it the
/// rest is out of balance (Owen 2020, "On dropping the first Sobol' point", from memory). As it goes by Gray codes, the points of a block
/// are those of the first block, each with the bits changed that its own first point has set.
class SobolSequence {
 public:
  explicit SobolSequence(std::size_t figures) : engine_(std::max<std::size_t>(1, figures)), first_block_(figures), start_(figures) {
    for (std::size_t at = 1; at < draws_abreast; ++at) {
      for (Drawn<std::uint32_t>& column : first_block_) column[at] = engine_();
    }
  }
  /// In (0, 1).
  Drawn<double> column(std::size_t figure) const {
    Drawn<double> shares;
    const std::uint32_t start = start_[figure];
    const Drawn<std::uint32_t>& first = first_block_[figure];
    for (std::size_t at = 0; at < draws_abreast; ++at) shares[at] = (static_cast<double>(first[at] ^ start) + 0.5) * 0x1p-32;
    return shares;
  }
  void go_on() {
    for (std::uint32_t& start : start_) start = engine_();
    engine_.discard((draws_abreast - 1) * engine_.dimension());
  }

 private:
  boost::random::sobol_engine<std::uint32_t, 32> engine_;
  std::vector<Drawn<std::uint32_t>> first_block_;
  std::vector<std::uint32_t> start_;
};

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
    const bool is_below = share < share_below_;
    const double from_end = std::sqrt(is_below ? share * below_ : (1.0 - share) * above_);
    return is_below ? low_ + from_end : high_ - from_end;
  }

 private:
  double low_;
  double high_;
  double share_below_ = 1.0;
  double below_;
  double above_;
};

/// What a blend consists of in each of the draws (constituents.hpp); organic matter is not asked for.
struct DrawnConstituents {
  Drawn<WaterMass> water;
  Drawn<DryMass> dry{};
  Drawn<CarbonMass> carbon{};
  Drawn<NitrogenMass> nitrogen{};
  Drawn<Volume> loose{};
  Drawn<Volume> solids{};

  explicit DrawnConstituents(WaterMass added) { water.fill(added); }

  void add(const DrawnMatter& of) {
    using namespace mix_formula;
    for (std::size_t at = 0; at < draws_abreast; ++at) {
      const DryMass own_dry = dry_mass(of.mass[at], of.moisture[at]);
      water[at] += mix_formula::water(of.mass[at], of.moisture[at]);
      dry[at] += own_dry;
      carbon[at] += part_of_dry_matter(own_dry, of.carbon[at]);
      nitrogen[at] += part_of_dry_matter(own_dry, of.nitrogen[at]);
      solids[at] += Volume(solids_volume(own_dry, of.same.particle_density));
    }
    if (!of.has_density) return;
    for (std::size_t at = 0; at < draws_abreast; ++at) loose[at] += Volume(loose_volume(of.mass[at], of.density[at]));
  }
  Constituents at(std::size_t draw) const {
    return {water[draw], dry[draw], carbon[draw], nitrogen[draw], OrganicMass(), loose[draw], solids[draw]};
  }
};

DrawnConstituents constituents_of(const std::vector<DrawnMatter>& ingredients, const Blend& blend) {
  DrawnConstituents all(blend.added_water);
  for (const DrawnMatter& ingredient : ingredients) all.add(ingredient);
  return all;
}

/// What the draws of a mix come to.
struct Outcomes {
  std::vector<CarbonNitrogenRatio> ratios;
  std::vector<MoistureWetBasis> moistures;
  std::vector<AirLeft> airs;
};

void record(const Constituents& all, const Blend& blend, Outcomes& outcomes) {
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

std::vector<DrawnMatter> typical_of(const Blend& blend) { return {blend.ingredients.begin(), blend.ingredients.end()}; }

/// Calls take(ingredients) for each block of draws.
template <class Take>
void draw_each(const Blend& blend, const std::vector<Varied>& figures, Take take) {
  SobolSequence sobol(std::min(most_columns, figures.size()));
  Drawn<double> numbers;
  const std::vector<DrawnMatter> typical = typical_of(blend);
  std::vector<DrawnMatter> ingredients;
  for (std::size_t done = 0; done < draws; done += draws_abreast) {
    ingredients = typical;  // in the same memory
    for (std::size_t f = 0; f < figures.size(); ++f) {
      const Drawn<double> shares = sobol.column(f % most_columns);
      for (const auto& [ingredient, variation] : figures[f].of) {
        const Triangle triangle(variation);
        for (std::size_t at = 0; at < draws_abreast; ++at) numbers[at] = triangle.at(shares[at]);
        variation.apply(numbers, ingredients[ingredient].some(0, draws_abreast));
      }
    }
    take(ingredients);
    sobol.go_on();
  }
}

Outcomes draw(const Blend& blend, const std::vector<Varied>& figures) {
  Outcomes outcomes;
  outcomes.ratios.reserve(draws);
  outcomes.moistures.reserve(draws);
  outcomes.airs.reserve(draws);
  draw_each(blend, figures, [&](const std::vector<DrawnMatter>& ingredients) {
    const DrawnConstituents all = constituents_of(ingredients, blend);
    for (std::size_t at = 0; at < draws_abreast; ++at) record(all.at(at), blend, outcomes);
  });
  return outcomes;
}

/// The figures that move C:N and moisture most where one of them goes from its low to its high end and the others stay: two draws each.
class Widest {
 public:
  explicit Widest(MixRanges& ranges) : ranges_(ranges) {}

  void take(const Varied& figure, const Constituents& low, const Constituents& high) {
    const auto ratio = [](const Constituents& of) { return mix_formula::carbon_to_nitrogen(of.carbon, of.nitrogen); };
    const auto moisture = [](const Constituents& of) { return MoistureWetBasis(mix_formula::moisture(of.water, of.mass())); };
    const bool ratios = is_positive(low.nitrogen) && is_positive(high.nitrogen);
    if (ratios) keep_wider(CarbonNitrogenRatio(apart(ratio(high), ratio(low))), figure, ratio_, ranges_.ratio_rests_on);
    keep_wider(MoistureWetBasis(apart(moisture(high), moisture(low))), figure, moisture_, ranges_.moisture_rests_on);
  }

 private:
  template <class Quantity>
  static void keep_wider(Quantity move, const Varied& figure, Quantity& widest, std::string& rests_on) {
    if (!(move > widest)) return;
    widest = move;
    rests_on = figure.what;
  }

  MixRanges& ranges_;
  CarbonNitrogenRatio ratio_;
  MoistureWetBasis moisture_;
};

void say_what_it_rests_on(const Blend& blend, const std::vector<Varied>& figures, MixRanges& ranges) {
  constexpr std::size_t at_once = draws_abreast / 2;
  Widest widest(ranges);
  for (std::size_t from = 0; from < figures.size(); from += at_once) {
    const std::size_t to = std::min(figures.size(), from + at_once);
    std::vector<DrawnMatter> ingredients = typical_of(blend);
    for (std::size_t f = from; f < to; ++f) {
      for (const auto& [ingredient, variation] : figures[f].of) {
        variation.apply(std::array{variation.low(), variation.high()}, ingredients[ingredient].some(2 * (f - from), 2));
      }
    }
    const DrawnConstituents all = constituents_of(ingredients, blend);
    for (std::size_t f = from; f < to; ++f) widest.take(figures[f], all.at(2 * (f - from)), all.at(2 * (f - from) + 1));
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
  return figures;
}

std::vector<double> drawn_values(const Blend& blend, const std::vector<Varied>& figures,
                                 const std::function<double(const std::vector<Matter>&)>& value) {
  std::vector<double> values;
  values.reserve(draws);
  std::vector<Matter> matters(blend.ingredients.size());
  draw_each(blend, figures, [&](const std::vector<DrawnMatter>& ingredients) {
    for (std::size_t at = 0; at < draws_abreast; ++at) {
      std::transform(ingredients.begin(), ingredients.end(), matters.begin(), [at](const DrawnMatter& drawn) { return drawn.at(at); });
      values.push_back(value(matters));
    }
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
