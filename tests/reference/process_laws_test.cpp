// The laws beside the pile's equations: how dense it settles and how it lies, what rain it takes up, how dense the compost is. Against
// figures computed apart, against ten composts as a laboratory measured them, and for what must hold whatever the figures.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "heapwright/process/compost_left.hpp"
#include "heapwright/process/contents.hpp"
#include "heapwright/process/rain.hpp"
#include "heapwright/process/settled.hpp"

using namespace heapwright;
using enum RottingMaterial;

namespace {

const ProcessEnsemble& ensemble() {
  static const ProcessEnsemble tables = built_in_ensemble();
  return tables;
}
const YieldRule& yield() {
  static const Materials tables = built_in_materials();
  return *tables.yield;
}

/// Of dry matter.
struct Share {
  RottingMaterial material;
  double share;
  double organic = 0.9;
};

std::string id_of(RottingMaterial material) { return "m" + std::to_string(static_cast<int>(material)); }

/// A kilogram of dry matter, of rows that are nothing but what they rot like.
struct Blended {
  Materials materials;
  Mix mix;
};
Blended blended(const std::vector<Share>& parts, double moisture) {
  Blended made{built_in_materials(), {}};
  std::vector<Feedstock> rows;
  for (const Share& part : parts) {
    Feedstock row;
    row.id = id_of(part.material);
    row.rots_like = part.material;
    rows.push_back(row);
    MixPart of_mix;
    of_mix.id = row.id;
    of_mix.dry = part.share * unit::kg_dry;
    of_mix.organic_matter = part.share * part.organic * unit::kg_organic;
    made.mix.parts.push_back(of_mix);
    made.mix.dry += of_mix.dry;
    made.mix.organic_matter += of_mix.organic_matter;
  }
  made.mix.water = made.mix.dry * to_dry_basis(wet_basis(moisture));
  made.mix.mass = (made.mix.dry.value() + made.mix.water.value()) * unit::kg;
  made.materials.feedstocks = Lazy(std::move(rows));
  return made;
}
SettledDensity law(const std::vector<Share>& parts, double moisture) {
  const Blended made = blended(parts, moisture);
  return settled_density_of(made.mix, made.materials, ensemble());
}
double kg_per_m3(const SettledDensity& density, double height_m, double factor = 1.0) {
  return density.at(height_m * unit::m, factor).value();
}
/// Of a free pile, half a ball.
double height_of(double m3) { return std::cbrt(3.0 * m3 / (2.0 * std::numbers::pi)); }

double rain_mm(double rain, double celsius, double share) {
  return 1000.0 * rain_taken_up(0.001 * rain * unit::m, TemperaturePoint::from_celsius(celsius), share).value();
}
double finished(double organic) { return finished_density(organic * unit::kg_organic / unit::kg_dry, yield()).value(); }
CompostLeft left_of(double dry, double organic, double coarse) {
  return compost_left(dry * unit::kg_dry, organic * unit::kg_organic, coarse * unit::kg_organic, *yield().held_back_by_screen.typical,
                      yield());
}

PileDescription square_bin(double side) {
  PileDescription bin;
  bin.shape = PileShape::bin;
  bin.length = bin.width = side * unit::m;
  bin.height = 1.2 * unit::m;
  return bin;
}

}  // namespace

// The figures of the next four were computed by an independent program of the same laws. Each to half a unit of its last place.

TEST_CASE("settled densities are as computed apart", "[process][reference][laws]") {
  const SettledDensity yard = law({{leaves, 0.75}, {grass, 0.15}, {food, 0.10}}, 0.553);
  CHECK(kg_per_m3(yard, 0.75) == Approx(129.79351).margin(5e-6).epsilon(0));
  CHECK(kg_per_m3(yard, 0.75) / (1.0 - 0.553) == Approx(290.4).margin(0.05).epsilon(0));
  CHECK(kg_per_m3(law({{leaves, 0.6}, {grass, 0.2}, {food, 0.2}}, 0.55), 2.0) == Approx(158.60689).margin(5e-6).epsilon(0));
  CHECK(kg_per_m3(law({{wood_chips, 0.5}, {coffee, 0.5}}, 0.5), 1.0) == Approx(212.90323).margin(5e-6).epsilon(0));
  CHECK(kg_per_m3(law({{grass, 1.0}}, 0.80), 1.0, 1.5) == Approx(171.42857).margin(5e-6).epsilon(0));  // held by the air in it

  // Both are 97 % organic, and of wood 0.02 and 0.17 of that rot.
  const Blended woody = blended({{wood_chips, 0.5, 0.97}, {coffee, 0.5, 0.97}}, 0.5);
  const PileContents contents = contents_of(woody.mix, woody.materials, ensemble(), ensemble().best);
  CHECK((contents.coarse / contents.volatile_solids()).value() == Approx(0.405).margin(0.0005).epsilon(0));
}

TEST_CASE("rain taken up is as computed apart", "[process][reference][laws]") {
  CHECK(rain_mm(3.1, 24.0, 0.30) == Approx(0.318).margin(5e-5).epsilon(0));
  CHECK(rain_mm(3.1, 5.0, 0.30) == Approx(0.8025).margin(5e-6).epsilon(0));
  CHECK(rain_mm(3.1, -1.0, 0.30) == 0.0);
  CHECK(rain_mm(2.2, 10.0, 0.50) == Approx(0.675).margin(5e-5).epsilon(0));
  CHECK(rain_mm(0.55, 12.0, 0.30) == 0.0);
}

TEST_CASE("densities of compost are as computed apart", "[process][reference][laws]") {
  CHECK(finished(0.79) == Approx(246.63803).margin(5e-6).epsilon(0));
  CHECK(finished(0.50) == Approx(346.70987).margin(5e-6).epsilon(0));
  CHECK(finished(0.30) == Approx(481.42331).margin(5e-6).epsilon(0));
}

TEST_CASE("what a pile leaves is as computed apart", "[process][reference][laws]") {
  const CompostLeft plain = left_of(67.0, 0.79 * 67.0, 0.0);
  CHECK(plain.volume.value() == Approx(0.23090518).margin(5e-9).epsilon(0));
  CHECK(plain.mass.value() == Approx(98.189655).margin(5e-7).epsilon(0));
  const CompostLeft woody = left_of(100.0, 90.0, 40.0);
  CHECK(woody.volume.value() == Approx(0.21569902).margin(5e-9).epsilon(0));
  CHECK(woody.mass.value() == Approx(87.931034).margin(5e-7).epsilon(0));
}

TEST_CASE("the law of settling against the densities that the model was fitted with", "[process][reference][laws]") {
  // Of the figures by the law over those used, the three whose piles process_runs.hpp and process_trials_test.cpp describe. The law was
  // settled with these in view, so they test the computation, not the law.
  struct Fitted {
    const char* pile;
    std::vector<Share> parts;
    double height_m, moisture, wet_kg_per_m3, law_over_used;
  };
  const double fed_dry = 0.75 * 0.28 + 0.25 * 0.62;  // of wet mass: food scraps and leaves
  const std::vector<Fitted> fitted{
      {"bin fed with scraps and leaves", {{food, 0.75 * 0.28 / fed_dry}, {leaves, 0.25 * 0.62 / fed_dry}}, 0.5, 1.0 - fed_dry, 400, 1.11},
      {"windrow of manure and straw", {{manure, 0.75}, {straw, 0.25}}, height_of(20.0), 0.65, 450, 0.98},
      {"box at home", {{leaves, 0.6}, {grass, 0.2}, {food, 0.2}}, 1.0, 0.57, 330, 0.97}};
  for (const Fitted& one : fitted) {
    CAPTURE(one.pile);
    const double used = one.wet_kg_per_m3 * (1.0 - one.moisture);
    CHECK(kg_per_m3(law(one.parts, one.moisture), one.height_m) / used == Approx(one.law_over_used).margin(0.005).epsilon(0));
  }
}

namespace {

/// Compostable Field Testing Program, compiled facility conditions (2023): ten finished composts at their second removal, laboratory
/// reports. The fifth is coarse: least of all passes a screen of 3/8 in, 41 %.
struct MeasuredCompost {
  double lb_per_yd3, moisture, organic;
  double kg_dry_per_m3() const { return lb_per_yd3 * 0.45359237 / 0.764554857984 * (1.0 - moisture); }
};
const std::vector<MeasuredCompost> measured{
    {1474.0, 0.4073, 0.2293}, {1203.0, 0.3247, 0.4241}, {842.8, 0.3931, 0.5987},  {656.6, 0.3983, 0.8325}, {827.0, 0.5290, 0.3610},
    {1220.0, 0.3522, 0.3594}, {976.1, 0.5409, 0.5630},  {1071.0, 0.3849, 0.4954}, {672.5, 0.4139, 0.6886}, {1154.0, 0.4653, 0.5016}};
constexpr std::size_t coarse_one = 4;

struct Densities {
  double organic, mineral;
};

/// Least squares of target = a x + b (…) in the two volumes per mass, each row times its weight.
struct TwoUnknowns {
  double xx = 0.0, xy = 0.0, yy = 0.0, xt = 0.0, yt = 0.0;
  void add(double x, double y, double target) {
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xt += x * target;
    yt += y * target;
  }
  std::pair<double, double> solved() const {
    const double determinant = xx * yy - xy * xy;
    return {(xt * yy - yt * xy) / determinant, (yt * xx - xt * xy) / determinant};
  }
};

/// The volumes per mass that make least squares of the error over what was measured.
Densities by_relative_least_squares(const std::vector<MeasuredCompost>& composts) {
  TwoUnknowns sums;
  for (const MeasuredCompost& one : composts) {
    const double rho = one.kg_dry_per_m3();
    sums.add(rho * one.organic, rho * (1.0 - one.organic), 1.0);
  }
  const auto [organic, mineral] = sums.solved();
  return {1.0 / organic, 1.0 / mineral};
}

double off(const MeasuredCompost& one, const Densities& by) {
  return std::log(one.kg_dry_per_m3() * (one.organic / by.organic + (1.0 - one.organic) / by.mineral));
}

/// Those that make least squares of the logarithm, by the method of Gauss and Newton.
Densities by_logarithm(const std::vector<MeasuredCompost>& composts) {
  Densities now{204.0, 1154.0};
  for (int round = 0; round < 50; ++round) {
    TwoUnknowns sums;
    for (const MeasuredCompost& one : composts) {
      const double volume = one.organic / now.organic + (1.0 - one.organic) / now.mineral;
      sums.add(one.organic / volume, (1.0 - one.organic) / volume, -off(one, now));
    }
    const auto [organic, mineral] = sums.solved();
    now = {1.0 / (1.0 / now.organic + organic), 1.0 / (1.0 / now.mineral + mineral)};
  }
  return now;
}

/// Standard deviation of the logarithm, two figures being fitted.
double spread_of(const std::vector<MeasuredCompost>& composts, const Densities& by) {
  double squares = 0.0;
  for (const MeasuredCompost& one : composts) squares += off(one, by) * off(one, by);
  return std::sqrt(squares / (static_cast<double>(composts.size()) - 2.0));
}

}  // namespace

TEST_CASE("the density of compost is what fits ten measured ones", "[process][reference][laws]") {
  const Densities best = by_relative_least_squares(measured);
  CHECK(best.organic == Approx(yield().organic_density.typical->value()).margin(0.5).epsilon(0));
  CHECK(best.mineral == Approx(yield().mineral_density.typical->value()).margin(0.5).epsilon(0));
  CHECK(yield().organic_density.typical->value() == 204.0);
  CHECK(yield().mineral_density.typical->value() == 1154.0);
  for (const MeasuredCompost& one : measured) {
    const double volume = one.organic / 204.0 + (1.0 - one.organic) / 1154.0;
    CHECK(finished(one.organic) == Approx(1.0 / volume).epsilon(1e-12));
  }

  // The spread, and all figures without the coarse compost, are of a fit to logarithms instead. About 204 and 1154 it is 0.255.
  CHECK(spread_of(measured, by_logarithm(measured)) == Approx(0.24).margin(0.005).epsilon(0));
  CHECK(yield().density_spread == 0.24);
  std::vector<MeasuredCompost> nine = measured;
  nine.erase(nine.begin() + coarse_one);
  const Densities without = by_logarithm(nine);
  CHECK(without.organic == Approx(198.0).margin(0.5).epsilon(0));
  CHECK(without.mineral == Approx(1420.0).margin(5.0).epsilon(0));
  CHECK(spread_of(nine, without) == Approx(0.14).margin(0.005).epsilon(0));
}

TEST_CASE("measured composts lie about the formula as far as the yield's band allows", "[process][reference][laws]") {
  for (std::size_t i = 0; i < measured.size(); ++i) {
    CAPTURE(i);
    const double deviations = std::log(measured[i].kg_dry_per_m3() / finished(measured[i].organic)) / yield().density_spread;
    // Of ten normal draws one is beyond 2.5 in one case of eight; the coarse one is, half as dense as the formula has it.
    if (i == coarse_one)
      CHECK(deviations == Approx(-2.59).margin(0.005).epsilon(0));
    else
      CHECK(std::abs(deviations) < 1.0);
  }
}

TEST_CASE("rain taken up is neither less than none nor more than the share of what falls", "[process][reference][laws]") {
  for (double rain = 0.0; rain <= 12.0; rain += 0.25) {
    for (double celsius = -20.0; celsius <= 40.0; celsius += 2.5) {
      for (const double share : {0.0, 0.3, 0.5, 1.0}) {
        CAPTURE(rain, celsius, share);
        const double taken = rain_mm(rain, celsius, share);
        CHECK(taken >= 0.0);
        CHECK(taken <= share * rain * (1.0 + 1e-12));
        if (celsius <= 0.0) CHECK(taken == 0.0);
        CHECK(rain_mm(rain + 0.25, celsius, share) >= taken);
        if (celsius > 0.0) CHECK(rain_mm(rain, celsius + 2.5, share) <= taken);
      }
    }
  }
}

TEST_CASE("a pile lies denser the higher, never looser than filled, and never without a fifth of air", "[process][reference][laws]") {
  Blended yard = blended({{leaves, 0.6}, {grass, 0.2}, {food, 0.2}}, 0.60);
  const double most = 0.80 / (1.0 / 1500.0 + 0.60 / 0.40 / 1000.0);
  for (const double filled_kg_per_m3 : {0.0, 100.0, 200.0}) {  // looser than it settles, and trodden in
    if (filled_kg_per_m3 > 0.0) yard.mix.volume = yard.mix.dry / (filled_kg_per_m3 * unit::kg_dry / unit::m3);
    const SettledDensity density = settled_density_of(yard.mix, yard.materials, ensemble());
    for (double factor = 0.6; factor < 1.65; factor += 0.05) {
      for (double height = 0.1; height < 4.0; height += 0.1) {
        CAPTURE(filled_kg_per_m3, factor, height);
        const double rho = kg_per_m3(density, height, factor);
        CHECK(rho >= filled_kg_per_m3 * (1.0 - 1e-12));
        CHECK(rho <= most * (1.0 + 1e-12));
        CHECK(kg_per_m3(density, height + 0.1, factor) >= rho);
        CHECK(kg_per_m3(density, height, factor + 0.05) >= rho);
        const bool free = rho > filled_kg_per_m3 * (1.0 + 1e-9) && kg_per_m3(density, height + 0.1, factor + 0.05) < most * (1.0 - 1e-9);
        if (free) CHECK(kg_per_m3(density, height, factor + 0.05) > rho);
        if (free && height > 1.0) CHECK(kg_per_m3(density, height + 0.1, factor) > rho);
        if (height < 0.95) CHECK(kg_per_m3(density, 1.0, factor) == rho);  // below 1 m nothing is known to be looser
      }
    }
  }
}

TEST_CASE("compost is lighter the more organic it is", "[process][reference][laws]") {
  for (int percent = 0; percent < 100; ++percent) CHECK(finished(0.01 * (percent + 1)) < finished(0.01 * percent));
  CHECK(finished(0.0) == Approx(1154.0));
  CHECK(finished(1.0) == Approx(204.0));
}

TEST_CASE("what lies in a square bin meets the air where least of it does", "[process][reference][laws]") {
  // Spread over a square w wide it has w² + 4V/w to the air. That is least at w³ = 2V, half as high as wide, and then 3 · 2^(2/3) V^(2/3).
  const double least_of_any = 3.0 * std::cbrt(4.0);
  CHECK(least_of_any == Approx(4.762).margin(0.0005).epsilon(0));
  for (const double side : {0.6, 1.2192, 3.0}) {
    const PileDescription bin = square_bin(side);
    const double heaped_below = side * side * side / 2.0;
    for (double volume = 0.02; volume < 12.0; volume *= 1.05) {
      CAPTURE(side, volume);
      const LyingPile lies = lying(bin, volume * unit::m3);
      const double exposed = lies.exposed.value();
      CHECK(lies.plan.value() * lies.height.value() == Approx(volume).epsilon(1e-12));
      CHECK(lies.plan.value() <= side * side * (1.0 + 1e-12));
      const double least = least_of_any * std::pow(volume, 2.0 / 3.0);
      CHECK(exposed >= least * (1.0 - 1e-12));
      if (volume < heaped_below) {
        CHECK(exposed == Approx(least).epsilon(1e-12));
        CHECK(lies.height.value() == Approx(0.5 * std::sqrt(lies.plan.value())).epsilon(1e-12));
      } else {
        CHECK(exposed == Approx(side * side + 4.0 * volume / side).epsilon(1e-12));
      }
      for (int part = 1; part <= 200; ++part) {
        const double width = side * part / 200.0;
        CHECK(exposed <= (width * width + 4.0 * volume / width) * (1.0 + 1e-12));
      }
      // Continuous: a millionth more has no more than some millionths more to the air. Its share of V in A is at most 1.
      const double more = lying(bin, (1.0 + 1e-6) * volume * unit::m3).exposed.value();
      CHECK(more > exposed);
      CHECK(more <= exposed * (1.0 + 1.001e-6));
    }
    const double before = lying(bin, (1.0 - 1e-9) * heaped_below * unit::m3).exposed.value();
    CHECK(lying(bin, (1.0 + 1e-9) * heaped_below * unit::m3).exposed.value() == Approx(before).epsilon(3e-9));
  }
}

TEST_CASE("bins of other shapes hold what lies in them, a little in a wide one heaped up", "[process][reference][laws]") {
  PileDescription oblong = square_bin(1.0);
  oblong.length = 2.5 * unit::m;
  PileDescription round = square_bin(1.0);
  round.shape = PileShape::round;
  round.diameter = 1.5 * unit::m;
  const double floor_of_round = std::numbers::pi / 4.0 * 1.5 * 1.5;
  for (double volume = 0.02; volume < 5.0; volume *= 1.1) {
    CAPTURE(volume);
    const LyingPile in_oblong = lying(oblong, volume * unit::m3);
    CHECK(in_oblong.plan.value() * in_oblong.height.value() == Approx(volume).epsilon(1e-12));
    CHECK(in_oblong.plan.value() <= 2.5 * (1.0 + 1e-12));
    const LyingPile in_round = lying(round, volume * unit::m3);
    CHECK(in_round.plan.value() * in_round.height.value() == Approx(volume).epsilon(1e-12));
    CHECK(in_round.plan.value() <= floor_of_round * (1.0 + 1e-12));
    // A cylinder has least to the air where it is half as high as wide.
    const double width = std::sqrt(4.0 / std::numbers::pi * in_round.plan.value());
    if (in_round.plan.value() < floor_of_round * (1.0 - 1e-9)) CHECK(in_round.height.value() == Approx(0.5 * width).epsilon(1e-12));
    CHECK(in_round.height.value() >= 0.5 * width * (1.0 - 1e-12));
    CHECK(in_round.exposed.value() == Approx(in_round.plan.value() + std::numbers::pi * width * in_round.height.value()).epsilon(1e-12));
  }
  CHECK(lying(oblong, 0.1 * unit::m3).plan.value() < 2.5);
  CHECK(lying(oblong, 2.5 * unit::m3).plan.value() == Approx(2.5).epsilon(1e-12));
  CHECK(lying(round, 0.1 * unit::m3).plan.value() < floor_of_round);
  CHECK(lying(round, 2.0 * unit::m3).plan.value() == Approx(floor_of_round).epsilon(1e-12));
}

TEST_CASE("settled mass, density and volume of a bin agree", "[process][reference][laws]") {
  // Height and density hang together; three rounds leave the density at the height of the round before.
  const SettledDensity density = law({{leaves, 0.75}, {grass, 0.14}, {food, 0.11}}, 0.55);
  const PileDescription bin = square_bin(1.2192);
  for (const double dry : {30.0, 100.0, 200.0, 400.0, 800.0}) {
    CAPTURE(dry);
    const SettledShape shape = settled_shape(dry * unit::kg_dry, density, 1.0, bin);
    const double height = shape.volume.value() / shape.plan.value();
    // In a full bin a height off by so much leaves the next off by a fifth of that. Three rounds leave 0.2² of the density's change in the
    // first, which is a fifth more than the whole.
    const double first = std::pow(std::max(1.0, height), 0.2) - 1.0;
    CHECK(shape.volume.value() * kg_per_m3(density, height) == Approx(dry).epsilon(0.05 * first + 1e-12));
    CHECK(shape.exposed.value() == Approx(lying(bin, shape.volume).exposed.value()).epsilon(1e-12));
  }
}
