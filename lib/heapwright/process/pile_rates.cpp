#include <algorithm>
#include <cmath>
#include <cstring>
#include <numbers>

#include "heapwright/process/abreast_parts.hpp"
#include "heapwright/process/air.hpp"

// What is worked out anew some fifty times a day of each pile of a forecast, most of its time. It alone is built with -ffast-math
// (lib/CMakeLists.txt): sums may be taken in another order, divisions be multiplications, and NaN, infinity and signs of zero do not count.
// Whatever guards against those is in pile.cpp. It is built twice, and a processor that takes four numbers at a time runs the second.

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define HEAPWRIGHT_WIDE __attribute__((target_clones("avx2", "default")))
#else
#define HEAPWRIGHT_WIDE
#endif
#define HEAPWRIGHT_WITHIN __attribute__((always_inline)) inline

namespace heapwright {
namespace {

using std::numbers::pi;

constexpr double ice_point_kelvin = 273.15;    // K
constexpr double air_density = 1.2;            // kg/m³
constexpr double air_heat = 1006.0;            // J/(kg K)
constexpr double air_viscosity = 1.9e-5;       // Pa s
constexpr double gravity = 9.81;               // m/s²
constexpr double oxygen_density = 1.33;        // kg/m³
constexpr double oxygen_diffusivity = 2.0e-5;  // m²/s, in air
constexpr double vapour_diffusivity = 2.6e-5;  // m²/s, in air
constexpr double half_bound_water = 0.08;      // kg/kg dry: below about this the vapour pressure falls
constexpr double least_air = 0.02;             // 1
constexpr double settled_oxygen = 1e-9;        // 1
constexpr int sweeps_of_bound = 8;
constexpr double sweeps_of_a_step = 2.0;

HEAPWRIGHT_WITHIN Lanes least(const Lanes& one, const Lanes& other) { return one < other ? one : other; }
HEAPWRIGHT_WITHIN Lanes most(const Lanes& one, const Lanes& other) { return one > other ? one : other; }
HEAPWRIGHT_WITHIN Lanes all(double value) { return value - Lanes{}; }

/// Of each lane, in a loop that the compiler takes several at a time.
template <class Function>
HEAPWRIGHT_WITHIN Lanes of_each(Lanes x, Function function) {
  double of[piles_abreast];  // NOLINT(modernize-avoid-c-arrays): with std::array the last digits of a forecast differ
  std::memcpy(of, &x, sizeof of);
  for (double& one : of) one = function(one);
  std::memcpy(&x, of, sizeof of);
  return x;
}
HEAPWRIGHT_WITHIN Lanes power_of_e(const Lanes& x) {
  return of_each(x, [](double one) { return std::exp(one); });
}
HEAPWRIGHT_WITHIN Lanes logarithm(const Lanes& x) {
  return of_each(x, [](double one) { return std::log(one); });
}

/// Of all shells in a row: a call in the midst of other work would cost that its registers.
HEAPWRIGHT_WITHIN void raise_e_to(ShellsAbreast& x, std::size_t n) {
  for (std::size_t i = 0; i < n; ++i) x[i] = power_of_e(x[i]);
}

HEAPWRIGHT_WITHIN bool is_any(const LanesWhere& where) {
  std::int64_t any = 0;
  for (int lane = 0; lane < piles_abreast; ++lane) any |= where[lane];
  return any != 0;
}

/// As magnus_exponent() and saturated_vapour() of air.hpp, the latter over matter that holds so much water.
HEAPWRIGHT_WITHIN Lanes exponent_of_vapour(const Lanes& celsius) { return 17.625 * celsius / (celsius + 243.04); }
HEAPWRIGHT_WITHIN Lanes vapour_over(const Lanes& wet, const Lanes& celsius, const Lanes& power) {
  constexpr double gas_constant = 461.5;  // J/(kg K), of vapour
  return 610.94 / gas_constant * power * wet / ((wet + half_bound_water) * (celsius + ice_point_kelvin));
}
HEAPWRIGHT_WITHIN Lanes enthalpy_of_vapour(const Lanes& celsius) { return 2.501e6 + 1860.0 * celsius; }

HEAPWRIGHT_WITHIN void measure_lanes(const PilesAbreast& p, const StockAbreast& stock, const AirAbreast& air, ShapeAbreast& shape) {
  const std::size_t n = p.shells;
  ShellsAbreast wet, solid, shrunk, boiling;
  for (std::size_t i = 0; i < n; ++i) {
    const Lanes rotting = stock.fast[i] + stock.slow[i];
    const Lanes dry = rotting + p.fixed * p.share[i];
    const Lanes water = stock.water[i];
    const Lanes capacity = p.cd * dry + p.cw * water;
    const Lanes heat = stock.enthalpy[i];
    const Lanes frozen = least(Lanes{}, heat + heat_of_fusion * water);  // of what thaws nothing is missing
    const Lanes all_mass = water + dry;
    const Lanes per_product = 1.0 / (capacity * dry * all_mass);  // a division takes as long as ten products
    const Lanes celsius = (heat >= 0.0 ? heat : frozen) * (dry * all_mass * per_product);
    const Lanes of_water = water * (capacity * all_mass * per_product);
    wet[i] = of_water;
    solid[i] = 1.0 / density_of_solids.value() + of_water / water_kg_per_m3;
    shrunk[i] = p.log_shrink * most(Lanes{}, 1.0 - rotting * p.per_degradable * p.per_share[i]);
    boiling[i] = exponent_of_vapour(celsius);
    shape.dry[i] = dry;
    shape.heat_capacity[i] = capacity;
    shape.temperature[i] = celsius;
    shape.moisture[i] = water * (capacity * dry * per_product);
  }
  raise_e_to(shrunk, n);
  raise_e_to(boiling, n);
  Lanes volume{}, mean_temperature{}, mean_air{};
  for (std::size_t i = 0; i < n; ++i) {
    const Lanes per_dry = most(p.dry_volume0 * shrunk[i], 1.05 * solid[i]);
    const Lanes dry_density = 1.0 / per_dry;
    shape.air[i] = most(all(least_air), 1.0 - solid[i] * dry_density);
    shape.conductivity[i] = p.k0 + (p.k1 + p.k2 * wet[i]) * dry_density;
    shape.vapour[i] = vapour_over(wet[i], shape.temperature[i], boiling[i]);
    volume += per_dry * shape.dry[i];
    mean_temperature += shape.temperature[i] * p.share[i];
    mean_air += shape.air[i] * p.share[i];
  }
  shape.total_volume = volume;
  const auto shells = static_cast<double>(n);
  const Lanes radius = p.radius0 * power_of_e(logarithm(volume / p.volume0) / 3.0);
  const Lanes thickness = radius / shells;
  const Lanes unit_area_per_thickness = 4.0 * pi * p.scale * thickness;
  for (std::size_t i = 0; i + 1 < n; ++i) {
    const auto outer = static_cast<double>(i + 1);
    const Lanes area_per_thickness = unit_area_per_thickness * (2.0 * outer * outer);
    const Lanes k = shape.conductivity[i];
    const Lanes k_out = shape.conductivity[i + 1];
    const Lanes e = shape.air[i] * shape.air[i];
    const Lanes e_out = shape.air[i + 1] * shape.air[i + 1];
    const Lanes of_both = area_per_thickness / ((k + k_out) * (e + e_out));
    shape.heat[i] = k * k_out * (e + e_out) * of_both;
    shape.gas[i] = e * e_out * (k + k_out) * of_both;
  }
  const std::size_t edge = n - 1;
  const Lanes surface = unit_area_per_thickness * thickness * (shells * shells);
  shape.heat[edge] = surface / (1.0 / p.h + thickness / (2.0 * shape.conductivity[edge]));
  shape.gas[edge] = p.cover * surface / (thickness / (2.0 * shape.air[edge] * shape.air[edge]) + p.dlat);

  const Lanes half_air = mean_air / 0.5;
  Lanes draft = p.u0;  // m/s
  const LanesWhere rises = mean_temperature > air.temperature;
  if (is_any(rises)) {
    const Lanes permeability = p.Kp * half_air * half_air * half_air * power_of_e(p.nK * logarithm(0.5 / (1.0 - mean_air)));
    const Lanes buoyancy = air_density * gravity * (mean_temperature - air.temperature) / (air.temperature + ice_point_kelvin);
    draft += rises ? permeability * buoyancy / air_viscosity : Lanes{};
  }
  const Lanes breeze = p.vent * draft * surface / 3.0;
  for (std::size_t i = 0; i < n; ++i) shape.breeze[i] = breeze * p.share[i];
}

/// Oxygen that diffusion, air and uptake settle at, by sweeps of a tridiagonal system with 1/(O + KO) taken from the last, until nothing
/// changes.
HEAPWRIGHT_WITHIN void breathe(const PilesAbreast& p, const ShellsAbreast& uptake, const ShapeAbreast& shape, const Lanes& sweeps,
                               ShellsAbreast& oxygen) {
  const std::size_t n = p.shells;
  ShellsAbreast drawn, still;  // of each shell: what comes with its air, and its diagonal without the uptake
  Lanes inward{};
  for (std::size_t i = 0; i < n; ++i) {
    const Lanes outward = shape.gas[i] * oxygen_diffusivity;
    still[i] = inward + outward + shape.breeze[i];
    drawn[i] = shape.breeze[i] * oxygen_of_air;
    inward = outward;
  }
  drawn[n - 1] += shape.gas[n - 1] * (oxygen_diffusivity * oxygen_of_air);
  Lanes left = sweeps;
  while (is_any(left > 0.0)) {
    // Of the matrix's leading minors, so that no quotient waits for another.
    ShellsAbreast upper, right;
    Lanes outward{}, minor_before{}, minor = all(1.0), load{};
    for (std::size_t i = 0; i < n; ++i) {
      const Lanes diagonal = still[i] + uptake[i] / (oxygen[i] + p.KO);
      const Lanes next = diagonal * minor - outward * outward * minor_before;
      const Lanes per_next = 1.0 / next;
      load = drawn[i] * minor + outward * load;
      outward = shape.gas[i] * oxygen_diffusivity;
      right[i] = load * per_next;
      upper[i] = outward * minor * per_next;
      minor_before = minor;
      minor = next;
    }
    const LanesWhere goes_on = left > 0.0;
    Lanes changed{};
    Lanes outer{};  // what the air gives the edge is in drawn
    for (std::size_t i = n; i-- > 0;) {
      outer = right[i] + upper[i] * outer;
      const Lanes by = outer - oxygen[i];
      changed = most(changed, most(by, -by));
      oxygen[i] = goes_on ? outer : oxygen[i];
    }
    left = changed < settled_oxygen ? Lanes{} : left - 1.0;
  }
}

/// How fast each shell rots, 1 at 37 °C in moist, aired matter; returns the mean of the pile. By the cardinal temperature model, 0 outside
/// Tmin to Tmax, and by factors of moisture and air space, each 0 to 1 (Haug 1993, from memory).
HEAPWRIGHT_WITHIN Lanes rot(const PilesAbreast& p, const ShapeAbreast& shape, ShellsAbreast& growth) {
  const std::size_t n = p.shells;
  ShellsAbreast dry, airless;
  for (std::size_t i = 0; i < n; ++i) {
    dry[i] = 7.0622 - 17.684 * shape.moisture[i];
    airless[i] = 3.4945 - 23.675 * shape.air[i];
  }
  raise_e_to(dry, n);
  raise_e_to(airless, n);
  const Lanes span = p.Topt - p.Tmin;
  const Lanes level = span * (-span * p.Topt - (p.Topt - p.Tmax) * (p.Topt + p.Tmin));
  const Lanes slope = span * (span + 2.0 * (p.Topt - p.Tmax));
  const Lanes per_rate = 1.0 / p.warmth_at_rate_temperature;
  Lanes mean{};
  for (std::size_t i = 0; i < n; ++i) {
    const Lanes t = least(most(shape.temperature[i], p.Tmin), p.Tmax);  // at both ends nothing
    const Lanes warmth = (t - p.Tmax) * (t - p.Tmin) * (t - p.Tmin) * per_rate;
    growth[i] = warmth / ((level + slope * t) * (1.0 + dry[i]) * (1.0 + airless[i]));
    mean += growth[i] * p.share[i];
  }
  return mean;
}

/// Of each shell the growth, 1/s times O/(O + KO), and the oxygen that it takes, m³/s of oxygen's own volume; returns the mean
/// growth, 1 at 37 °C.
HEAPWRIGHT_WITHIN Lanes take_up(const PilesAbreast& p, const StockAbreast& stock, const ShapeAbreast& shape, ShellsAbreast& growth,
                                ShellsAbreast& uptake) {
  const Lanes mean_growth = rot(p, shape, growth);
  const Lanes at_once = stock.activity * ((p.KO + oxygen_of_air) * (1.0 / oxygen_of_air / seconds_per_day));
  const Lanes oxygen_taken = p.yO * (1.0 / oxygen_density);
  for (std::size_t i = 0; i < p.shells; ++i) {
    growth[i] *= at_once;
    uptake[i] = (p.kF * stock.fast[i] + p.kS * stock.slow[i]) * growth[i] * oxygen_taken;
  }
  return mean_growth;
}

/// The change of the stock and what flows, per second.
HEAPWRIGHT_WITHIN void rates(const PilesAbreast& p, const StockAbreast& stock, const AirAbreast& air, const Lanes& sweeps,
                             StockAbreast& change, FlowsAbreast& flows, ShellsAbreast& oxygen) {
  const std::size_t n = p.shells;
  ShapeAbreast shape;
  measure_lanes(p, stock, air, shape);
  ShellsAbreast growth, uptake;
  const Lanes mean_growth = take_up(p, stock, shape, growth, uptake);
  breathe(p, uptake, shape, sweeps, oxygen);

  shape.temperature[n] = air.temperature;
  shape.vapour[n] = air.vapour;
  const Lanes heat_of_water = p.yW * p.cw - p.cd;
  const Lanes heat_of_air_vapour = air.vapour * enthalpy_of_vapour(air.temperature);
  Lanes oxidised{}, rotting{}, blown_out{}, heat_of_matter{}, heat_in_air{}, heat_in_vapour{};
  Lanes conducted_in{}, vapour_in{}, vapour_heat_in{};  // from the shell within; into the middle of the pile comes none
  for (std::size_t i = 0; i < n; ++i) {
    const Lanes celsius = shape.temperature[i];
    const Lanes diffused = shape.gas[i] * vapour_diffusivity * (shape.vapour[i] - shape.vapour[i + 1]);
    const Lanes conducted = shape.heat[i] * (celsius - shape.temperature[i + 1]);
    const Lanes vapour_heat = diffused * enthalpy_of_vapour(diffused > 0.0 ? celsius : shape.temperature[i + 1]);
    const Lanes limited = growth[i] * oxygen[i] / (oxygen[i] + p.KO);
    const Lanes fast = p.kF * limited * stock.fast[i];
    const Lanes slow = p.kS * limited * stock.slow[i];
    const Lanes both = fast + slow;
    const Lanes blown = shape.breeze[i] * (shape.vapour[i] - air.vapour);
    const Lanes blown_heat = shape.breeze[i] * (shape.vapour[i] * enthalpy_of_vapour(celsius) - heat_of_air_vapour);
    const Lanes air_heat_out = shape.breeze[i] * (air_density * air_heat) * (celsius - air.temperature);
    const Lanes of_matter = both * heat_of_water * celsius;
    change.fast[i] = -fast;
    change.slow[i] = -slow;
    change.water[i] = p.yW * both - blown - diffused + vapour_in;
    change.enthalpy[i] = p.dH * both + of_matter - blown_heat - air_heat_out - conducted - vapour_heat + conducted_in + vapour_heat_in;
    oxidised += both;
    rotting += stock.fast[i] + stock.slow[i];
    blown_out += blown;
    heat_of_matter += of_matter;
    heat_in_air += air_heat_out;
    heat_in_vapour += blown_heat;
    conducted_in = conducted;
    vapour_in = diffused;
    vapour_heat_in = vapour_heat;
  }
  flows.volatile_solids = oxidised;
  flows.water_out = blown_out + vapour_in;
  flows.heat_conducted = conducted_in;
  flows.heat_in_vapour = heat_in_vapour + vapour_heat_in;
  flows.heat_in_air = heat_in_air;
  flows.heat_made = p.dH * oxidised;
  flows.heat_of_matter = heat_of_matter;
  const LanesWhere rots = rotting > 0.0;
  change.volatile_nitrogen = rots ? -p.gN * stock.volatile_nitrogen * oxidised / (rots ? rotting : all(1.0)) : Lanes{};
  change.activity = p.mu * (1.0 / seconds_per_day) * mean_growth * stock.activity * (1.0 - stock.activity);
}

constexpr double vapour_heat_per_kelvin = 0.05 * 2.4e6;  // J/kg per K: saturated vapour grows by about a twentieth a kelvin

/// W/K, of vapour that diffuses. What takes or gives lanes is inline even where nothing is optimized: each kind of processor passes them
/// in another way.
HEAPWRIGHT_WITHIN Lanes heat_in_diffusion(const Lanes& gas, const Lanes& vapour) {
  return gas * (vapour_diffusivity * vapour_heat_per_kelvin) * vapour;
}

/// 1/s, no less than any heat of the pile decays at: that of its matrix, whose signs do not count since it has three diagonals, by the
/// bound of Collatz and Wielandt.
HEAPWRIGHT_WITHIN Lanes fastest_decay(const PilesAbreast& p, const ShapeAbreast& shape) {
  const std::size_t n = p.shells;
  ShellsAbreast inward, own, outward;
  Lanes heat_within{};
  Lanes gas_within{};
  for (std::size_t i = 0; i < n; ++i) {
    const Lanes per_heat = 1.0 / shape.heat_capacity[i];
    own[i] = per_heat * (heat_within + shape.heat[i] + heat_in_diffusion(gas_within + shape.gas[i], shape.vapour[i]) +
                         shape.breeze[i] * (air_density * air_heat + vapour_heat_per_kelvin * shape.vapour[i]));
    inward[i] = i > 0 ? per_heat * (heat_within + heat_in_diffusion(gas_within, shape.vapour[i - 1])) : Lanes{};
    outward[i] = i + 1 < n ? per_heat * (shape.heat[i] + heat_in_diffusion(shape.gas[i], shape.vapour[i + 1])) : Lanes{};
    heat_within = shape.heat[i];
    gas_within = shape.gas[i];
  }
  ShellsAbreast weight;
  weight.fill(all(1.0));
  Lanes bound{};
  for (int sweep = 0; sweep < sweeps_of_bound; ++sweep) {
    bound = Lanes{};
    ShellsAbreast next;
    for (std::size_t i = 0; i < n; ++i) {
      next[i] = own[i] * weight[i];
      if (i > 0) next[i] += inward[i] * weight[i - 1];
      if (i + 1 < n) next[i] += outward[i] * weight[i + 1];
      bound = most(bound, next[i] / weight[i]);
    }
    for (std::size_t i = 0; i < n; ++i) weight[i] = next[i] / bound;
  }
  return bound;
}

HEAPWRIGHT_WITHIN void go(const StockAbreast& from, const StockAbreast& change, const Lanes& seconds, std::size_t n, StockAbreast& to) {
  for (std::size_t i = 0; i < n; ++i) {
    to.enthalpy[i] = from.enthalpy[i] + seconds * change.enthalpy[i];
    to.fast[i] = from.fast[i] + seconds * change.fast[i];
    to.slow[i] = from.slow[i] + seconds * change.slow[i];
    to.water[i] = from.water[i] + seconds * change.water[i];
  }
  to.volatile_nitrogen = from.volatile_nitrogen + seconds * change.volatile_nitrogen;
  to.activity = from.activity + seconds * change.activity;
}

HEAPWRIGHT_WITHIN void go(FlowsAbreast& total, const FlowsAbreast& change, const Lanes& seconds) {
  total.volatile_solids += seconds * change.volatile_solids;
  total.water_out += seconds * change.water_out;
  total.heat_conducted += seconds * change.heat_conducted;
  total.heat_in_vapour += seconds * change.heat_in_vapour;
  total.heat_in_air += seconds * change.heat_in_air;
  total.heat_made += seconds * change.heat_made;
  total.heat_of_matter += seconds * change.heat_of_matter;
}

}  // namespace

HEAPWRIGHT_WIDE void measure(const PilesAbreast& piles, const StockAbreast& stock, const AirAbreast& air, ShapeAbreast& shape) {
  measure_lanes(piles, stock, air, shape);
}

HEAPWRIGHT_WIDE void breathe_in(const PilesAbreast& piles, const StockAbreast& stock, const AirAbreast& air, const Lanes& sweeps,
                                ShellsAbreast& oxygen, Lanes& decay) {
  ShapeAbreast shape;
  measure_lanes(piles, stock, air, shape);
  ShellsAbreast growth, uptake;
  take_up(piles, stock, shape, growth, uptake);
  breathe(piles, uptake, shape, sweeps, oxygen);
  decay = fastest_decay(piles, shape);
}

HEAPWRIGHT_WIDE void take_steps(const PilesAbreast& piles, const AirAbreast& air, const Lanes& steps, const Lanes& seconds,
                                StockAbreast& stock, FlowsAbreast& flows, ShellsAbreast& oxygen) {
  for (Lanes left = steps; is_any(left > 0.0); left -= 1.0) {
    const LanesWhere goes_on = left > 0.0;
    const Lanes sweeps = goes_on ? all(sweeps_of_a_step) : Lanes{};
    const Lanes half = goes_on ? 0.5 * seconds : Lanes{};
    StockAbreast first, second, ahead;
    FlowsAbreast first_flows, second_flows;
    rates(piles, stock, air, sweeps, first, first_flows, oxygen);
    go(stock, first, half + half, piles.shells, ahead);
    rates(piles, ahead, air, sweeps, second, second_flows, oxygen);
    go(stock, first, half, piles.shells, ahead);
    go(ahead, second, half, piles.shells, stock);
    go(flows, first_flows, half);
    go(flows, second_flows, half);
  }
}

}  // namespace heapwright
