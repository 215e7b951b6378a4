// The pile model against physics that can be solved by hand: a ball that cools, air that is used up on its way to the core, matter that
// rots at one rate, heat that stays in, steam tables, and water that freezes. Parameters switch off whatever a closed form leaves out.
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "heapwright/process/air.hpp"
#include "heapwright/process/pile.hpp"

using namespace heapwright;
using std::numbers::pi;

namespace {

constexpr double seconds_a_day = 86400.0;
constexpr double ambient = 0.205;     // volume fraction of oxygen in air
constexpr double a_leak = 1e-9;       // of a free surface: as good as sealed, and yet oxygen has a way in
constexpr double very_cold = -150.0;  // °C: air that holds no vapour worth the name, for piles that pass no heat to it

TemperaturePoint celsius(double value) { return TemperaturePoint::from_celsius(value); }

/// A whole ball, all of whose surface meets the air. Shells are 0.08 m thick, so that its radius sets how many there are.
struct Ball {
  double radius = 0.48;        ///< m
  double dry_density = 150.0;  ///< kg/m³
  double water = 0.0;          ///< kg per m³ of pile
  double fast = 0.0;           ///< share of the dry matter
  double slow = 0.0;           ///< likewise; the rest is ash
  double cover = a_leak;

  double volume() const { return 4.0 / 3.0 * pi * radius * radius * radius; }
  double surface() const { return 4.0 * pi * radius * radius; }
  double dry() const { return dry_density * volume(); }
  Pile pile(const ProcessParameters& p, double start) const {
    const double inert = fast + slow > 0.0 ? 0.0 : 1e-9;  // a pile wants some organic matter
    const PileContents contents{fast * dry() * unit::kg_organic,
                                slow * dry() * unit::kg_organic,
                                inert * dry() * unit::kg_organic,
                                OrganicMass(),
                                (1.0 - fast - slow) * dry() * unit::kg_dry,
                                water * volume() * unit::kg_water,
                                NitrogenMass()};
    return Pile(p, contents, {volume() * unit::m3, surface() * unit::m2, Area(), 1.0, cover}, celsius(start));
  }
};

/// The best set without moving air and without sagging below the density that a pile is built with; all oxygen that matter can use.
ProcessParameters quiet() {
  ProcessParameters p = built_in_ensemble().best;
  p.Kp = p.u0 = p.rhoF = p.yO = 0.0;
  return p;
}

/// A figure of balls of three to six shells, held against that of a continuous one.
///
/// Shells give a figure to second order: v(n) = v + a/n² + b/n⁴ + … . Then a third of v₃ − v₆ is a/36 + 5b/1296, which is the error at
/// six shells but for the second term, and the limit taken from both, v = (4 v₆ − v₃)/3, is left with −4b/1296. Three shells are enough
/// only if there the second term is below half the first, b/81 < a/18: then what is left is below half of that error, b/(9a) < 1/2.
/// In the course of time a(t) changes its sign, so both are taken at their largest over the trajectory.
class Convergence {
 public:
  static constexpr double left = 0.5;

  using Figures = std::array<double, 7>;  ///< by the number of shells, from three on

  void take(const Figures& figures, double exact) {
    for (std::size_t n = 3; n <= 6; ++n) error_[n] = std::max(error_[n], std::abs(figures[n] - exact));
    limit_ = std::max(limit_, std::abs((4.0 * figures[6] - figures[3]) / 3.0 - exact));
    by_shells_ = std::max(by_shells_, std::abs(figures[6] - figures[3]) / 3.0);
  }
  /// What the limit is still off, of the error that shells show at six.
  double share() const { return limit_ / by_shells_; }
  /// 2 if the error falls as the square of the number of shells.
  double order() const { return std::log2(error_[3] / error_[6]); }
  bool falls() const { return error_[3] > error_[4] && error_[4] > error_[5] && error_[5] > error_[6]; }
  double error() const { return error_[6]; }

 private:
  Figures error_{};
  double limit_ = 0.0;
  double by_shells_ = 0.0;
};

/// Worst of several trajectories.
struct Convergences {
  double share = 0.0;
  double least_order = 9.0;
  double most_order = 0.0;
  double error = 0.0;  ///< at six shells
  bool fall = true;

  void take(const Convergence& trajectory) {
    share = std::max(share, trajectory.share());
    least_order = std::min(least_order, trajectory.order());
    most_order = std::max(most_order, trajectory.order());
    error = std::max(error, trajectory.error());
    fall = fall && trajectory.falls();
  }
};

void check(const Convergences& means, const Convergences& centres) {
  CAPTURE(means.share, means.least_order, means.most_order, means.error);
  CAPTURE(centres.share, centres.least_order, centres.most_order, centres.error);
  CHECK(means.share < Convergence::left);
  CHECK(means.fall);
  CHECK(centres.share < Convergence::left);
  CHECK(centres.fall);
}

// A ball of one conductivity cools in air, through a film. With Bi = hR/k and Fo = kt/(ρcR²), the excess over the air at r is
//   Σ 2 (sin μ − μ cos μ)/(μ − sin μ cos μ) · sin(μr/R)/(μr/R) · exp(−μ² Fo),   μ cos μ + (Bi − 1) sin μ = 0,
// of that at the start: Carslaw and Jaeger, Conduction of Heat in Solids (1959), the sphere with radiation at its surface, from memory;
// every textbook of heat has it.
class CoolingBall {
 public:
  explicit CoolingBall(double biot) {
    for (std::size_t n = 0; n < roots_.size(); ++n) {
      const auto f = [&](double m) { return m * std::cos(m) + (biot - 1.0) * std::sin(m); };
      double low = static_cast<double>(n) * pi + 1e-9;
      double high = static_cast<double>(n + 1) * pi;
      const bool rising = f(low) < 0.0;
      for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        ((f(middle) < 0.0) == rising ? low : high) = middle;
      }
      roots_[n] = 0.5 * (low + high);
    }
  }
  double centre(double fourier) const {
    return sum(fourier, [](double) { return 1.0; });
  }
  double mean(double fourier) const {
    return sum(fourier, [](double m) { return 3.0 * (std::sin(m) - m * std::cos(m)) / (m * m * m); });
  }

 private:
  template <class Place>
  double sum(double fourier, Place place) const {
    double total = 0.0;
    for (const double m : roots_)
      total += 2.0 * (std::sin(m) - m * std::cos(m)) / (m - std::sin(m) * std::cos(m)) * std::exp(-m * m * fourier) * place(m);
    return total;
  }
  std::array<double, 8> roots_{};  // exp(−(7π)² · 0.2) is nothing
};

// First-order uptake on the way to the core, D r⁻² (r² O')' = s O, through a film: with φ = R √(s/D) and Bi = R/film · D of air/D,
//   O(r) = O_R · R sinh(φ r/R)/(r sinh φ),   O_R = Bi/(Bi + φ coth φ − 1) of the air's:
// Thiele's problem (1939, from memory), with the film as textbooks of reactors have it.
struct BreathingBall {
  double phi;
  double biot;

  double surface() const { return biot / (biot + phi / std::tanh(phi) - 1.0); }
  double centre() const { return surface() * phi / std::sinh(phi); }
  double mean() const { return surface() * 3.0 / (phi * phi) * (phi / std::tanh(phi) - 1.0); }
};

// How fast matter rots, 1 at 37 °C in moist, aired matter: the cardinal temperature model of Rosso and others (1993) and Haug's factors
// of moisture and air space (1993), each from memory, entered a second time.
double cardinal(const ProcessParameters& p, double t) {
  const double above = t - p.Tmin;
  const double span = p.Topt - p.Tmin;
  return (t - p.Tmax) * above * above / (span * (span * (t - p.Topt) - (p.Topt - p.Tmax) * (p.Topt + p.Tmin - 2.0 * t)));
}
double moist(double moisture) { return 1.0 / (1.0 + std::exp(-17.684 * moisture + 7.0622)); }
double aired(double air_space) { return 1.0 / (1.0 + std::exp(-23.675 * air_space + 3.4945)); }
double air_space(const Ball& ball) { return 1.0 - ball.dry_density / 1500.0 - ball.water / 1000.0; }
double growth(const ProcessParameters& p, double t, const Ball& ball) {
  return cardinal(p, t) / cardinal(p, 37.0) * moist(ball.water / (ball.water + ball.dry_density)) * aired(air_space(ball));
}

}  // namespace

TEST_CASE("a dry ball cools as the series has it", "[process][reference]") {
  // Conductivity and film follow from Bi and a Fourier number of 0.05 a day, so that balls of three to six shells differ in nothing but
  // their shells. From Fo = 0.2 on; before, little but the outermost tenths has cooled, and three shells do not see them.
  constexpr double fourier_a_day = 0.05;
  constexpr double air = 10.0;
  constexpr double above = 50.0;
  Convergences means, centres;
  for (const double biot : {0.5, 2.0, 10.0}) {
    std::array<std::array<PileState, 13>, 7> trajectory;
    for (int n = 3; n <= 6; ++n) {
      const Ball ball{.radius = 0.08 * n, .dry_density = 200.0};
      ProcessParameters p = quiet();
      p.kF = p.kS = 0.0;
      p.k1 = p.k2 = 0.0;
      p.k0 = fourier_a_day / seconds_a_day * ball.radius * ball.radius * ball.dry_density * p.cd;
      p.h = biot * p.k0 / ball.radius;
      Pile pile = ball.pile(p, air + above);
      REQUIRE(pile.shells() == n);
      for (PileState& state : trajectory[static_cast<std::size_t>(n)]) {
        state = pile.state();
        pile.live_a_day(celsius(air), Steps{1200.0 * unit::s});  // 72 steps for a Fourier number of 0.05: their own error is below 1e-5
      }
    }
    const CoolingBall exact(biot);
    Convergence mean, centre;
    for (std::size_t days = 4; days <= 12; ++days) {
      Convergence::Figures whole{}, core{};
      for (std::size_t n = 3; n <= 6; ++n) {
        whole[n] = (trajectory[n][days].mean.celsius() - air) / above;
        core[n] = (trajectory[n][days].core.celsius() - air) / above;
      }
      mean.take(whole, exact.mean(fourier_a_day * static_cast<double>(days)));
      centre.take(core, exact.centre(fourier_a_day * static_cast<double>(days)));
    }
    means.take(mean);
    centres.take(centre);
  }
  check(means, centres);
}

TEST_CASE("oxygen is used up on its way to the core as in a porous ball", "[process][reference]") {
  // Half-saturation far above the air makes the uptake first order, and it takes so much oxygen per kg that next to nothing rots in a day:
  // what does tells the mean. Dry matter under cold air that takes no heat: no vapour moves.
  Convergences means, centres;
  for (const double phi : {0.5, 1.0, 2.0, 3.0}) {
    for (const double biot : {1.0, 5.0, 50.0}) {
      Convergence::Figures core{}, whole{};
      for (std::size_t n = 3; n <= 6; ++n) {
        const Ball ball{.radius = 0.08 * static_cast<double>(n), .dry_density = 300.0, .fast = 1.0, .cover = 1.0};
        ProcessParameters p = quiet();
        const double space = air_space(ball);
        const double diffusivity = space * space * 2.0e-5;  // m²/s
        const double uptake = phi * phi * diffusivity / (ball.radius * ball.radius);
        const double rate = growth(p, 37.0, ball);
        p.a0 = 1.0;
        p.h = p.dH = p.yW = 0.0;
        p.KO = 1e9;
        p.yO = 1e7;
        p.dlat = ball.radius / (biot * space * space);
        p.kF = uptake * ambient * 1.33 / p.yO * seconds_a_day / (ball.dry_density * rate);  // 1.33 kg/m³ of oxygen
        Pile pile = ball.pile(p, 37.0);
        core[n] = pile.state().core_oxygen / ambient;
        pile.live_a_day(celsius(very_cold), Steps{3600.0 * unit::s});
        whole[n] = pile.state().volatile_solids_loss / (p.kF * rate);
      }
      const BreathingBall exact{phi, biot};
      Convergence mean, centre;
      mean.take(whole, exact.mean());
      centre.take(core, exact.centre());
      means.take(mean);
      centres.take(centre);
    }
  }
  check(means, centres);
}

TEST_CASE("matter at one temperature rots exponentially", "[process][reference]") {
  // So little of it that the pile stays as dense and moist as it is: a part in 10⁹ of dry matter moves moisture and air space by that, and
  // the rate, steepest in air space, by 24 times that.
  constexpr double trace = 1e-9;
  constexpr double step = 3600.0;
  constexpr int days = 40;
  struct Start {
    double celsius, dry_density, water;
  };
  double worst = 0.0;  // over what may be
  double least_left = 1.0;
  for (const Start& start : {Start{2.0, 150.0, 150.0}, Start{20.0, 150.0, 150.0}, Start{37.0, 150.0, 200.0}, Start{57.4, 120.0, 180.0},
                             Start{66.0, 150.0, 150.0}, Start{50.0, 200.0, 60.0}, Start{50.0, 300.0, 640.0}}) {
    for (const bool fast : {true, false}) {
      ProcessParameters p = quiet();
      p.dH = 0.0;
      p.a0 = 1.0;
      const Ball ball{.dry_density = start.dry_density, .water = start.water, .fast = fast ? trace : 0.0, .slow = fast ? 0.0 : trace};
      Pile pile = ball.pile(p, start.celsius);
      const double rate = (fast ? p.kF : p.kS) * growth(p, start.celsius, ball);  // 1/d
      for (int day = 1; day <= days; ++day) {
        pile.live_a_day(celsius(start.celsius), Steps{step * unit::s});
        const double left = std::exp(-rate * day);
        // A step of Heun's method leaves 1 − z + z²/2 where exp(−z) is due: z³/6 + z⁴/8 + … too much of what is left, each time.
        const double z = rate * step / seconds_a_day;
        const double allowed = left * rate * day * (z * z / 6.0 * (1.0 + z) + 24.0 * trace) + 1e-13;
        worst = std::max(worst, std::abs(1.0 - pile.state().volatile_solids_loss - left) / allowed);
        least_left = std::min(least_left, left);
      }
    }
  }
  CHECK(worst <= 1.0);
  CHECK(least_left < 0.05);  // it has rotted
}

TEST_CASE("activity grows logistically", "[process][reference]") {
  // da/dt = μg a (1 − a) and dF/dt = −kF g a F together leave F/F₀ = (1 − a₀ + a₀ exp(μgt))^(−kF/μ).
  constexpr double trace = 1e-9;
  ProcessParameters p = quiet();
  p.dH = 0.0;
  p.a0 = 0.01;
  const Ball ball{.water = 200.0, .fast = trace};
  const double rate = p.mu * growth(p, 20.0, ball);  // 1/d
  double worst = 0.0;                                // over what may be
  double by_hours = 0.0, by_halves = 0.0;
  Pile coarse = ball.pile(p, 20.0);
  Pile fine = coarse;
  for (int day = 1; day <= 40; ++day) {
    coarse.live_a_day(celsius(20.0), Steps{3600.0 * unit::s});
    fine.live_a_day(celsius(20.0), Steps{1800.0 * unit::s});
    const double exact = 1.0 - std::pow(1.0 - p.a0 + p.a0 * std::exp(rate * day), -p.kF / p.mu);
    const double hours = coarse.state().volatile_solids_loss;
    const double halves = fine.state().volatile_solids_loss;
    by_hours = std::max(by_hours, std::abs(hours - exact));
    by_halves = std::max(by_halves, std::abs(halves - exact));
    // Heun's method is of second order: steps of half an hour are off by a third of what the two differ by. The next order is to that as a
    // step is to the time that activity takes to grow; and 24 traces as above.
    const double limit = halves + (halves - hours) / 3.0;
    worst = std::max(worst, std::abs(limit - exact) / (rate / 24.0 * std::abs(halves - hours) + 24.0 * trace));
  }
  CAPTURE(by_hours, by_halves, by_hours / by_halves);
  CHECK(worst <= 1.0);
}

TEST_CASE("heat that cannot leave warms the pile by what it weighs", "[process][reference]") {
  // Of x kg oxidised dH stays as heat and yW as water, and the dry matter is gone: C = C₀ + c x with c = yW cw − cd, and C dT = dH dx.
  // Hence T − T₀ = dH/c · ln(1 + c x/C₀).
  ProcessParameters p = quiet();
  p.h = 0.0;
  double worst = 0.0;  // over what may be
  double apart = 0.0;
  double coolest = 99.0, hottest = 0.0;
  for (const double water : {80.0, 150.0, 250.0}) {
    const Ball ball{.water = water, .fast = 0.30, .slow = 0.20};
    Pile pile = ball.pile(p, 15.0);
    const double capacity = p.cd * ball.dry() + p.cw * water * ball.volume();
    const double change = p.yW * p.cw - p.cd;
    double most_in_a_day = 0.0;
    double before = 15.0;
    for (int day = 0; day < 30; ++day) {
      pile.live_a_day(celsius(15.0), Steps{1800.0 * unit::s});
      const PileState now = pile.state();
      const double oxidised = now.volatile_solids_loss * 0.50 * ball.dry();
      const double rise = p.dH / change * std::log1p(change * oxidised / capacity);
      most_in_a_day = std::max(most_in_a_day, now.mean.celsius() - before);
      before = now.mean.celsius();
      // A step takes the heat c T of its matter at temperatures within the step: wrong by less than c times what it warms, beside dH, and
      // no step warms by as much as the fastest day. A millionth of a degree for the leak.
      const double allowed = rise * change * most_in_a_day / p.dH + 1e-6;
      worst = std::max(worst, std::abs(now.mean.celsius() - 15.0 - rise) / allowed);
      apart = std::max(apart, std::abs(now.core.celsius() - now.edge.celsius()));
    }
    coolest = std::min(coolest, before);
    hottest = std::max(hottest, before);
  }
  CHECK(worst <= 1.0);
  CHECK(apart < 1e-6);
  CHECK(coolest > 40.0);  // all have heated, and
  CHECK(hottest < p.Tmax);
}

TEST_CASE("saturated air holds what the steam tables say", "[process][reference]") {
  // IAPWS-IF97 by Debian's python3-iapws 1.5.3: pressure and density of saturated steam.
  struct Steam {
    double celsius, pascal, kg_per_m3;
  };
  constexpr std::array tables{Steam{0.01, 611.657, 0.00485443}, Steam{5.0, 872.575, 0.00680194}, Steam{10.0, 1228.18, 0.00940657},
                              Steam{20.0, 2339.21, 0.0173126},  Steam{30.0, 4246.69, 0.0304122}, Steam{40.0, 7384.43, 0.0512373},
                              Steam{50.0, 12351.3, 0.0831403},  Steam{60.0, 19945.8, 0.130418},  Steam{70.0, 31200.6, 0.198423},
                              Steam{75.0, 38595.4, 0.242185},   Steam{80.0, 47414.7, 0.293663}};
  double density = 0.0, to_50 = 0.0, above = 0.0;
  for (const Steam& row : tables) {
    density = std::max(density, std::abs(saturated_vapour(row.celsius) / row.kg_per_m3 - 1.0));
    const double pressure = saturated_vapour(row.celsius) * 461.5 * (row.celsius + 273.15);  // J/(kg K), of water vapour
    double& worst = row.celsius <= 50.0 ? to_50 : above;
    worst = std::max(worst, std::abs(pressure / row.pascal - 1.0));
  }
  CAPTURE(density, to_50, above);
  // The model carries a density, within 0.5 % of the tables. Alduchov and Eskridge claim 0.4 % of the pressure from −40 to 50 °C (from
  // memory). Beyond, it runs away by up to 1.4 %, as air.hpp says; that steam is no ideal gas makes up for it in the density.
  CHECK(density < 0.005);
  CHECK(to_50 < 0.004);
  CHECK(above < 0.014);
}

TEST_CASE("freezing takes the heat of fusion from all the water", "[process][reference]") {
  // A wet ball that conducts so well that it is of one temperature, sealed but for heat. It cools exponentially to 0 °C, stays there until
  // all is frozen, and cools on; and back in the same way. From its temperature beyond the plateau follow the time on it and the heat.
  //
  // Its parts differ by Bi = hR/k, a quarter of a per cent, of what it is above the air. Fusion: 333.55 kJ/kg (ice at 0 °C, a handbook's,
  // from memory), from which the model's 334 is 0.14 % off.
  const Ball ball{.radius = 0.24, .dry_density = 200.0, .water = 300.0};
  ProcessParameters p = quiet();
  p.kF = p.kS = 0.0;
  p.k0 = 10.0;
  p.k1 = p.k2 = 0.0;
  p.h = 0.1;
  const double biot = p.h * ball.radius / p.k0;
  const double conductance = ball.surface() / (1.0 / p.h + ball.radius / 3.0 / (2.0 * p.k0));  // W/K, from the middle of the outer shell
  const double water = ball.water * ball.volume();
  const double lasting = (p.cd * ball.dry() + p.cw * water) / conductance;  // s
  for (const double way : {1.0, -1.0}) {                                    // freezing, thawing
    const double start = 4.0 * way;
    const double air = -20.0 * way;
    Pile pile = ball.pile(p, start);
    int days = 0, at_zero = 0;
    while (days < 120 && pile.state().core.celsius() * way > -3.0) {
      pile.live_a_day(celsius(air), Steps{600.0 * unit::s});
      at_zero += std::abs(pile.state().mean.celsius()) < 0.1 ? 1 : 0;
      ++days;
    }
    const double to_zero = lasting * std::log((start - air) / -air);
    const double beyond = lasting * std::log(-air / (pile.state().mean.celsius() - air));
    const double heat = (days * seconds_a_day - to_zero - beyond) * conductance * std::abs(air);
    CAPTURE(way, days, at_zero, heat / water, biot);
    CHECK(std::abs(heat / water / 333.55e3 - 1.0) < biot + 0.0014);
    CHECK(at_zero > 20);
  }
}

TEST_CASE("a turning loses its share of the heat above the air, most of it as vapor, and waters the mixed pile", "[process]") {
  const ProcessParameters p = quiet();
  const double water = GENERATE(300.0, 20.0);  // kg/m³: of the drier pile no more than a twentieth of its water goes
  constexpr double hot = 60.0, outside = 10.0;
  Ball ball;
  ball.water = water;
  ball.fast = 0.5;
  ball.slow = 0.2;
  const double dry = ball.dry(), wet = water * ball.volume();
  const double capacity = p.cd * dry + p.cw * wet;
  const double lost = p.chi * capacity * (hot - outside);
  const double dried = std::min(0.7 * lost / (2.501e6 + 1860.0 * hot), 0.05 * wet);
  const double left = wet - dried;
  const double heat = capacity * hot - lost;

  SECTION("as it is") {
    Pile pile = ball.pile(p, hot);
    pile.turn(celsius(outside), std::nullopt);
    const PileState turned = pile.state();
    CHECK(turned.mean.celsius() == Approx(heat / (p.cd * dry + p.cw * left)).epsilon(1e-9));
    CHECK(turned.core.celsius() == Approx(turned.edge.celsius()).epsilon(1e-9));
    CHECK(turned.moisture.value() == Approx(left / (dry + left)).epsilon(1e-9));
    CHECK(turned.dry.value() == Approx(dry).epsilon(1e-9));
    CHECK(pile.closure().energy == Approx(0.0).margin(1e-12));
    CHECK(pile.closure().water == Approx(0.0).margin(1e-12));
  }
  SECTION("with water as warm as the air, up to a moisture") {
    constexpr double moisture = 0.7;
    Pile pile = ball.pile(p, hot);
    pile.turn(celsius(outside), wet_basis(moisture));
    const double wetted = dry * moisture / (1.0 - moisture);
    const PileState turned = pile.state();
    CHECK(turned.moisture.value() == Approx(moisture).epsilon(1e-9));
    CHECK(turned.mean.celsius() == Approx((heat + p.cw * (wetted - left) * outside) / (p.cd * dry + p.cw * wetted)).epsilon(1e-9));
    CHECK(pile.water_given().value() == Approx(wetted - left).epsilon(1e-9));
  }
  SECTION("and nothing where the air is warmer") {
    Pile pile = ball.pile(p, hot);
    pile.turn(celsius(hot + 5.0), std::nullopt);
    CHECK(pile.state().mean.celsius() == Approx(hot).epsilon(1e-9));
    CHECK(pile.state().moisture.value() == Approx(wet / (dry + wet)).epsilon(1e-9));
  }
}
