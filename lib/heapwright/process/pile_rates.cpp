#include <algorithm>
#include <cmath>
#include <numbers>

#include "heapwright/process/air.hpp"
#include "heapwright/process/pile.hpp"

// What is worked out anew some fifty times a day of each pile of a forecast, most of its time: in plain loops over the shells, each of one
// kind of work, so that the compiler can take two shells at once. It alone is built without regard to errno, signs of zero and NaN
// (lib/CMakeLists.txt); whatever guards against those is in pile.cpp.

namespace heapwright {
namespace {

using std::numbers::pi;

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

}  // namespace

void Pile::measure(const Stock& stock, const Air& air, Shape& shape) const {
  const int n = n_;
  const double per_degradable = degradable_ > 0.0 ? 1.0 / degradable_ : 0.0;
  const double shrink = degradable_ > 0.0 ? log_shrink_ : 0.0;
  const double fixed = inert_ + ash_;
  Shells wet, solid, shrunk, boiling;
  for (int i = 0; i < n; ++i) {
    const double rotting = stock.fast[i] + stock.slow[i];
    const double dry = rotting + fixed * share_[i];
    const double water = stock.water[i];
    const double capacity = p_.cd * dry + p_.cw * water;
    const double heat = stock.enthalpy[i];
    const double frozen = std::min(0.0, heat + heat_of_fusion * water);  // of what thaws nothing is missing
    const double celsius = (heat >= 0.0 ? heat : frozen) / capacity;
    wet[i] = water / dry;
    solid[i] = 1.0 / density_of_solids.value() + wet[i] / water_kg_per_m3;
    shrunk[i] = shrink * std::max(0.0, 1.0 - rotting * per_degradable * per_share_[i]);
    boiling[i] = magnus_exponent(celsius);
    shape.dry[i] = dry;
    shape.heat_capacity[i] = capacity;
    shape.temperature[i] = celsius;
    shape.moisture[i] = water / (water + dry);
  }
  for (int i = 0; i < n; ++i) shrunk[i] = std::exp(shrunk[i]);
  for (int i = 0; i < n; ++i) boiling[i] = std::exp(boiling[i]);
  double volume = 0.0, mean_temperature = 0.0, mean_air = 0.0;
  for (int i = 0; i < n; ++i) {
    const double per_dry = std::max(dry_volume0_ * shrunk[i], 1.05 * solid[i]);
    const double dry_density = 1.0 / per_dry;
    shape.air[i] = std::max(least_air, 1.0 - solid[i] * dry_density);
    shape.conductivity[i] = p_.k0 + (p_.k1 + p_.k2 * wet[i]) * dry_density;
    shape.vapour[i] = wet[i] / (wet[i] + half_bound_water) * saturated_vapour(shape.temperature[i], boiling[i]);
    volume += per_dry * shape.dry[i];
    mean_temperature += shape.temperature[i] * share_[i];
    mean_air += shape.air[i] * share_[i];
  }
  shape.total_volume = volume;
  const double radius = radius0_ * std::cbrt(volume / volume0_);
  const double thickness = radius / n;
  const double unit_area = 4.0 * pi * scale_ * thickness * thickness;
  const double unit_area_per_thickness = unit_area / thickness;
  for (int i = 0; i + 1 < n; ++i) {
    const double area_per_thickness = unit_area_per_thickness * (i + 1) * (i + 1);
    const double k = shape.conductivity[i];
    const double k_out = shape.conductivity[i + 1];
    const double e = shape.air[i] * shape.air[i];
    const double e_out = shape.air[i + 1] * shape.air[i + 1];
    shape.heat[i] = 2.0 * k * k_out / (k + k_out) * area_per_thickness;
    shape.gas[i] = 2.0 * e * e_out / (e + e_out) * area_per_thickness;
  }
  const int edge = n - 1;
  const double surface = unit_area * n * n;
  shape.heat[edge] = surface / (1.0 / p_.h + thickness / (2.0 * shape.conductivity[edge]));
  shape.gas[edge] = shape_.cover * surface / (thickness / (2.0 * shape.air[edge] * shape.air[edge]) + p_.dlat);

  const double half_air = mean_air / 0.5;
  double draft = p_.u0;  // m/s
  if (mean_temperature > air.temperature) {
    const double permeability = p_.Kp * half_air * half_air * half_air * std::pow(0.5 / (1.0 - mean_air), p_.nK);
    const double buoyancy = air_density * gravity * (mean_temperature - air.temperature) / (air.temperature + ice_point_kelvin);
    draft += permeability * buoyancy / air_viscosity;
  }
  const double breeze = shape_.vent * draft * surface / 3.0;
  for (int i = 0; i < n; ++i) shape.breeze[i] = breeze * share_[i];
}

/// Oxygen that diffusion, air and uptake settle at, by sweeps of a tridiagonal system with 1/(O + KO) taken from the last, until nothing
/// changes.
void Pile::breathe(const Shells& uptake, const Shape& shape, int sweeps) {
  const int n = n_;
  Shells drawn, still;  // of each shell: what comes with its air, and its diagonal without the uptake
  double inward = 0.0;
  for (int i = 0; i < n; ++i) {
    const double outward = shape.gas[i] * oxygen_diffusivity;
    still[i] = inward + outward + shape.breeze[i];
    drawn[i] = shape.breeze[i] * oxygen_of_air;
    inward = outward;
  }
  drawn[n - 1] += shape.gas[n - 1] * oxygen_diffusivity * oxygen_of_air;
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    Shells diagonal, upper, right;
    for (int i = 0; i < n; ++i) diagonal[i] = still[i] + uptake[i] / (oxygen_[i] + p_.KO);
    double outward = 0.0, upper_before = 0.0, right_before = 0.0;
    for (int i = 0; i < n; ++i) {
      const double per_diagonal = 1.0 / (diagonal[i] - outward * upper_before);
      right_before = right[i] = (drawn[i] + outward * right_before) * per_diagonal;
      outward = shape.gas[i] * oxygen_diffusivity;
      upper_before = upper[i] = outward * per_diagonal;
    }
    double changed = 0.0;
    double outer = 0.0;  // what the air gives the edge is in drawn
    for (int i = n - 1; i >= 0; --i) {
      outer = right[i] + upper[i] * outer;
      changed = std::max(changed, std::abs(outer - oxygen_[i]));
      oxygen_[i] = outer;
    }
    if (changed < settled_oxygen) return;
  }
}

/// How fast each shell rots, 1 at 37 °C in moist, aired matter; returns the mean of the pile. By the cardinal temperature model, 0 outside
/// Tmin to Tmax, and by factors of moisture and air space, each 0 to 1 (Haug 1993, from memory).
double Pile::rot(const Shape& shape, Shells& growth) const {
  const int n = n_;
  Shells dry, airless;
  for (int i = 0; i < n; ++i) dry[i] = std::exp(7.0622 - 17.684 * shape.moisture[i]);
  for (int i = 0; i < n; ++i) airless[i] = std::exp(3.4945 - 23.675 * shape.air[i]);
  const double span = p_.Topt - p_.Tmin;
  const double level = span * (-span * p_.Topt - (p_.Topt - p_.Tmax) * (p_.Topt + p_.Tmin));
  const double slope = span * (span + 2.0 * (p_.Topt - p_.Tmax));
  const double per_rate = 1.0 / warmth_at_rate_temperature_;
  double mean = 0.0;
  for (int i = 0; i < n; ++i) {
    const double t = std::min(std::max(shape.temperature[i], p_.Tmin), p_.Tmax);  // at both ends nothing
    const double warmth = (t - p_.Tmax) * (t - p_.Tmin) * (t - p_.Tmin) * per_rate;
    growth[i] = warmth / ((level + slope * t) * (1.0 + dry[i]) * (1.0 + airless[i]));
    mean += growth[i] * share_[i];
  }
  return mean;
}

void Pile::rates(const Stock& stock, const Air& air, int sweeps, Rates& rates, Shape& shape) {
  const int n = n_;
  measure(stock, air, shape);
  Shells growth, uptake{};
  const double mean_growth = rot(shape, growth);
  const double of_ambient = (p_.KO + oxygen_of_air) / oxygen_of_air;
  const double activity = stock.activity / seconds_per_day;
  const double oxygen_taken = p_.yO / oxygen_density;
  for (int i = 0; i < n; ++i) {  // kg/s in the air's own oxygen, then the oxygen that it takes
    growth[i] *= activity * of_ambient;
    uptake[i] = (p_.kF * stock.fast[i] + p_.kS * stock.slow[i]) * growth[i] * oxygen_taken;
  }
  breathe(uptake, shape, sweeps);

  // Outward across the outer face of each shell; face[0] is that of no shell, the middle of the pile.
  std::array<double, most_shells + 1> conducted{}, vapour{}, vapour_heat{};
  shape.temperature[n] = air.temperature;
  shape.vapour[n] = air.vapour;
  for (int i = 0; i < n; ++i) {
    const std::size_t face = static_cast<std::size_t>(i) + 1;
    const double diffused = shape.gas[i] * vapour_diffusivity * (shape.vapour[i] - shape.vapour[i + 1]);
    conducted[face] = shape.heat[i] * (shape.temperature[i] - shape.temperature[i + 1]);
    vapour[face] = diffused;
    vapour_heat[face] = diffused * vapour_enthalpy(diffused > 0.0 ? shape.temperature[i] : shape.temperature[i + 1]);
  }
  const double heat_of_water = p_.yW * p_.cw - p_.cd;
  const double heat_of_air_vapour = air.vapour * vapour_enthalpy(air.temperature);
  double oxidised = 0.0, rotting = 0.0, blown_out = 0.0, heat_of_matter = 0.0, heat_in_air = 0.0, heat_in_vapour = 0.0;
  for (int i = 0; i < n; ++i) {
    const std::size_t face = static_cast<std::size_t>(i) + 1;
    const double celsius = shape.temperature[i];
    const double limited = growth[i] * oxygen_[i] / (oxygen_[i] + p_.KO);
    const double fast = p_.kF * limited * stock.fast[i];
    const double slow = p_.kS * limited * stock.slow[i];
    const double both = fast + slow;
    const double blown = shape.breeze[i] * (shape.vapour[i] - air.vapour);
    const double blown_heat = shape.breeze[i] * (shape.vapour[i] * vapour_enthalpy(celsius) - heat_of_air_vapour);
    const double air_heat_out = shape.breeze[i] * (air_density * air_heat) * (celsius - air.temperature);
    const double of_matter = both * heat_of_water * celsius;
    rates.stock.fast[i] = -fast;
    rates.stock.slow[i] = -slow;
    rates.stock.water[i] = p_.yW * both - blown - vapour[face] + vapour[face - 1];
    rates.stock.enthalpy[i] = p_.dH * both + of_matter - blown_heat - air_heat_out - conducted[face] - vapour_heat[face] +
                              conducted[face - 1] + vapour_heat[face - 1];
    oxidised += both;
    rotting += stock.fast[i] + stock.slow[i];
    blown_out += blown;
    heat_of_matter += of_matter;
    heat_in_air += air_heat_out;
    heat_in_vapour += blown_heat;
  }
  const std::size_t surface = static_cast<std::size_t>(n);
  rates.flows.volatile_solids = oxidised;
  rates.flows.water_out = blown_out + vapour[surface];
  rates.flows.heat_conducted = conducted[surface];
  rates.flows.heat_in_vapour = heat_in_vapour + vapour_heat[surface];
  rates.flows.heat_in_air = heat_in_air;
  rates.flows.heat_made = p_.dH * oxidised;
  rates.flows.heat_of_matter = heat_of_matter;
  rates.stock.volatile_nitrogen = rotting > 0.0 ? -p_.gN * stock.volatile_nitrogen * oxidised / rotting : 0.0;
  rates.stock.activity = p_.mu / seconds_per_day * mean_growth * stock.activity * (1.0 - stock.activity);
}

/// 1/s, no less than any heat of the pile decays at: that of its matrix, whose signs do not count since it has three diagonals, by the
/// bound of Collatz and Wielandt.
double Pile::fastest_decay(const Shape& shape) const {
  constexpr double vapour_heat_per_kelvin = 0.05 * 2.4e6;  // J/kg per K: saturated vapour grows by about a twentieth a kelvin
  Shells inward{}, own{}, outward{};
  double heat_within = 0.0;
  double gas_within = 0.0;
  for (int i = 0; i < n_; ++i) {
    const auto diffusing = [&](double gas, int from) { return gas * vapour_diffusivity * vapour_heat_per_kelvin * shape.vapour[from]; };
    const double per_heat = 1.0 / shape.heat_capacity[i];
    own[i] = per_heat * (heat_within + shape.heat[i] + diffusing(gas_within + shape.gas[i], i) +
                         shape.breeze[i] * (air_density * air_heat + vapour_heat_per_kelvin * shape.vapour[i]));
    if (i > 0) inward[i] = per_heat * (heat_within + diffusing(gas_within, i - 1));
    if (i + 1 < n_) outward[i] = per_heat * (shape.heat[i] + diffusing(shape.gas[i], i + 1));
    heat_within = shape.heat[i];
    gas_within = shape.gas[i];
  }
  Shells weight{};
  weight.fill(1.0);
  double bound = 0.0;
  for (int sweep = 0; sweep < sweeps_of_bound; ++sweep) {
    bound = 0.0;
    Shells next{};
    for (int i = 0; i < n_; ++i) {
      next[i] = own[i] * weight[i] + (i > 0 ? inward[i] * weight[i - 1] : 0.0) + (i + 1 < n_ ? outward[i] * weight[i + 1] : 0.0);
      bound = std::max(bound, next[i] / weight[i]);
    }
    for (int i = 0; i < n_; ++i) weight[i] = next[i] / bound;
  }
  return bound;
}

void Pile::step(double seconds, const Air& air, int sweeps) {
  Rates first, second;
  Shape shape;
  rates(stock_, air, sweeps, first, shape);
  Stock ahead = stock_;
  for (int i = 0; i < n_; ++i) {
    ahead.enthalpy[i] += seconds * first.stock.enthalpy[i];
    ahead.fast[i] += seconds * first.stock.fast[i];
    ahead.slow[i] += seconds * first.stock.slow[i];
    ahead.water[i] += seconds * first.stock.water[i];
  }
  ahead.volatile_nitrogen += seconds * first.stock.volatile_nitrogen;
  ahead.activity += seconds * first.stock.activity;
  rates(ahead, air, sweeps, second, shape);
  const double half = 0.5 * seconds;
  for (int i = 0; i < n_; ++i) {
    stock_.enthalpy[i] += half * (first.stock.enthalpy[i] + second.stock.enthalpy[i]);
    stock_.fast[i] += half * (first.stock.fast[i] + second.stock.fast[i]);
    stock_.slow[i] += half * (first.stock.slow[i] + second.stock.slow[i]);
    stock_.water[i] += half * (first.stock.water[i] + second.stock.water[i]);
  }
  stock_.volatile_nitrogen += half * (first.stock.volatile_nitrogen + second.stock.volatile_nitrogen);
  stock_.activity += half * (first.stock.activity + second.stock.activity);
  flows_.volatile_solids += half * (first.flows.volatile_solids + second.flows.volatile_solids);
  flows_.water_out += half * (first.flows.water_out + second.flows.water_out);
  flows_.heat_conducted += half * (first.flows.heat_conducted + second.flows.heat_conducted);
  flows_.heat_in_vapour += half * (first.flows.heat_in_vapour + second.flows.heat_in_vapour);
  flows_.heat_in_air += half * (first.flows.heat_in_air + second.flows.heat_in_air);
  flows_.heat_made += half * (first.flows.heat_made + second.flows.heat_made);
  flows_.heat_of_matter += half * (first.flows.heat_of_matter + second.flows.heat_of_matter);
  ++steps_taken_;
}

}  // namespace heapwright
