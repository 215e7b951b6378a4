// What must hold of piles of any shape and size, of what lies in them, and of the compost that they leave.
#include "../unit/piles.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

#include "heapwright/pile/pile.hpp"
#include "heapwright/plan/compost_yield.hpp"
#include "heapwright/process/compost_left.hpp"
#include "heapwright/process/settled.hpp"

using namespace heapwright;

namespace {

constexpr double rounding = 1e-12;  // a few products and a root

struct Sides {
  double length, width, height;
  Length l() const { return length * unit::m; }
  Length w() const { return width * unit::m; }
  Length h() const { return height * unit::m; }
};

Sides sides(unsigned seed) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> meters(0.1, 12.0);
  return {meters(random), meters(random), meters(random)};
}

/// A pile of each shape with some sides.
std::vector<PileDescription> piles_of(const Sides& of) {
  std::vector<PileDescription> piles(6);
  piles[0].shape = PileShape::bin;
  piles[1].shape = PileShape::round;
  piles[2].shape = PileShape::cone;
  piles[3].shape = piles[4].shape = PileShape::windrow;
  piles[5].shape = PileShape::tumbler;
  for (PileDescription& pile : piles) {
    if (pile.shape == PileShape::tumbler) {
      pile.volume = of.l() * of.w() * of.h();
    } else if (pile.shape == PileShape::round || pile.shape == PileShape::cone) {
      pile.diameter = of.w();
      pile.height = of.h();
    } else {
      pile.length = of.l();
      pile.width = of.w();
      pile.height = of.h();
    }
  }
  piles[4].top_width = 0.3 * of.w();
  return piles;
}

PileDescription scaled(PileDescription pile, double times) {
  for (std::optional<Length>* side : {&pile.length, &pile.width, &pile.height, &pile.diameter, &pile.top_width}) {
    if (*side) **side *= times;
  }
  if (pile.volume) *pile.volume *= times * times * times;
  return pile;
}

ShareOfLooseVolume settled_to(double share) { return ShareOfLooseVolume::of(share); }

}  // namespace

TEST_CASE("a pile twice as long, wide and high holds eight times as much, under four times the surface", "[pile][property]") {
  const Sides of = sides(GENERATE(range(0U, 20U)));
  for (const PileDescription& pile : piles_of(of)) {
    CAPTURE(shape_word(pile.shape), of.length, of.width, of.height);
    const PileSize one = size_of(pile);
    const PileSize twice = size_of(scaled(pile, 2.0));
    CHECK(twice.volume.value() == Approx(8.0 * one.volume.value()).epsilon(rounding));
    if (!one.surface) continue;
    CHECK(twice.surface->value() == Approx(4.0 * one.surface->value()).epsilon(rounding));
    CHECK(twice.footprint->value() == Approx(4.0 * one.footprint->value()).epsilon(rounding));
  }
}

TEST_CASE("no pile meets the air with less than the ground that it covers, nor holds more than the box about it", "[pile][property]") {
  const Sides of = sides(GENERATE(range(0U, 20U)));
  const double boxed = of.length * of.width * of.height;
  for (const PileDescription& pile : piles_of(of)) {
    CAPTURE(shape_word(pile.shape), of.length, of.width, of.height);
    const PileSize size = size_of(pile);
    if (!size.surface) continue;
    CHECK(*size.surface > *size.footprint);
    const bool on_a_circle = pile.diameter.has_value();
    CHECK(size.volume.value() <= (on_a_circle ? of.width * of.width * of.height : boxed) * (1.0 + rounding));
  }
}

TEST_CASE("shapes lie within each other as they should", "[pile][property]") {
  const Sides of = sides(GENERATE(range(0U, 20U)));
  const auto volume = [](const PileSize& size) { return size.volume.value(); };
  const double boxed = volume(box(of.l(), of.w(), of.h()));
  CHECK(volume(box(of.w(), of.l(), of.h())) == Approx(boxed).epsilon(rounding));
  CHECK(box(of.w(), of.l(), of.h()).surface->value() == Approx(box(of.l(), of.w(), of.h()).surface->value()).epsilon(rounding));
  CHECK(volume(cone(of.w(), of.h())) == Approx(volume(cylinder(of.w(), of.h())) / 3.0).epsilon(rounding));
  // A ridge, half an ellipse, a box: each within the next; a flat top from one to the other.
  const double ellipse = volume(semi_elliptic_windrow(of.l(), of.w(), of.h()));
  double before = 0.0;
  for (const double top : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const double flat = volume(flat_topped_windrow(of.l(), of.w(), top * of.w(), of.h()));
    CHECK(flat > before);
    before = flat;
  }
  CHECK(before == Approx(boxed).epsilon(rounding));
  CHECK(volume(flat_topped_windrow(of.l(), of.w(), 0.0 * unit::m, of.h())) < ellipse);
  CHECK(ellipse < boxed);
  // Two windrows end to end are one that is as long as both, but for the two ends that lie on each other.
  const PileSize half = semi_elliptic_windrow(0.5 * of.l(), of.w(), of.h());
  CHECK(2.0 * volume(half) == Approx(ellipse).epsilon(rounding));
  CHECK(2.0 * *half.surface > *semi_elliptic_windrow(of.l(), of.w(), of.h()).surface);
}

TEST_CASE("what is longer, wider or higher holds more, and meets more air", "[pile][property]") {
  const Sides of = sides(GENERATE(range(0U, 10U)));
  for (const PileDescription& pile : piles_of(of)) {
    const PileSize before = size_of(pile);
    for (std::optional<Length> PileDescription::*side : {&PileDescription::length, &PileDescription::width, &PileDescription::height,
                                                         &PileDescription::diameter, &PileDescription::top_width}) {
      if (!(pile.*side)) continue;
      PileDescription larger = pile;
      *(larger.*side) *= 1.1;
      CAPTURE(shape_word(pile.shape));
      CHECK(size_of(larger).volume > before.volume);
      // A flatter slope is shorter: a wider top need not meet more air.
      if (side != &PileDescription::top_width) CHECK(*size_of(larger).surface > *before.surface);
    }
  }
}

TEST_CASE("a pile with a share of it there holds that share", "[pile][property]") {
  const Sides of = sides(GENERATE(range(0U, 10U)));
  for (const PileDescription& pile : piles_of(of)) {
    double before = 0.0;
    for (const double share : {0.05, 0.3, 0.7, 1.0}) {
      const PileDescription part = filled_to(pile, share);
      CAPTURE(shape_word(pile.shape), share);
      CHECK(size_of(part).volume.value() == Approx(share * size_of(pile).volume.value()).epsilon(1e-9));  // by a cube root
      if (!part.height) continue;
      CHECK(part.height->value() > before);
      before = part.height->value();
    }
    if (pile.height) CHECK(before == Approx(pile.height->value()).epsilon(1e-9));
  }
}

TEST_CASE("more to put in never comes less high, nor fits in fewer piles", "[pile][property]") {
  const Sides of = sides(GENERATE(range(0U, 10U)));
  for (const PileDescription& pile : piles_of(of)) {
    const double room = room_of(pile).value();
    for (const double settling : {1.0, 0.7}) {
      double fills = 0.0, filled = 0.0, settled = 0.0;
      int piles = 0;
      for (const double times : {0.01, 0.4, 0.8, 1.0, 1.019, 1.5, 4.0}) {
        const PileFit fit = fit_of(pile, times * room * unit::m3, settled_to(settling)).result;
        CAPTURE(shape_word(pile.shape), settling, times);
        CHECK(*fit.fits == (times <= as_good_as_full));
        CHECK(*fit.fills == Approx(times).epsilon(rounding));
        CHECK(*fit.piles_needed >= piles);
        CHECK(*fit.piles_needed >= times / as_good_as_full);
        CHECK(*fit.piles_needed < times / as_good_as_full + 1.0);
        CHECK(*fit.fills > fills);
        if (fit.filled_height) {
          CHECK(*fit.filled_height <= (1.0 + rounding) * *pile.height);
          CHECK(fit.filled_height->value() >= filled);
          CHECK(fit.settled_height->value() >= settled);
          CHECK(fit.settled_height->value() == Approx(settling * fit.filled_height->value()).epsilon(rounding));
          filled = fit.filled_height->value();
          settled = fit.settled_height->value();
        }
        fills = *fit.fills;
        piles = *fit.piles_needed;
      }
    }
  }
}

TEST_CASE("the piles that are suggested hold what they are for, and are no more than it takes", "[pile][property]") {
  for (double loose = 0.05; loose < 400.0; loose *= 1.13) {
    const auto pile = suitable_pile(loose * unit::m3);
    CAPTURE(loose);
    CHECK(pile.has_value() == is_enough_to_heat(loose * unit::m3));
    if (!pile) continue;
    const double room = room_of(*pile).value();
    CHECK(room * as_good_as_full >= loose);
    // One bin fewer would not hold it.
    CHECK(room / pile->count * (pile->count - 1) < loose);
    CHECK(*pile->height <= tall_pile);
    CHECK(*pile->height >= 0.899 * least_height_to_heat);  // about so high
  }
}

TEST_CASE("what lies in any pile is as much as is there: the more the higher, and the larger its surface", "[settled][property]") {
  const Sides of = sides(GENERATE(range(0U, 10U)));
  std::vector<std::optional<PileDescription>> piles{std::nullopt};
  for (const PileDescription& pile : piles_of(of)) piles.emplace_back(pile);
  for (const auto& pile : piles) {
    const double most = pile ? room_of(*pile).value() : 10.0;
    LyingPile before{};
    for (const double share : {0.02, 0.1, 0.3, 0.6, 0.9}) {
      const Volume settled = share * most * unit::m3;
      const LyingPile lies = lying(pile, settled);
      CAPTURE(pile ? std::string(shape_word(pile->shape)) : "free", share, of.length, of.width, of.height);
      CHECK(lies.height > before.height);
      CHECK(lies.exposed > before.exposed);
      CHECK(lies.plan >= (1.0 - rounding) * before.plan);
      // No body of a volume has less of a surface than half a ball on the ground with it: 2 π r² for 2/3 π r³.
      CHECK(lies.exposed.value() >= std::cbrt(18.0 * 3.14159265 * settled.value() * settled.value()) * (1.0 - 1e-6));
      before = lies;
    }
  }
}

TEST_CASE("what a screen passes is what is left, and no more organic than that", "[yield][property]") {
  const YieldRule& rule = *piles::materials().yield;
  std::mt19937_64 random(20261207);
  const auto between = [&](double low, double high) { return std::uniform_real_distribution<double>(low, high)(random); };
  for (int i = 0; i < 200; ++i) {
    const double dry = between(1.0, 500.0);
    const double organic = between(0.05, 0.95) * dry;
    const double coarse = between(0.0, 0.9) * organic;
    const double held = between(0.0, 0.5);
    const auto left = [&](double times, double of_organic, double of_coarse, double of_held) {
      return compost_left(times * dry * unit::kg_dry, times * of_organic * unit::kg_organic, times * of_coarse * unit::kg_organic,
                          ShareOfVolume::of(of_held), rule);
    };
    const CompostLeft one = left(1.0, organic, coarse, held);
    CAPTURE(i, dry, organic, coarse, held);
    CHECK(one.dry.value() == Approx((dry - coarse) * (1.0 - held)).epsilon(rounding));
    CHECK(one.organic.value() == Approx((organic - coarse) / (dry - coarse)).epsilon(rounding));
    CHECK(dry_mass(one.mass, *rule.moisture_at_use.typical).value() == Approx(one.dry.value()).epsilon(rounding));
    CHECK((one.mass / one.volume).value() == Approx(one.density.value()).epsilon(rounding));
    CHECK(left(3.0, organic, coarse, held).volume.value() == Approx(3.0 * one.volume.value()).epsilon(rounding));
    CHECK(left(1.0, organic * 1.05, coarse, held).volume > one.volume);  // of as much dry matter, what is more organic is looser
    CHECK(left(1.0, organic, coarse + 0.01 * organic, held).mass < one.mass);
    CHECK(left(1.0, organic, coarse, held + 0.01).volume < one.volume);
  }
}

TEST_CASE("a pile twice as large leaves twice the compost, of less the more is lost", "[yield][property]") {
  YieldRule rule = *piles::materials().yield;
  const Mix mix = piles::household();
  const OrganicMass coarse = 0.02 * mix.organic_matter;
  const CompostYield one = compost_yield(mix, coarse, rule);
  CHECK(one.low < one.likely);
  CHECK(one.likely < one.high);
  CHECK(one.high < *mix.volume);
  Mix twice = mix;
  twice.dry *= 2.0;
  twice.organic_matter *= 2.0;
  const CompostYield two = compost_yield(twice, 2.0 * coarse, rule);
  CHECK(two.low.value() == Approx(2.0 * one.low.value()).epsilon(rounding));
  CHECK(two.likely.value() == Approx(2.0 * one.likely.value()).epsilon(rounding));
  CHECK(two.high.value() == Approx(2.0 * one.high.value()).epsilon(rounding));
  double before = one.likely.value() * 10.0;
  for (const double lost : {0.3, 0.5, 0.7, 0.9}) {
    rule.volatile_solids_lost.typical = ShareOfVolatileSolids::of(lost);
    const double likely = compost_yield(mix, coarse, rule).likely.value();
    CHECK(likely < before);
    before = likely;
  }
}

TEST_CASE("the spread of a band is that of its ends, whatever they are counted in", "[yield][property]") {
  for (const double times : {1.1, 1.5, 4.0}) {
    const double spread = spread_between(1.0, times);
    CHECK(spread_between(7.0, 7.0 * times) == Approx(spread).epsilon(rounding));
    CHECK(spread_between(1.0, times * times) == Approx(2.0 * spread).epsilon(rounding));
    CHECK(spread_times(spread) == Approx(std::sqrt(times)).epsilon(rounding));  // half of it to each side
  }
  CHECK(spread_between(3.0, 3.0) == 0.0);
  CHECK(spread_times(0.0) == 1.0);
}
