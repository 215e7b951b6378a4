// How a pile lies once it has settled: the law of its density, its height in what it lies in, and what stands above both.
#include "heapwright/process/settled.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/process/pile_to_build.hpp"
#include "piles.hpp"

using namespace heapwright;
using Catch::Matchers::WithinRel;
using std::numbers::pi;

namespace {

constexpr double exact = 1e-12;  // a few sums and products of doubles

/// A mix with its loose volume left out, so that nothing is known of how it was filled in.
SettledDensity density_of(Mix mix) {
  mix.volume.reset();
  return settled_density_of(mix, piles::materials(), piles::every_set());
}

PileDescription described(PileShape shape, double length = 1.2, double width = 1.2, double height = 1.2) {
  PileDescription pile;
  pile.shape = shape;
  pile.length = length * unit::m;
  pile.width = width * unit::m;
  pile.height = height * unit::m;
  pile.diameter = width * unit::m;
  pile.volume = 0.2 * unit::m3;
  return pile;
}

PileToBuild to_build(const Mix& mix) {
  PileToBuild pile;
  pile.mix = mix;
  pile.built = std::chrono::year(2027) / 5 / 1;
  return pile;
}

const ProcessParameters& best() { return piles::every_set().best; }
double volume_of(const PileToBuild& pile, const ProcessParameters& set = best()) {
  return PileModel(pile, piles::materials(), piles::every_set()).shape(set).volume.value();
}

}  // namespace

TEST_CASE("the settled density of mixes", "[settled]") {
  // Check figures of section 17 of the model, kg dry matter per m³, printed to eight digits.
  constexpr double printed = 1e-7;
  struct Row {
    std::vector<std::pair<std::string, double>> dry;
    double moisture, height, factor, density;
  };
  for (const Row& row : {Row{{{"leaves-fall", 75.0}, {"grass-clippings", 15.0}, {"kitchen-scraps", 10.0}}, 0.553, 0.75, 1.0, 129.79351},
                         Row{{{"leaves-fall", 60.0}, {"grass-clippings", 20.0}, {"kitchen-scraps", 20.0}}, 0.55, 2.0, 1.0, 158.60689},
                         Row{{{"wood-chips", 50.0}, {"coffee-grounds", 50.0}}, 0.55, 1.0, 1.0, 212.90323},
                         Row{{{"grass-clippings", 100.0}}, 0.80, 1.0, 1.5, 171.42857}}) {
    CAPTURE(row.density);
    const SettledDensity density = density_of(piles::mix(row.dry, row.moisture));
    CHECK_THAT(density.at(row.height * unit::m, row.factor).value(), WithinRel(row.density, printed));
    CHECK_FALSE(density.weighed);
  }
  const PileContents chips =
      contents_of(piles::mix({{"wood-chips", 50.0}, {"coffee-grounds", 50.0}}, 0.55), piles::materials(), piles::every_set(), best());
  // 0.97 of either is organic in the model's table; of wood 0.81 of that does not rot: half of it is 0.405.
  CHECK_THAT(chips.coarse.value() / chips.volatile_solids().value(),
             WithinRel(0.405, 0.02));  // our wood and coffee are 0.97 and 0.98 or so
}

TEST_CASE("a pile lies the denser the higher it is and the more it is packed, within bounds", "[settled]") {
  const Mix mix = piles::household();
  const SettledDensity density = settled_density_of(mix, piles::materials(), piles::every_set());
  CHECK_THAT(density.least.value(), WithinRel((mix.dry / *mix.volume).value(), exact));
  double before = 0.0;
  for (const double height : {0.2, 1.0, 1.5, 2.0, 3.0}) {
    const double now = density.at(height * unit::m, 1.0).value();
    CHECK(now >= before);
    CHECK((now > before || height <= 1.0));
    before = now;
  }
  CHECK(density.at(0.2 * unit::m, 1.0) == density.at(1.0 * unit::m, 1.0));
  CHECK_THAT(density.at(2.0 * unit::m, 1.0).value(), WithinRel(std::pow(2.0, 0.2) * density.at(1.0 * unit::m, 1.0).value(), exact));
  before = 0.0;
  for (const double factor : {0.1, 0.6, 1.0, 1.6, 3.0, 10.0}) {
    const double now = density.at(1.0 * unit::m, factor).value();
    CHECK(now >= before);
    before = now;
  }
  // Never looser than it was filled in, and a fifth of it is air.
  CHECK(density.at(1.0 * unit::m, 0.01) == density.least);
  const double water = mix.water.value() / mix.dry.value();
  CHECK_THAT(density.at(1.0 * unit::m, 10.0).value(), WithinRel(0.80 / (1.0 / 1500.0 + water / 1000.0), exact));
}

TEST_CASE("what a pile weighs stands above the law", "[settled]") {
  const Mix mix = piles::household();
  const SettledDensity density = settled_density_of(mix, piles::materials(), piles::every_set(), bulk_density(400.0));
  CHECK(density.weighed);
  for (const double height : {0.5, 1.0, 3.0})
    CHECK_THAT(density.at(height * unit::m, 1.0).value(), WithinRel(400.0 * (1.0 - 0.55), exact));  // its dry matter

  SECTION("of a pile that is described") {
    PileDescription bin = described(PileShape::bin);
    CHECK_FALSE(bin.weighed);
    bin.weighed = bulk_density(400.0);
    CHECK_THAT(bin.weighed->value(), WithinRel(400.0, exact));
    PileToBuild pile = to_build(mix);
    pile.pile = bin;
    CHECK_THAT(volume_of(pile), WithinRel(mix.mass.value() / 400.0, exact));
    // No set draws another density then.
    for (std::size_t set = 0; set < 5; ++set)
      CHECK_THAT(volume_of(pile, piles::every_set().members[set]), WithinRel(mix.mass.value() / 400.0, exact));
    pile.pile->weighed.reset();
    CHECK(volume_of(pile) != Approx(mix.mass.value() / 400.0).epsilon(0.01));
    CHECK(volume_of(pile, piles::every_set().members[0]) != volume_of(pile, piles::every_set().members[1]));
  }
  SECTION("soaked, it is as heavy as it was weighed") {
    const SettledDensity soaked = settled_density_of(piles::household(0.8), piles::materials(), piles::every_set(), bulk_density(1000.0));
    CHECK_THAT(soaked.at(1.0 * unit::m, 1.0).value(), WithinRel(200.0, exact));
  }
}

TEST_CASE("packed closer it takes up less room", "[settled]") {
  PileToBuild pile = to_build(piles::household());
  const double loose = volume_of(pile);
  pile.packed = 1.25;
  // The density is by 1.25, and a little less since it lies lower: h^0.2, of a cube root of the volume; below 1 m by nothing.
  const double packed = volume_of(pile);
  CHECK(packed < loose / std::pow(1.25, 0.9));
  CHECK(packed >= loose / 1.25 * (1.0 - exact));
  SECTION("and a weighed one too") {
    pile.packed = 1.0;
    pile.pile = described(PileShape::bin);
    pile.pile->weighed = bulk_density(400.0);
    const double weighed = volume_of(pile);
    pile.packed = 1.25;
    CHECK_THAT(volume_of(pile), WithinRel(weighed / 1.25, exact));
  }
  SECTION("as a set draws its density") {
    ProcessParameters denser = best();
    denser.rho_f = 1.25;
    const double one = volume_of(pile);
    pile.packed = 1.0;
    CHECK_THAT(volume_of(pile, denser), WithinRel(one, exact));
  }
}

TEST_CASE("twice as much of a mix takes up a little less than twice the room", "[settled]") {
  PileToBuild pile = to_build(piles::mix({{"leaves-fall", 650.0}, {"grass-clippings", 200.0}, {"kitchen-scraps", 150.0}}, 0.55));
  const double whole = volume_of(pile);
  pile.share = 0.5;
  CHECK(2.0 * volume_of(pile) > whole);
  CHECK(2.0 * volume_of(pile) < 1.1 * whole);
}

TEST_CASE("how a pile lies", "[settled]") {
  const Volume volume = 0.8 * unit::m3;
  SECTION("freely it is half a ball with 15 % more surface") {  // section 2 of the model
    const double radius = std::cbrt(3.0 * 0.8 / (2.0 * pi));
    for (const std::optional<PileDescription>& pile : {std::optional<PileDescription>(), std::optional(described(PileShape::cone))}) {
      const LyingPile lies = lying(pile, volume);
      CHECK_THAT(lies.height.value(), WithinRel(radius, exact));
      CHECK_THAT(lies.exposed.value(), WithinRel(1.15 * 2.0 * pi * radius * radius, exact));
      CHECK_THAT(lies.plan.value(), WithinRel(lies.exposed.value() / 2.3, exact));
    }
  }
  SECTION("in a bin it lies flat") {
    const LyingPile lies = lying(described(PileShape::bin, 1.0, 1.2), volume);
    CHECK_THAT(lies.height.value(), WithinRel(0.8 / 1.2, exact));
    CHECK_THAT(lies.exposed.value(), WithinRel(1.2 + 2.0 * (1.0 + 1.2) * 0.8 / 1.2, exact));
    CHECK_THAT(lies.plan.value(), WithinRel(1.2, exact));
    const LyingPile round = lying(described(PileShape::round, 1.0, 1.0), volume);
    CHECK_THAT(round.plan.value(), WithinRel(0.25 * pi, exact));
    CHECK_THAT(round.exposed.value(), WithinRel(0.25 * pi + pi * 0.8 / (0.25 * pi), exact));
  }
  SECTION("but little in a wide one is heaped up, half as high as wide") {
    const LyingPile lies = lying(described(PileShape::bin, 3.0, 3.0), volume);
    CHECK_THAT(lies.plan.value() * lies.height.value(), WithinRel(0.8, exact));
    CHECK_THAT(lies.height.value(), WithinRel(0.5 * std::sqrt(lies.plan.value()), exact));
    const double flat = 9.0 + 12.0 * 0.8 / 9.0;
    CHECK(lies.exposed.value() < flat);
    CHECK(lies.plan.value() < 9.0);
  }
  SECTION("in a drum it is as exposed as the small bins of the trials were taken, and no rain falls in") {
    const LyingPile lies = lying(described(PileShape::tumbler), volume);
    CHECK_THAT(lies.height.value(), WithinRel(std::cbrt(0.8), exact));
    CHECK_THAT(lies.exposed.value(), WithinRel(5.0 * std::pow(0.8, 2.0 / 3.0), exact));
    CHECK(lies.plan.value() == 0.0);
  }
  SECTION("a windrow never meets the air more than a pile of as much") {
    const PileDescription windrow = described(PileShape::windrow, 9.0, 1.5, 0.9);
    const Volume full = size_of(windrow).volume;
    double before = 0.0;
    for (const double share : {0.05, 0.2, 0.5, 1.0}) {
      const LyingPile lies = lying(windrow, share * full);
      const LyingPile freely = lying(std::nullopt, share * full);
      CHECK(lies.exposed.value() <= freely.exposed.value() * (1.0 + exact));
      CHECK(lies.plan.value() > before);
      CHECK(lies.plan < lies.exposed);
      before = lies.plan.value();
    }
  }
  SECTION("whatever it lies in, more meets the air more") {
    for (const PileShape shape : {PileShape::bin, PileShape::round, PileShape::cone, PileShape::windrow, PileShape::tumbler}) {
      double before = 0.0;
      for (double cubic_metres = 0.02; cubic_metres < 1.5; cubic_metres *= 1.2) {
        const LyingPile lies = lying(described(shape, 1.5, 1.2, 0.8), cubic_metres * unit::m3);
        CHECK(lies.exposed.value() > before);
        CHECK(lies.height.value() > 0.0);
        before = lies.exposed.value();
      }
    }
  }
}

TEST_CASE("height and density settle together", "[settled]") {
  const Mix mix = piles::mix({{"leaves-fall", 1950.0}, {"grass-clippings", 600.0}, {"kitchen-scraps", 450.0}}, 0.55);
  const SettledDensity density = density_of(mix);
  const SettledShape shape = settled_shape(mix.dry, density, 1.0, std::nullopt);
  // From 1 m the first density is short of the last by a factor of h^0.2, and each round leaves the fifteenth of its logarithm, the fifth
  // of a cube root; a fourth round would move the third by that and a fifteenth of it.
  const LyingPile lies = lying(std::nullopt, shape.volume);
  CHECK(lies.height.value() > 1.5);
  CHECK_THAT((mix.dry / shape.volume).value(),
             WithinRel(density.at(lies.height, 1.0).value(), 0.2 * std::log(lies.height.value()) / 225.0 * 16.0 / 15.0));
  CHECK(shape.exposed == lies.exposed);
  CHECK(shape.plan == lies.plan);
  CHECK((shape.vent == 1.0 && shape.cover == 1.0));
}

TEST_CASE("no pile settles of nothing", "[settled]") {
  const PileToBuild pile = to_build(Mix());
  CHECK_THROWS_AS(PileModel(pile, piles::materials(), piles::every_set()), DomainError);
}
