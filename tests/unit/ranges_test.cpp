// Bands of a mix against a million draws by another generator, another way of drawing from a triangle, and the mix formulas a second time.

#include "heapwright/mix/ranges.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <random>

#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/assume.hpp"
#include "heapwright/yard/yard.hpp"

using namespace heapwright;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace {

// The standard error of a tenth percentile of n draws is 0.3/√n over the density there, about 1.7 standard deviations of the figure for
// each √n: of C:N that spreads by 15 % it is 0.026 % at a million draws and 0.08 % at a hundred thousand, of a chance at most 0.05 and 0.16
// points. Either is small against the tolerances below, which are for the 4096 draws of the command; the slower build therefore draws fewer
// and keeps them.
#if defined(__SANITIZE_ADDRESS__)
constexpr std::size_t reference_draws = 100000;
#else
constexpr std::size_t reference_draws = 1000000;
#endif
constexpr double of_an_end = 0.01;  // relative
constexpr double of_a_chance = 0.01;

/// A mix with what its answer is drawn from.
struct Counted {
  Yard yard;
  Blend blend;
  std::vector<Taken> taken;
};

/// Supplies of a yard file, all of each; `water` in kilograms.
Counted counted(const std::string& supplies, double water) {
  Counted mix{read_yard_text(supplies, "yard.toml", built_in_tables()), {}, {}};
  mix.blend.added_water = water * unit::kg_water;
  for (const Supply& supply : mix.yard.supplies) mix.blend.ingredients.push_back(supply.ingredient(*supply.mass(*supply.amount)));
  return mix;
}

/// Once the yard lies where it stays, since what is taken points into it.
const Counted& take(Counted& mix) {
  for (std::size_t i = 0; i < mix.yard.supplies.size(); ++i) mix.taken.push_back({&mix.yard.supplies[i], mix.blend.ingredients[i].mass});
  return mix;
}

MixRanges ranges(const Counted& mix) { return *ranges_of(mix.blend, mix.taken, mix.yard.targets, mix.yard.tables.materials); }

std::string supply(const std::string& lines) { return "[[supply]]\n" + lines; }

/// Low, typical and high of a figure, in SI; without a range all three are one.
struct Triangle {
  double low;
  double typical;
  double high;
};

template <class Quantity>
Triangle triangle(const PublishedValue<Quantity>& reading) {
  const double typical = reading.typical->value();
  if (!reading.low || !reading.high) return {typical, typical, typical};
  return {reading.low->value(), typical, reading.high->value()};
}

/// Of two even draws the lesser and the greater, weighed by where the peak is: the sum is triangular. (The tool inverts the distribution.)
double drawn(const Triangle& figure, std::mt19937_64& generator) {
  const auto even = [&] { return static_cast<double>(generator() >> 11) * 0x1p-53; };
  const double one = even();
  const double other = even();
  const double peak = figure.high > figure.low ? (figure.typical - figure.low) / (figure.high - figure.low) : 0.0;
  return figure.low + (figure.high - figure.low) * ((1.0 - peak) * std::min(one, other) + peak * std::max(one, other));
}

/// What of a supply varies, by the first reading of each figure, and what does not.
struct Figures {
  double count;  ///< of containers; of a weighed supply kilograms
  bool weighed;
  Triangle container;  ///< m3
  Triangle density;
  Triangle moisture;
  Triangle ratio;
  Triangle carbon;
  double solids_density;
};

Figures figures_of(const Supply& supply, const Materials& materials) {
  const Feedstock& row = supply.feedstock;
  Figures figures{};
  figures.density = triangle(row.find_packing(supply.packing)->values.front());
  figures.moisture = triangle(row.moisture.front());
  figures.ratio = triangle(row.carbon_to_nitrogen.front());
  figures.carbon = triangle(row.carbon.front());
  const double organic = row.used_organic_matter()->value();
  figures.solids_density = 1.0 / (organic / 1500.0 + (1.0 - organic) / 2650.0);  // densities as the page of the mix states them
  figures.weighed = std::holds_alternative<Mass>(*supply.amount);
  if (figures.weighed) {
    figures.count = std::get<Mass>(*supply.amount).value();
    return figures;
  }
  const auto& containers = std::get<ContainerCount>(*supply.amount);
  const Container* container = find_container(*materials.containers, containers.container);
  figures.count = containers.count;
  const double each = container->volume.value();
  figures.container =
      container->low && container->high ? Triangle{container->low->value(), each, container->high->value()} : Triangle{each, each, each};
  return figures;
}

struct Reference {
  std::array<double, 2> ratio;
  std::array<double, 2> moisture;
  std::array<double, 2> air;
  double chance_of_ratio;
  double chance_of_moisture;
};

std::array<double, 2> band(std::vector<double> values) {
  std::array<double, 2> ends{};
  for (std::size_t end = 0; end < 2; ++end) {
    const auto place = values.begin() + static_cast<std::ptrdiff_t>((end == 0 ? 0.1 : 0.9) * static_cast<double>(values.size()));
    std::nth_element(values.begin(), place, values.end());
    ends[end] = *place;
  }
  return ends;
}

double chance(const std::vector<double>& values, double low, double high) {
  const auto inside = std::count_if(values.begin(), values.end(), [&](double value) { return low <= value && value <= high; });
  return static_cast<double>(inside) / static_cast<double>(values.size());
}

/// Who counts containers puts in as many, whatever one holds and weighs; who weighs puts in the weight, whatever room it takes.
Reference reference(const Counted& mix) {
  std::vector<Figures> all;
  for (const Supply& supply : mix.yard.supplies) all.push_back(figures_of(supply, mix.yard.tables.materials));
  std::vector<double> ratios;
  std::vector<double> moistures;
  std::vector<double> airs;
  std::mt19937_64 generator(20261107);
  for (std::size_t draw = 0; draw < reference_draws; ++draw) {
    double water = mix.blend.added_water.value();
    double dry = 0.0;
    double carbon = 0.0;
    double nitrogen = 0.0;
    double volume = 0.0;
    double solids = 0.0;
    for (const Figures& figures : all) {
      const double density = drawn(figures.density, generator);
      const double loose = figures.weighed ? figures.count / density : figures.count * drawn(figures.container, generator);
      const double mass = figures.weighed ? figures.count : loose * density;
      const double moisture = drawn(figures.moisture, generator);
      const double own_dry = mass * (1.0 - moisture);
      const double own_carbon = own_dry * drawn(figures.carbon, generator);
      water += mass * moisture;
      dry += own_dry;
      carbon += own_carbon;
      nitrogen += own_carbon / drawn(figures.ratio, generator);
      volume += loose;
      solids += own_dry / figures.solids_density;
    }
    volume *= mix.blend.settling.value();
    ratios.push_back(carbon / nitrogen);
    moistures.push_back(water / (water + dry));
    airs.push_back(1.0 - (solids + water / 1000.0) / volume);
  }
  return {band(ratios), band(moistures), band(airs), chance(ratios, 25.0, 35.0), chance(moistures, 0.50, 0.60)};
}

void check_against_reference(const Counted& mix) {
  const MixRanges found = ranges(mix);
  const Reference expected = reference(mix);
  REQUIRE(found.carbon_to_nitrogen);
  REQUIRE(found.air_space);
  CHECK_THAT(found.carbon_to_nitrogen->low.value(), WithinRel(expected.ratio[0], of_an_end));
  CHECK_THAT(found.carbon_to_nitrogen->high.value(), WithinRel(expected.ratio[1], of_an_end));
  CHECK_THAT(found.moisture.low.value(), WithinRel(expected.moisture[0], of_an_end));
  CHECK_THAT(found.moisture.high.value(), WithinRel(expected.moisture[1], of_an_end));
  CHECK_THAT(found.air_space->low.value(), WithinRel(expected.air[0], of_an_end));
  CHECK_THAT(found.air_space->high.value(), WithinRel(expected.air[1], of_an_end));
  CHECK_THAT(found.chance_carbon_to_nitrogen_in_window, WithinAbs(expected.chance_of_ratio, of_a_chance));
  CHECK_THAT(found.chance_moisture_in_window, WithinAbs(expected.chance_of_moisture, of_a_chance));
}

std::array<double, 8> numbers(const MixRanges& ranges) {
  return {ranges.carbon_to_nitrogen->low.value(),
          ranges.carbon_to_nitrogen->high.value(),
          ranges.moisture.low.value(),
          ranges.moisture.high.value(),
          ranges.air_space->low.value(),
          ranges.air_space->high.value(),
          ranges.chance_carbon_to_nitrogen_in_window,
          ranges.chance_moisture_in_window};
}

const std::string in_containers = supply("feedstock = \"leaves-fall\"\npacking = \"bagged\"\namount = \"15 leaf-bag\"\n") +
                                  supply("feedstock = \"grass-clippings\"\npacking = \"loose\"\namount = \"20 1/2 bucket\"\n") +
                                  supply("feedstock = \"kitchen-scraps\"\npacking = \"loose\"\namount = \"17 kitchen-pail\"\n");
const std::string by_weight = supply("feedstock = \"leaves-fall\"\npacking = \"bagged\"\namount = \"120 kg\"\n") +
                              supply("feedstock = \"grass-clippings\"\npacking = \"loose\"\namount = \"90 kg\"\n") +
                              supply("feedstock = \"kitchen-scraps\"\npacking = \"loose\"\namount = \"40 kg\"\n") +
                              supply("feedstock = \"coffee-grounds\"\npacking = \"loose\"\namount = \"60 kg\"\n") +
                              supply("feedstock = \"straw\"\npacking = \"loose\"\namount = \"25 kg\"\n") +
                              supply("feedstock = \"wood-chips\"\npacking = \"loose\"\namount = \"10 kg\"\n");

}  // namespace

TEST_CASE("the band of leaves, clippings and scraps in containers is that of a million other draws", "[slow]") {
  Counted mix = counted(in_containers, 3.0);
  check_against_reference(take(mix));
}

TEST_CASE("the band of six feedstocks by weight is that of a million other draws", "[slow]") {
  Counted mix = counted(by_weight, 40.0);
  check_against_reference(take(mix));
}

TEST_CASE("the band of a pile that settles to half is that of a million other draws", "[slow]") {
  Counted mix = counted(in_containers, 3.0);
  mix.blend.settling = ShareOfLooseVolume::of(0.5);
  check_against_reference(take(mix));
}

TEST_CASE("the same mix has the same band, to the last bit") {
  Counted mix = counted(in_containers, 3.0);
  take(mix);
  const std::array<double, 8> once = numbers(ranges(mix));
  const std::array<double, 8> again = numbers(ranges(mix));
  for (std::size_t i = 0; i < once.size(); ++i) CHECK(std::bit_cast<std::uint64_t>(once[i]) == std::bit_cast<std::uint64_t>(again[i]));
}

TEST_CASE("figures without ranges leave a band of no width") {
  Counted mix = counted(in_containers, 3.0);
  const auto settle = [](auto& readings) {
    for (auto& reading : readings) {
      reading.low.reset();
      reading.high.reset();
    }
  };
  for (Supply& supply : mix.yard.supplies) {
    settle(supply.feedstock.moisture);
    settle(supply.feedstock.carbon);
    settle(supply.feedstock.carbon_to_nitrogen);
    for (Packing& packing : supply.feedstock.packings) settle(packing.values);
  }
  std::vector<Container> containers = *mix.yard.tables.materials.containers;
  for (Container& container : containers) {
    container.low.reset();
    container.high.reset();
  }
  mix.yard.tables.materials.containers = Lazy(std::move(containers));
  take(mix);
  const Mix typical = mix_of(mix.blend);
  const double ratio = typical.carbon_to_nitrogen->value();
  const double moisture = typical.moisture->value();
  mix.yard.targets.carbon_to_nitrogen = {carbon_to_nitrogen(ratio - 0.1), carbon_to_nitrogen(ratio), carbon_to_nitrogen(ratio + 0.1)};
  mix.yard.targets.moisture = {wet_basis(moisture - 0.001), wet_basis(moisture), wet_basis(moisture + 0.001)};
  Targets elsewhere;
  elsewhere.carbon_to_nitrogen = {carbon_to_nitrogen(ratio + 0.1), carbon_to_nitrogen(ratio + 0.2), carbon_to_nitrogen(ratio + 0.3)};
  elsewhere.moisture = {wet_basis(moisture + 0.001), wet_basis(moisture + 0.002), wet_basis(moisture + 0.003)};
  const MixRanges beside = *ranges_of(mix.blend, mix.taken, elsewhere, mix.yard.tables.materials);
  for (const MixRanges& found : {ranges(mix), drawn_ranges(mix.blend, {}, mix.yard.targets)}) {
    CHECK(found.carbon_to_nitrogen->low == found.carbon_to_nitrogen->high);
    CHECK(found.moisture.low == found.moisture.high);
    CHECK(found.air_space->low == found.air_space->high);
    // The same sums in another order: a dozen roundings.
    CHECK_THAT(found.carbon_to_nitrogen->low.value(), WithinRel(typical.carbon_to_nitrogen->value(), 1e-12));
    CHECK_THAT(found.moisture.low.value(), WithinRel(typical.moisture->value(), 1e-12));
    CHECK_THAT(found.air_space->low.value(), WithinRel(typical.air_space->value(), 1e-12));
    CHECK(found.chance_carbon_to_nitrogen_in_window == 1.0);  // always, or never
    CHECK(found.chance_moisture_in_window == 1.0);
    CHECK(beside.chance_carbon_to_nitrogen_in_window == 0.0);
    CHECK(beside.chance_moisture_in_window == 0.0);
    CHECK(found.ratio_rests_on.empty());
  }
}

TEST_CASE("nothing has no band") {
  Counted mix = counted(in_containers, 3.0);
  for (Ingredient& ingredient : mix.blend.ingredients) ingredient.mass = Mass();
  take(mix);
  CHECK_FALSE(ranges_of(mix.blend, mix.taken, mix.yard.targets, mix.yard.tables.materials));
}

namespace {

const std::string feather_meal = supply("feedstock = \"feather-meal\"\namount = \"10 lb\"\n");
const std::string six_bags = supply("feedstock = \"leaves-fall\"\namount = \"6 leaf-bag\"\n");
const std::string six_bags_said = supply("feedstock = \"leaves-fall\"\npacking = \"bagged\"\namount = \"6 leaf-bag\"\n");
const std::string twelve_bags_said = supply("feedstock = \"leaves-fall\"\npacking = \"bagged\"\namount = \"12 leaf-bag\"\n");

MixRanges ranges(const std::string& supplies) {
  Counted mix = counted(supplies, 0.0);
  return ranges(take(mix));
}

}  // namespace

TEST_CASE("a salt without carbon leaves the band of C:N") {
  const MixRanges found = ranges(supply("feedstock = \"leaves-fall\"\npacking = \"bagged\"\namount = \"20 leaf-bag\"\n") +
                                 supply("feedstock = \"ammonium-sulfate\"\namount = \"1 lb\"\n"));
  REQUIRE(found.carbon_to_nitrogen);
  CHECK(found.carbon_to_nitrogen->low.value() > 20.0);  // leaves alone: 37 to 62
  CHECK(found.carbon_to_nitrogen->high.value() < 62.0);
  const MixRanges alone = ranges(supply("feedstock = \"ammonium-sulfate\"\namount = \"1 lb\"\n"));
  REQUIRE(alone.carbon_to_nitrogen);
  CHECK(alone.carbon_to_nitrogen->high.value() == 0.0);
}

TEST_CASE("without a C:N of its own, carbon and nitrogen are drawn apart") {
  std::mt19937_64 generator(20261107);
  std::vector<double> ratios;
  for (std::size_t draw = 0; draw < reference_draws; ++draw)
    ratios.push_back(drawn({0.44, 0.48, 0.52}, generator) / drawn({0.11, 0.13, 0.15}, generator));  // feather meal's row
  const std::array<double, 2> expected = band(ratios);
  const MixRanges found = ranges(feather_meal);
  // Carbon spreads this band by a tenth only, so the tolerance is finer than of_an_end: a tenth percentile of 4096 even draws that are
  // spread over two figures is a few thousandths of a deviation off.
  CHECK_THAT(found.carbon_to_nitrogen->low.value(), WithinRel(expected[0], 0.002));
  CHECK_THAT(found.carbon_to_nitrogen->high.value(), WithinRel(expected[1], 0.002));
}

TEST_CASE("one packing said in two ways is one draw") {
  // A half of the leaves twice, drawn apart, would spread by less.
  const std::string both = GENERATE(six_bags + six_bags_said, six_bags_said + six_bags);
  const MixRanges once = ranges(twelve_bags_said);
  const MixRanges twice = ranges(both);
  CHECK_THAT(twice.air_space->low.value(), WithinAbs(once.air_space->low.value(), 1e-9));
  CHECK_THAT(twice.air_space->high.value(), WithinAbs(once.air_space->high.value(), 1e-9));
}

TEST_CASE("leaves counted shredded go into the pile as they were counted") {
  // The room that they take is that of the buckets, whatever they weigh.
  const std::string lines = "feedstock = \"leaves-fall\"\npacking = \"shredded\"\namount = \"20 bucket\"\n";
  const MixRanges counted_so = ranges(supply(lines));
  const MixRanges on_the_way = ranges(supply(lines + "shredded = true\n"));
  CHECK_THAT(on_the_way.air_space->low.value(), WithinAbs(counted_so.air_space->low.value(), 1e-9));
  CHECK_THAT(on_the_way.air_space->high.value(), WithinAbs(counted_so.air_space->high.value(), 1e-9));
}

TEST_CASE("scraps of the same people in other months are off by as much, not by the first's amount") {
  const auto scraps = [](const std::string& months) {
    return supply("feedstock = \"kitchen-scraps\"\nstorable = true\nestimate = { people = 3 }\nwhen = { months = [" + months + "] }\n");
  };
  const MixRanges once = ranges(scraps("\"Jun\", \"Jul\", \"Aug\", \"Sep\"") + six_bags);
  const MixRanges twice = ranges(scraps("\"Jun\"") + scraps("\"Jul\", \"Aug\", \"Sep\"") + six_bags);
  CHECK_THAT(twice.carbon_to_nitrogen->low.value(), WithinRel(once.carbon_to_nitrogen->low.value(), 1e-9));
  CHECK_THAT(twice.carbon_to_nitrogen->high.value(), WithinRel(once.carbon_to_nitrogen->high.value(), 1e-9));
}

TEST_CASE("what lies at 0 and moves has a weight that is a number") {
  Counted mix = counted(supply("feedstock = \"ammonium-sulfate\"\namount = \"1 lb\"\n"), 0.0);
  take(mix);
  for (const Assumption& assumption : assumptions_of(mix.yard.supplies.front(), mix.yard.tables.materials)) {
    CAPTURE(assumption.what);
    const auto change = change_of_mix(mix.blend, 0, mix.taken.front(), assumption);
    if (change) CHECK(std::isfinite(*change));
  }
}

TEST_CASE("the band of a pile that does not fit in its room is that of a million other draws", "[slow]") {
  Counted mix = counted(in_containers, 3.0);
  mix.blend.settling = ShareOfLooseVolume::of(0.05);
  check_against_reference(take(mix));
  CHECK(ranges(mix).air_space->low.value() < 0.0);
}

TEST_CASE("a bound is inside its window, however it was computed") {
  // 0.45 over 0.45/25 is 25 or a rounding off it.
  const Window<CarbonNitrogenRatio> window{carbon_to_nitrogen(25.0), carbon_to_nitrogen(30.0), carbon_to_nitrogen(35.0)};
  const auto [ratio, inside] = GENERATE(table<double, bool>({{25.0 * (1.0 - 1e-12), true},
                                                             {35.0 * (1.0 + 1e-12), true},
                                                             {25.0 * (1.0 - 1e-8), false},
                                                             {35.0 * (1.0 + 1e-8), false},
                                                             {std::nan(""), false}}));
  CHECK(is_inside(carbon_to_nitrogen(ratio), window) == inside);

  Counted mix = counted(feather_meal, 0.0);
  Ingredient& alone = mix.blend.ingredients.front();
  alone.properties.carbon = carbon_dry_basis(0.45);
  alone.properties.nitrogen = nitrogen_dry_basis(0.45 / (25.0 * (1.0 - 1e-12)));
  CHECK(drawn_ranges(mix.blend, {}, Targets()).chance_carbon_to_nitrogen_in_window == 1.0);
}
