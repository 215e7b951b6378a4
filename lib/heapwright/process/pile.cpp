#include "heapwright/process/pile.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/process/air.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;

constexpr double seconds_per_hour = 3600.0;
constexpr double seconds_per_day = 86400.0;
constexpr double heat_of_fusion = 3.34e5;        // J/kg
constexpr double ice_point_kelvin = 273.15;      // K
constexpr double air_density = 1.2;              // kg/m³
constexpr double air_heat = 1006.0;              // J/(kg K)
constexpr double air_viscosity = 1.9e-5;         // Pa s
constexpr double gravity = 9.81;                 // m/s²
constexpr double oxygen_of_air = 0.205;          // 1, volume fraction
constexpr double oxygen_density = 1.33;          // kg/m³
constexpr double oxygen_diffusivity = 2.0e-5;    // m²/s, in air
constexpr double vapour_diffusivity = 2.6e-5;    // m²/s, in air
constexpr double particle_kg_per_m3 = 1500.0;    // dry solids without air
constexpr double half_bound_water = 0.08;        // kg/kg dry: below about this the vapour pressure falls
constexpr double least_air = 0.02;               // 1
constexpr double shell_thickness = 0.08;         // m, aimed at
constexpr double base_share = 2.4;               // exposed area over the ground that rain falls on
constexpr double rate_temperature = 37.0;        // °C that kF, kS and mu are given at
constexpr double coldest_addition = 5.0;         // °C
constexpr double coldest_water = 2.0;            // °C
constexpr double vapour_share_of_turning = 0.7;  // 1, of the heat that a turning loses
constexpr double most_water_of_turning = 0.05;   // 1, of the heap's water
constexpr double settled_oxygen = 1e-9;          // 1
constexpr double most_decay_of_a_step = 1.6;     // 1, of the 2 that Heun's method bears
constexpr int sweeps_of_bound = 8;
constexpr int sweeps_of_a_step = 2;
constexpr int sweeps_of_a_day = 4;
constexpr int sweeps_after_a_change = 30;

/// J/kg, from liquid at 0 °C.
double vapour_enthalpy(double celsius) { return 2.501e6 + 1860.0 * celsius; }

/// The cardinal temperature model, 0 outside Tmin to Tmax and 1 at Topt.
double cardinal(double t, double low, double best, double high) {
  if (!(t > low && t < high)) return 0.0;
  return (t - high) * (t - low) * (t - low) / ((best - low) * ((best - low) * (t - best) - (best - high) * (best + low - 2.0 * t)));
}

/// Moisture and air space factors in one, each 0 to 1 (Haug 1993, from memory).
double moist_and_aired(double moisture, double air) {
  return 1.0 / ((1.0 + std::exp(7.0622 - 17.684 * moisture)) * (1.0 + std::exp(3.4945 - 23.675 * air)));
}

/// Share of the nitrogen that would go with all degradable matter, by the C:N of what was put in.
double nitrogen_loss_of(const ProcessParameters& p, double carbon_to_nitrogen) {
  return p.Nmax / (1.0 + std::exp((carbon_to_nitrogen - p.N0) / p.Nw));
}

double volatile_nitrogen_of(const ProcessParameters& p, const HeapContents& contents) {
  const double nitrogen = contents.nitrogen.value();
  return nitrogen > 0.0 ? nitrogen * nitrogen_loss_of(p, p.cC * contents.volatile_solids().value() / nitrogen) : 0.0;
}

void check(MoistureWetBasis wet_to) {
  if (!(wet_to >= wet_basis(0.0) && wet_to < wet_basis(1.0))) throw DomainError("a heap is wetted to less than all water");
}

void check(const HeapContents& contents, const PileShape& shape) {
  const auto is_some = [](double number) { return number >= 0.0 && std::isfinite(number); };
  const bool whole = is_some(contents.fast.value()) && is_some(contents.slow.value()) && is_some(contents.inert.value()) &&
                     is_some(contents.ash.value()) && is_some(contents.water.value()) && is_some(contents.nitrogen.value());
  if (!whole || !(contents.volatile_solids().value() > 0.0)) throw DomainError("a heap is made of some organic matter");
  if (!(shape.volume >= smallest_pile && std::isfinite(shape.volume.value())))
    throw DomainError("a heap holds at least a bucketful to be forecast");
  if (!(shape.exposed.value() > 0.0 && std::isfinite(shape.exposed.value()))) throw DomainError("a heap meets the air somewhere");
  if (!(shape.vent >= 0.0 && shape.cover > 0.0 && std::isfinite(shape.vent) && std::isfinite(shape.cover)))
    throw DomainError("some air passes the surface of any heap");
}

}  // namespace

Pile::Pile(const ProcessParameters& parameters, const HeapContents& contents, const PileShape& shape, TemperaturePoint start)
    : p_(parameters), shape_(shape) {
  check(contents, shape);
  volume0_ = shape.volume.value();
  radius0_ = 3.0 * volume0_ / shape.exposed.value();
  n_ = std::clamp(static_cast<int>(std::lround(std::min(radius0_ / shell_thickness, 100.0))), 3, most_shells);
  scale_ = volume0_ / (4.0 / 3.0 * pi * radius0_ * radius0_ * radius0_);
  for (int i = 0; i < n_; ++i) {
    const double inner = i;
    const double outer = i + 1;
    share_[i] = (outer * outer * outer - inner * inner * inner) / (n_ * n_ * n_);
    per_share_[i] = 1.0 / share_[i];
  }
  dry_volume0_ = volume0_ / contents.dry().value();
  const double final_density = std::max(p_.rhoF, 1.0 / dry_volume0_);
  log_shrink_ = -std::log(final_density * dry_volume0_);
  warmth_at_rate_temperature_ = cardinal(rate_temperature, p_.Tmin, p_.Topt, p_.Tmax);
  stock_.activity = p_.a0;
  oxygen_.fill(oxygen_of_air);

  const double fast = contents.fast.value();
  const double slow = contents.slow.value();
  const double water = contents.water.value();
  inert_ = contents.inert.value();
  ash_ = contents.ash.value();
  degradable_ = fast + slow;
  volatile_solids_in_ = contents.volatile_solids().value();
  water_in_ = water;
  nitrogen_in_ = contents.nitrogen.value();
  stock_.volatile_nitrogen = volatile_nitrogen_in_ = volatile_nitrogen_of(p_, contents);
  const double celsius = start.celsius();
  energy_in_ = (p_.cd * contents.dry().value() + p_.cw * water) * celsius - (celsius < 0.0 ? heat_of_fusion * water : 0.0);
  for (int i = 0; i < n_; ++i) {
    stock_.fast[i] = fast * share_[i];
    stock_.slow[i] = slow * share_[i];
    stock_.water[i] = water * share_[i];
    stock_.enthalpy[i] = energy_in_ * share_[i];
  }
  Rates unused;
  rates(stock_, air_of(start), sweeps_, unused);  // its first breath
}

void Pile::spread_heat(double joule) {
  for (int i = 0; i < n_; ++i) stock_.enthalpy[i] += joule * share_[i];
}

void Pile::add(const HeapContents& contents, TemperaturePoint air) {
  const double celsius = std::max(air.celsius(), coldest_addition);
  const double heat = (p_.cd * contents.dry().value() + p_.cw * contents.water.value()) * celsius;
  for (int i = 0; i < n_; ++i) {
    stock_.fast[i] += contents.fast.value() * share_[i];
    stock_.slow[i] += contents.slow.value() * share_[i];
    stock_.water[i] += contents.water.value() * share_[i];
  }
  spread_heat(heat);
  inert_ += contents.inert.value();
  ash_ += contents.ash.value();
  degradable_ += contents.fast.value() + contents.slow.value();
  volatile_solids_in_ += contents.volatile_solids().value();
  water_in_ += contents.water.value();
  energy_in_ += heat;
  nitrogen_in_ += contents.nitrogen.value();
  const double volatile_nitrogen = volatile_nitrogen_of(p_, contents);
  volatile_nitrogen_in_ += volatile_nitrogen;
  stock_.volatile_nitrogen += volatile_nitrogen;
  sweeps_ = sweeps_after_a_change;
}

void Pile::turn(TemperaturePoint air, std::optional<MoistureWetBasis> wet_to) {
  if (wet_to) check(*wet_to);
  double fast = 0.0, slow = 0.0, water = 0.0, heat = 0.0;
  for (int i = 0; i < n_; ++i) {
    fast += stock_.fast[i];
    slow += stock_.slow[i];
    water += stock_.water[i];
    heat += stock_.enthalpy[i];
  }
  const double dry = fast + slow + inert_ + ash_;
  const double capacity = p_.cd * dry + p_.cw * water;
  const double celsius = heat >= 0.0 ? heat / capacity : std::min(0.0, (heat + heat_of_fusion * water) / capacity);
  const double outside = air.celsius();
  if (celsius > outside && celsius > 0.0) {
    const double lost = p_.chi * capacity * (celsius - outside);
    const double dried = std::min(vapour_share_of_turning * lost / vapour_enthalpy(celsius), most_water_of_turning * water);
    heat -= lost;
    water -= dried;
    energy_lost_ += lost;
    water_lost_ += dried;
  }
  if (wet_to && celsius > 0.0) {
    const double given = std::max(0.0, dry * to_dry_basis(*wet_to).value() - water);
    const double warmth = p_.cw * given * std::max(outside, coldest_water);
    water += given;
    heat += warmth;
    water_in_ += given;
    water_given_ += given;
    energy_in_ += warmth;
  }
  for (int i = 0; i < n_; ++i) {
    stock_.fast[i] = fast * share_[i];
    stock_.slow[i] = slow * share_[i];
    stock_.water[i] = water * share_[i];
    stock_.enthalpy[i] = heat * share_[i];
  }
  sweeps_ = sweeps_after_a_change;
}

void Pile::water(TemperaturePoint air, MoistureWetBasis wet_to) {
  check(wet_to);
  for (int i = 0; i < n_; ++i) {
    if (!(stock_.enthalpy[i] > 0.0)) continue;
    const double dry = stock_.fast[i] + stock_.slow[i] + (inert_ + ash_) * share_[i];
    const double given = std::max(0.0, dry * to_dry_basis(wet_to).value() - stock_.water[i]);
    const double warmth = p_.cw * given * std::max(air.celsius(), coldest_water);
    stock_.water[i] += given;
    stock_.enthalpy[i] += warmth;
    water_in_ += given;
    water_given_ += given;
    energy_in_ += warmth;
  }
  sweeps_ = sweeps_after_a_change;
}

void Pile::rain(TemperaturePoint air, Length depth) {
  const double celsius = air.celsius();
  if (!(celsius > 0.0)) return;
  const double fallen = depth.value() * water_kg_per_m3 * shape_.exposed.value() / base_share;
  for (int i = 0; i < n_; ++i) stock_.water[i] += fallen * share_[i];
  spread_heat(p_.cw * fallen * celsius);
  water_in_ += fallen;
  energy_in_ += p_.cw * fallen * celsius;
}

void Pile::drain() {
  for (int i = 0; i < n_; ++i) {
    if (!(stock_.enthalpy[i] > 0.0)) continue;
    const double dry = stock_.fast[i] + stock_.slow[i] + (inert_ + ash_) * share_[i];
    const double run_off = stock_.water[i] - p_.cap * dry;
    if (!(run_off > 0.0)) continue;
    const double warmth = p_.cw * run_off * stock_.enthalpy[i] / (p_.cd * dry + p_.cw * stock_.water[i]);
    stock_.water[i] -= run_off;
    stock_.enthalpy[i] -= warmth;
    water_lost_ += run_off;
    energy_lost_ += warmth;
  }
}

Pile::Air Pile::air_of(TemperaturePoint air) const {
  if (!std::isfinite(air.celsius())) throw DomainError("the air has some temperature");
  return {air.celsius(), usual_humidity * saturated_vapour(air.celsius())};
}

void Pile::measure(const Stock& stock, const Air& air, Shape& shape) const {
  double mean_temperature = 0.0;
  double mean_air = 0.0;
  const double per_degradable = degradable_ > 0.0 ? 1.0 / degradable_ : 0.0;
  shape.total_volume = 0.0;
  for (int i = 0; i < n_; ++i) {
    const double rotting = stock.fast[i] + stock.slow[i];
    const double dry = rotting + (inert_ + ash_) * share_[i];
    const double water = stock.water[i];
    const double wet = water / dry;
    const double capacity = p_.cd * dry + p_.cw * water;
    const double heat = stock.enthalpy[i];
    const double melting = -heat_of_fusion * water;
    const double celsius = heat >= 0.0 ? heat / capacity : heat > melting ? 0.0 : (heat - melting) / capacity;
    const double gone = degradable_ > 0.0 ? std::max(0.0, 1.0 - rotting * per_degradable * per_share_[i]) : 0.0;
    const double solid = 1.0 / particle_kg_per_m3 + wet / water_kg_per_m3;
    const double per_dry = std::max(dry_volume0_ * std::exp(gone * log_shrink_), 1.05 * solid);
    const double dry_density = 1.0 / per_dry;
    const double space = std::max(least_air, 1.0 - solid * dry_density);
    shape.dry[i] = dry;
    shape.heat_capacity[i] = capacity;
    shape.temperature[i] = celsius;
    shape.moisture[i] = wet / (1.0 + wet);
    shape.air[i] = space;
    shape.conductivity[i] = p_.k0 + (p_.k1 + p_.k2 * wet) * dry_density;
    shape.vapour[i] = wet / (wet + half_bound_water) * saturated_vapour(celsius);
    shape.total_volume += per_dry * dry;
    mean_temperature += celsius * share_[i];
    mean_air += space * share_[i];
  }
  const double radius = radius0_ * std::cbrt(shape.total_volume / volume0_);
  const double thickness = radius / n_;
  const double unit_area = 4.0 * pi * scale_ * thickness * thickness;
  const double unit_area_per_thickness = unit_area / thickness;
  for (int i = 0; i + 1 < n_; ++i) {
    const double area_per_thickness = unit_area_per_thickness * (i + 1) * (i + 1);
    const double k = shape.conductivity[i];
    const double k_out = shape.conductivity[i + 1];
    const double e = shape.air[i] * shape.air[i];
    const double e_out = shape.air[i + 1] * shape.air[i + 1];
    shape.heat[i] = 2.0 * k * k_out / (k + k_out) * area_per_thickness;
    shape.gas[i] = 2.0 * e * e_out / (e + e_out) * area_per_thickness;
  }
  const int edge = n_ - 1;
  const double surface = unit_area * n_ * n_;
  shape.heat[edge] = surface / (1.0 / p_.h + thickness / (2.0 * shape.conductivity[edge]));
  shape.gas[edge] = shape_.cover * surface / (thickness / (2.0 * shape.air[edge] * shape.air[edge]) + p_.dlat);

  const double half_air = mean_air / 0.5;
  double draught = p_.u0;  // m/s
  if (mean_temperature > air.temperature) {
    const double permeability = p_.Kp * half_air * half_air * half_air * std::pow(0.5 / (1.0 - mean_air), p_.nK);
    const double buoyancy = air_density * gravity * (mean_temperature - air.temperature) / (air.temperature + ice_point_kelvin);
    draught += permeability * buoyancy / air_viscosity;
  }
  const double breeze = shape_.vent * draught * surface / 3.0;
  for (int i = 0; i < n_; ++i) shape.breeze[i] = breeze * share_[i];
}

/// Oxygen that diffusion, air and uptake settle at, by sweeps of a tridiagonal system with 1/(O + KO) taken from the last, until nothing
/// changes.
void Pile::breathe(const Shells& uptake, const Shape& shape, int sweeps) {
  for (int sweep = 0; sweep < sweeps; ++sweep) {
    Shells upper{}, right{};
    double inward = 0.0;
    for (int i = 0; i < n_; ++i) {
      const double outward = shape.gas[i] * oxygen_diffusivity;
      double diagonal = inward + outward + shape.breeze[i] + uptake[i] / (oxygen_[i] + p_.KO);
      double given = shape.breeze[i] * oxygen_of_air + (i == n_ - 1 ? outward * oxygen_of_air : 0.0);
      if (i > 0) {
        diagonal -= inward * upper[i - 1];
        given += inward * right[i - 1];
      }
      const double per_diagonal = 1.0 / diagonal;
      upper[i] = i == n_ - 1 ? 0.0 : outward * per_diagonal;
      right[i] = given * per_diagonal;
      inward = outward;
    }
    double changed = 0.0;
    double outer = oxygen_of_air;
    for (int i = n_ - 1; i >= 0; --i) {
      outer = right[i] + upper[i] * outer;
      changed = std::max(changed, std::abs(outer - oxygen_[i]));
      oxygen_[i] = outer;
    }
    if (changed < settled_oxygen) return;
  }
}

/// How fast each shell rots, 1 at 37 °C in moist, aired matter; returns the mean of the heap.
double Pile::rot(const Shape& shape, Shells& growth) const {
  double mean = 0.0;
  for (int i = 0; i < n_; ++i) {
    const double warmth = cardinal(shape.temperature[i], p_.Tmin, p_.Topt, p_.Tmax) / warmth_at_rate_temperature_;
    growth[i] = warmth > 0.0 ? warmth * moist_and_aired(shape.moisture[i], shape.air[i]) : 0.0;
    mean += growth[i] * share_[i];
  }
  return mean;
}

void Pile::rates(const Stock& stock, const Air& air, int sweeps, Rates& rates) {
  Shape shape;
  measure(stock, air, shape);
  Shells growth{}, uptake{};
  const double mean_growth = rot(shape, growth);
  const double of_ambient = (p_.KO + oxygen_of_air) / oxygen_of_air;
  const double activity = stock.activity / seconds_per_day;
  Shells unlimited{};  // kg/s, in the air's own oxygen
  for (int i = 0; i < n_; ++i) {
    unlimited[i] = (p_.kF * stock.fast[i] + p_.kS * stock.slow[i]) * growth[i] * activity;
    uptake[i] = unlimited[i] * p_.yO / oxygen_density * of_ambient;
  }
  breathe(uptake, shape, sweeps);

  rates.flows = Flows();
  double conducted_in = 0.0;  // W, from the shell within
  double vapour_in = 0.0;     // kg/s
  double vapour_heat_in = 0.0;
  double rotting = 0.0;
  double oxidised = 0.0;
  for (int i = 0; i < n_; ++i) {
    const bool edge = i == n_ - 1;
    const double celsius = shape.temperature[i];
    const double celsius_out = edge ? air.temperature : shape.temperature[i + 1];
    const double vapour_out = edge ? air.vapour : shape.vapour[i + 1];
    const double limited = growth[i] * activity * oxygen_[i] / (oxygen_[i] + p_.KO) * of_ambient;
    const double fast = p_.kF * limited * stock.fast[i];
    const double slow = p_.kS * limited * stock.slow[i];
    const double both = fast + slow;
    const double conducted = shape.heat[i] * (celsius - celsius_out);
    const double diffused = shape.gas[i] * vapour_diffusivity * (shape.vapour[i] - vapour_out);
    const double diffused_heat = diffused * vapour_enthalpy(diffused > 0.0 ? celsius : celsius_out);
    const double blown = shape.breeze[i] * (shape.vapour[i] - air.vapour);
    const double blown_heat =
        shape.breeze[i] * (shape.vapour[i] * vapour_enthalpy(celsius) - air.vapour * vapour_enthalpy(air.temperature));
    const double air_heat_out = shape.breeze[i] * air_density * air_heat * (celsius - air.temperature);
    const double heat_of_matter = both * (p_.yW * p_.cw - p_.cd) * celsius;
    rates.stock.fast[i] = -fast;
    rates.stock.slow[i] = -slow;
    rates.stock.water[i] = p_.yW * both - blown - diffused + vapour_in;
    rates.stock.enthalpy[i] =
        p_.dH * both + heat_of_matter - blown_heat - air_heat_out - conducted - diffused_heat + conducted_in + vapour_heat_in;
    rates.flows.volatile_solids += both;
    rates.flows.water_out += blown;
    rates.flows.heat_made += p_.dH * both;
    rates.flows.heat_of_matter += heat_of_matter;
    rates.flows.heat_in_air += air_heat_out;
    rates.flows.heat_in_vapour += blown_heat;
    conducted_in = conducted;
    vapour_in = diffused;
    vapour_heat_in = diffused_heat;
    rotting += stock.fast[i] + stock.slow[i];
    oxidised += both;
  }
  rates.flows.water_out += vapour_in;
  rates.flows.heat_conducted = conducted_in;
  rates.flows.heat_in_vapour += vapour_heat_in;
  rates.stock.volatile_nitrogen = rotting > 0.0 ? -p_.gN * stock.volatile_nitrogen * oxidised / rotting : 0.0;
  rates.stock.activity = p_.mu / seconds_per_day * mean_growth * stock.activity * (1.0 - stock.activity);
}

/// 1/s, no less than any heat of the heap decays at: that of its matrix, whose signs do not count since it has three diagonals, by the
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
  rates(stock_, air, sweeps, first);
  Stock ahead = stock_;
  for (int i = 0; i < n_; ++i) {
    ahead.enthalpy[i] += seconds * first.stock.enthalpy[i];
    ahead.fast[i] += seconds * first.stock.fast[i];
    ahead.slow[i] += seconds * first.stock.slow[i];
    ahead.water[i] += seconds * first.stock.water[i];
  }
  ahead.volatile_nitrogen += seconds * first.stock.volatile_nitrogen;
  ahead.activity += seconds * first.stock.activity;
  rates(ahead, air, sweeps, second);
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

void Pile::live_a_day(TemperaturePoint temperature, Steps steps) {
  const Air air = air_of(temperature);
  Rates unused;
  rates(stock_, air, sweeps_, unused);
  sweeps_ = sweeps_of_a_day;
  Shape shape;
  measure(stock_, air, shape);
  const double stable = most_decay_of_a_step / fastest_decay(shape);
  const double longest = std::min(steps.longest_s, std::max(std::min(stable, seconds_per_hour), 0.5 * stable));
  if (!(longest >= 60.0)) throw DomainError("the heap is too small to be forecast");
  const int count = static_cast<int>(std::ceil(seconds_per_day / longest));
  for (int i = 0; i < count; ++i) step(seconds_per_day / count, air, sweeps_of_a_step);
}

PileState Pile::state() const {
  Shape shape;
  measure(stock_, {0.0, 0.0}, shape);
  PileState now;
  double fast = 0.0, slow = 0.0, water = 0.0;
  now.least_air_space = 1.0;
  for (int i = 0; i < n_; ++i) {
    fast += stock_.fast[i];
    slow += stock_.slow[i];
    water += stock_.water[i];
    now.mean_degc += shape.temperature[i] * share_[i];
    const double solids = stock_.fast[i] + stock_.slow[i] + inert_ * share_[i];
    const double respiration = p_.kap * 1000.0 * p_.cC * (p_.kF * stock_.fast[i] + p_.kS * stock_.slow[i]) / solids;
    now.respiration_worst = std::max(now.respiration_worst, respiration);
    now.least_air_space = std::min(now.least_air_space, shape.air[i]);
  }
  const double solids = fast + slow + inert_;
  const double nitrogen = nitrogen_in_ - (volatile_nitrogen_in_ - stock_.volatile_nitrogen);
  now.core_degc = shape.temperature[0];
  now.edge_degc = shape.temperature[n_ - 1];
  now.volatile_solids_loss = 1.0 - solids / volatile_solids_in_;
  now.moisture = water / (water + solids + ash_);
  now.carbon_to_nitrogen = nitrogen > 0.0 ? p_.cC * solids / nitrogen : std::numeric_limits<double>::infinity();
  now.nitrogen_loss = nitrogen_in_ > 0.0 ? 1.0 - nitrogen / nitrogen_in_ : 0.0;
  now.respiration_mean = p_.kap * 1000.0 * p_.cC * (p_.kF * fast + p_.kS * slow) / solids;
  now.relative_volume = shape.total_volume / volume0_;
  now.core_oxygen = oxygen_[0];
  now.wet_mass_kg = water + solids + ash_;
  now.dry_mass_kg = solids + ash_;
  now.volatile_solids_kg = solids;
  return now;
}

WaterMass Pile::water_given() const { return water_given_ * unit::kg_water; }

Closure Pile::closure() const {
  double solids = inert_, water = 0.0, heat = 0.0;
  for (int i = 0; i < n_; ++i) {
    solids += stock_.fast[i] + stock_.slow[i];
    water += stock_.water[i];
    heat += stock_.enthalpy[i];
  }
  Closure closure;
  closure.carbon = (volatile_solids_in_ - solids - flows_.volatile_solids) / volatile_solids_in_;
  const double water_made = p_.yW * flows_.volatile_solids;
  if (water_in_ > 0.0) closure.water = (water_in_ + water_made - flows_.water_out - water_lost_ - water) / water_in_;
  closure.energy = (energy_in_ + flows_.heat_made + flows_.heat_of_matter - flows_.heat_conducted - flows_.heat_in_vapour -
                    flows_.heat_in_air - energy_lost_ - heat) /
                   (std::abs(energy_in_) + std::abs(flows_.heat_made) + 1.0);
  return closure;
}

}  // namespace heapwright
