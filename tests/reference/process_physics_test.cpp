// The heap model where physics has a closed form: cooling, decay, heating without loss, diffusion with uptake, saturated air, freezing.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include "heapwright/process/air.hpp"
#include "heapwright/process/pile.hpp"

using namespace heapwright;
using std::numbers::pi;

namespace {

/// The best set with nothing that moves air, vapour or heat but what a test lets.
ProcessParameters still() {
  ProcessParameters p = built_in_ensemble().best;
  p.kF = p.kS = 0.0;
  p.Kp = p.u0 = 0.0;
  p.a0 = 1.0;    // all microbes there: activity stays 1
  p.yO = 1e-12;  // oxygen is never short
  return p;
}

HeapContents matter(double fast_kg, double inert_kg, double water_kg) {
  return {fast_kg * unit::kg_organic, 0.0 * unit::kg_organic,    inert_kg * unit::kg_organic,
          0.0 * unit::kg_dry,         water_kg * unit::kg_water, 0.0 * unit::kg_nitrogen};
}

/// A whole ball, so that the exposed area is a sphere's; as good as closed to gas unless cover is 1.
PileShape ball(double radius, double cover = 1e-9) {
  return {4.0 / 3.0 * pi * radius * radius * radius * unit::m3, 4.0 * pi * radius * radius * unit::m2, 1.0, cover};
}

double volume_of(double radius) { return ball(radius).volume.value(); }
TemperaturePoint celsius(double value) { return TemperaturePoint::from_celsius(value); }

/// Excess over the air of a ball with a film, over what it began with: the series of heat conduction (Carslaw and Jaeger, Conduction of
/// Heat in Solids, the sphere with radiation at its surface; from memory), of the whole and of the ball within share x of the radius.
struct Excess {
  double mean = 0.0;
  double core = 0.0;
};
Excess cooled(double biot, double fourier, double x) {
  Excess excess;
  for (int n = 1; n <= 60; ++n) {
    double low = (n - 1) * pi + 1e-12;
    double high = n * pi - 1e-12;  // 1 − μ cot μ rises from 0 or −∞ to ∞ between
    for (int i = 0; i < 200; ++i) {
      const double mu = 0.5 * (low + high);
      (1.0 - mu / std::tan(mu) < biot ? low : high) = mu;
    }
    const double mu = 0.5 * (low + high);
    const auto ball_mean = [&](double y) { return 3.0 * (std::sin(y) - y * std::cos(y)) / (y * y * y); };
    const double amplitude = 2.0 * (std::sin(mu) - mu * std::cos(mu)) / (mu - std::sin(mu) * std::cos(mu)) * std::exp(-mu * mu * fourier);
    excess.mean += amplitude * ball_mean(mu);
    excess.core += amplitude * ball_mean(mu * x);
  }
  return excess;
}

/// What a ball of so many shells keeps of its excess after a day.
Excess cooled_by_the_model(double radius, double biot, double fourier) {
  constexpr double dry_density = 200.0;
  ProcessParameters p = still();
  p.k0 = fourier * radius * radius * dry_density * p.cd / 86400.0;
  p.k1 = p.k2 = 0.0;
  p.h = biot * p.k0 / radius;
  Pile pile(p, matter(0.0, dry_density * volume_of(radius), 0.0), ball(radius), celsius(60.0));
  pile.live_a_day(celsius(20.0), {600.0});
  return {(pile.state().mean_degc - 20.0) / 40.0, (pile.state().core_degc - 20.0) / 40.0};
}

}  // namespace

TEST_CASE("a ball with a film cools as the series says", "[process][reference]") {
  const double biot = 4.0;
  const double fourier = 0.15;
  const Excess exact6 = cooled(biot, fourier, 1.0 / 6.0);
  const Excess exact3 = cooled(biot, fourier, 1.0 / 3.0);
  const Excess six = cooled_by_the_model(0.48, biot, fourier);
  const Excess three = cooled_by_the_model(0.24, biot, fourier);
  const double mean_of_three = std::abs(three.mean - exact3.mean);
  const double mean_of_six = std::abs(six.mean - exact6.mean);
  CAPTURE(exact6.mean, six.mean, three.mean, exact6.core, six.core, exact3.core, three.core);
  // Shells of one temperature are right to the second order in their thickness: twice as many, a quarter of the error, and a third
  // where the next order still counts. What is left of it is then below half of what three shells miss, which is below 3 %.
  CHECK(mean_of_three < 0.03);
  CHECK(mean_of_six < mean_of_three / 3.0);
  CHECK(std::abs(six.core - exact6.core) < 0.02);
}

TEST_CASE("at one temperature matter rots by the exponential", "[process][reference]") {
  ProcessParameters p = still();
  p.kF = 0.098;
  p.dH = 0.0;
  p.yW = 0.0;
  // So little rots that moisture and air stay, and what it takes with it is as warm as the rest.
  const double inert = 100.0;
  const double fast = 1e-6 * inert;
  Pile pile(p, matter(fast, inert, 150.0), ball(0.48), celsius(37.0));
  const double moisture = 150.0 / 250.0;
  const double air = 1.0 - (100.0 / 1500.0 + 150.0 / 1000.0) / volume_of(0.48);
  const double g = 1.0 / (1.0 + std::exp(-17.684 * moisture + 7.0622)) / (1.0 + std::exp(-23.675 * air + 3.4945));
  for (int day = 1; day <= 40; ++day) pile.live_a_day(celsius(37.0), {1800.0});
  const double left = 1.0 - pile.state().volatile_solids_loss * (inert + fast) / fast;
  // Heun over 1800 s is off by (k dt)³/6 a step, 1.3e-9, over 1920 steps 2.6e-6; what rots is 1e-6 of the heap and moves g by as much.
  CHECK(left == Approx(std::exp(-0.098 * g * 40.0)).epsilon(1e-5));
  CHECK(pile.state().core_degc == Approx(37.0).margin(1e-6));
}

TEST_CASE("without losses a heap warms by its heat over its heat capacity", "[process][reference]") {
  ProcessParameters p = still();
  p.kF = 0.02;
  p.h = 1e-12;
  p.yW = 0.0;  // so that only dry matter leaves, as warm as it is: C dT = dH r dt, C = C1 + cd F
  Pile pile(p, matter(20.0, 80.0, 150.0), ball(0.48), celsius(20.0));
  for (int day = 0; day < 4; ++day) pile.live_a_day(celsius(20.0), {600.0});
  const double gone = pile.state().volatile_solids_loss * 100.0;
  REQUIRE(gone > 0.1);
  const double before = p.cd * 100.0 + p.cw * 150.0;
  const double after = before - p.cd * gone;
  // Heun's steps of ten minutes leave less than a ten-thousandth.
  CHECK(pile.state().mean_degc - 20.0 == Approx(p.dH / p.cd * std::log(before / after)).epsilon(1e-4));
  CHECK(pile.state().core_degc == Approx(pile.state().edge_degc).margin(1e-6));
}

TEST_CASE("oxygen in a ball that takes it up in proportion has its closed form", "[process][reference]") {
  // O(r) = C sinh(φ r/R)/(r/R), φ² = κ R²/(e² D), and at the surface e² D dO/dr = D (0.205 − O)/dlat: Thiele's problem (from memory).
  const auto core_of = [](double radius, int shells) {
    ProcessParameters p = still();
    p.KO = 1e6;  // uptake in proportion to oxygen
    p.yO = 1.42;
    p.kF = 0.012 * (0.48 / radius) * (0.48 / radius);  // the same φ in a smaller ball
    p.dlat = 0.05 * radius / 0.48;
    const double volume = volume_of(radius);
    const Pile pile(p, matter(100.0 * volume, 100.0 * volume, 300.0 * volume), ball(radius, 1.0), celsius(37.0));
    REQUIRE(pile.shells() == shells);
    const double moisture = 0.6;
    const double air = 1.0 - (200.0 / 1500.0 + 300.0 / 1000.0);
    const double g = 1.0 / (1.0 + std::exp(-17.684 * moisture + 7.0622)) / (1.0 + std::exp(-23.675 * air + 3.4945));
    const double uptake = p.kF / 86400.0 * g * 100.0 * p.yO / 1.33 / 0.205;  // 1/s
    const double diffusivity = 2.0e-5;
    const double phi = std::sqrt(uptake * radius * radius / (air * air * diffusivity));
    const double c = 0.205 / (std::sinh(phi) + air * air * p.dlat / radius * (phi * std::cosh(phi) - std::sinh(phi)));
    const double y = phi / shells;
    const double exact = c * 3.0 * (y * std::cosh(y) - std::sinh(y)) / (y * y * y) * phi;  // mean of the innermost shell
    CAPTURE(phi, exact, pile.state().core_oxygen);
    CHECK(phi > 1.0);
    return std::abs(pile.state().core_oxygen - exact) / exact;
  };
  const double three = core_of(0.24, 3);
  const double six = core_of(0.48, 6);
  CAPTURE(three, six);
  // Second order in the shells, as above.
  CHECK(three < 0.06);
  CHECK(six < three / 3.0);
}

TEST_CASE("saturated air is as the steam tables have it", "[process][reference]") {
  // Saturation pressures of IAPWS-IF97, Pa (from memory).
  const std::vector<std::pair<double, double>> points{{0.01, 611.66}, {20.0, 2339.3}, {40.0, 7384.9}, {60.0, 19946.0}};
  for (const auto& [temperature, pressure] : points) {
    CAPTURE(temperature);
    CHECK(saturated_vapour(temperature) * 461.5 * (temperature + 273.15) == Approx(pressure).epsilon(0.005));
  }
}

TEST_CASE("a wet heap stays at freezing until its water is ice", "[process][reference]") {
  // So conductive within that it is of one temperature: it loses h A (T − Ta) until the heat of fusion of all its water is gone.
  ProcessParameters p = still();
  p.k0 = 20.0;
  p.h = 1.0;
  const double radius = 0.24;
  const double water = 20.0;
  Pile pile(p, matter(0.0, 10.0, water), ball(radius), celsius(0.5));
  const double watt = 4.0 * pi * radius * radius / (1.0 / p.h + radius / 3.0 / (2.0 * p.k0)) * 10.0;
  const double days = 3.34e5 * water / watt / 86400.0;
  REQUIRE(days > 5.0);
  int frozen = 0;
  while (frozen < 40 && pile.state().mean_degc > -0.5) {
    pile.live_a_day(celsius(-10.0), {3600.0});
    ++frozen;
  }
  // Read once a day, and half a kelvin more takes a few hours.
  CHECK(frozen >= days);
  CHECK(frozen <= days + 1.5);
  CHECK(std::abs(pile.closure().energy) < 1e-10);
}
