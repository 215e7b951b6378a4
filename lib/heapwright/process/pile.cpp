#include "heapwright/process/pile.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "heapwright/error.hpp"
#include "heapwright/process/abreast_parts.hpp"
#include "heapwright/process/air.hpp"

namespace heapwright {
namespace {

using std::numbers::pi;

constexpr double seconds_per_hour = 3600.0;
constexpr double shell_thickness = 0.08;         // m, aimed at
constexpr double rate_temperature = 37.0;        // °C that kF, kS and mu are given at
constexpr double coldest_addition = 5.0;         // °C
constexpr double coldest_water = 2.0;            // °C
constexpr double vapour_share_of_turning = 0.7;  // 1, of the heat that a turning loses
constexpr double most_water_of_turning = 0.05;   // 1, of the pile's water
constexpr double most_decay_of_a_step = 1.6;     // 1, of the 2 that Heun's method bears
constexpr int sweeps_of_a_day = 4;
constexpr int sweeps_after_a_change = 30;

/// The cardinal temperature model, 0 outside Tmin to Tmax and 1 at Topt.
double cardinal(double t, double low, double best, double high) {
  if (!(t > low && t < high)) return 0.0;
  return (t - high) * (t - low) * (t - low) / ((best - low) * ((best - low) * (t - best) - (best - high) * (best + low - 2.0 * t)));
}

/// Share of the nitrogen that would go with all degradable matter, by the C:N of what was put in.
double nitrogen_loss_of(const ProcessParameters& p, double carbon_to_nitrogen) {
  return p.Nmax / (1.0 + std::exp((carbon_to_nitrogen - p.N0) / p.Nw));
}

double volatile_nitrogen_of(const ProcessParameters& p, const PileContents& contents) {
  const double nitrogen = contents.nitrogen.value();
  return nitrogen > 0.0 ? nitrogen * nitrogen_loss_of(p, p.cC * contents.volatile_solids().value() / nitrogen) : 0.0;
}

void check(MoistureWetBasis wet_to) {
  if (!(wet_to >= wet_basis(0.0) && wet_to < wet_basis(1.0))) throw DomainError("a pile is wetted to less than all water");
}

void check(const PileContents& contents, const SettledShape& shape) {
  const auto is_some = [](double number) { return number >= 0.0 && std::isfinite(number); };
  const bool whole = is_some(contents.fast.value()) && is_some(contents.slow.value()) && is_some(contents.inert.value()) &&
                     is_some(contents.coarse.value()) && contents.coarse <= contents.inert * (1.0 + 1e-9) &&
                     is_some(contents.ash.value()) && is_some(contents.water.value()) && is_some(contents.nitrogen.value());
  if (!whole || !is_positive(contents.volatile_solids())) throw DomainError("a pile is made of some organic matter");
  if (!(shape.volume >= smallest_pile && std::isfinite(shape.volume.value())))
    throw DomainError("a pile holds at least a bucketful to be forecast");
  if (!(is_positive(shape.exposed) && std::isfinite(shape.exposed.value()))) throw DomainError("a pile meets the air somewhere");
  if (!(shape.plan.value() >= 0.0 && std::isfinite(shape.plan.value()))) throw DomainError("a pile covers some ground, or none");
  if (!(shape.vent >= 0.0 && shape.cover > 0.0 && std::isfinite(shape.vent) && std::isfinite(shape.cover)))
    throw DomainError("some air passes the surface of any pile");
}

/// The air of a lane.
void take_air(int lane, TemperaturePoint temperature, double humidity, AirAbreast& air) {
  if (!std::isfinite(temperature.celsius())) throw DomainError("the air has some temperature");
  air.temperature[lane] = temperature.celsius();
  air.vapour[lane] = humidity * saturated_vapour(temperature.celsius());
}

/// How many steps a day has, by the heat that decays fastest.
int steps_of_a_day(double fastest_decay, Steps steps) {
  const double stable = most_decay_of_a_step / fastest_decay;
  if (!(std::isfinite(stable) && stable > 0.0)) throw DomainError("a pile's heat has gone astray");
  const double longest = std::min(steps.longest.value(), std::max(std::min(stable, seconds_per_hour), 0.5 * stable));
  if (!(longest >= 60.0)) throw DomainError("the pile is too small to be forecast");
  return static_cast<int>(std::ceil(seconds_per_day / longest));
}

constexpr auto parameters_of_a_lane = std::to_array<std::pair<Lanes PilesAbreast::*, double ProcessParameters::*>>({
    {&PilesAbreast::kF, &ProcessParameters::kF},     {&PilesAbreast::kS, &ProcessParameters::kS},
    {&PilesAbreast::Tmin, &ProcessParameters::Tmin}, {&PilesAbreast::Topt, &ProcessParameters::Topt},
    {&PilesAbreast::Tmax, &ProcessParameters::Tmax}, {&PilesAbreast::mu, &ProcessParameters::mu},
    {&PilesAbreast::KO, &ProcessParameters::KO},     {&PilesAbreast::dH, &ProcessParameters::dH},
    {&PilesAbreast::yO, &ProcessParameters::yO},     {&PilesAbreast::yW, &ProcessParameters::yW},
    {&PilesAbreast::cd, &ProcessParameters::cd},     {&PilesAbreast::cw, &ProcessParameters::cw},
    {&PilesAbreast::k0, &ProcessParameters::k0},     {&PilesAbreast::k1, &ProcessParameters::k1},
    {&PilesAbreast::k2, &ProcessParameters::k2},     {&PilesAbreast::h, &ProcessParameters::h},
    {&PilesAbreast::Kp, &ProcessParameters::Kp},     {&PilesAbreast::nK, &ProcessParameters::nK},
    {&PilesAbreast::u0, &ProcessParameters::u0},     {&PilesAbreast::dlat, &ProcessParameters::dlat},
    {&PilesAbreast::gN, &ProcessParameters::gN},
});

}  // namespace

/// Piles that live abreast; in a lane of no pile stands some other's.
struct Pile::Abreast {
  PilesAbreast piles{};
  StockAbreast stock{};
  FlowsAbreast flows{};  ///< since they were taken up
  ShellsAbreast oxygen{};

  explicit Abreast(const Pile& in_every_lane) {
    for (int lane = 0; lane < piles_abreast; ++lane) in_every_lane.take_lane(lane, *this);
  }
};

void Pile::take_lane(int lane, Abreast& abreast) const {
  PilesAbreast& piles = abreast.piles;
  piles.shells = static_cast<std::size_t>(n_);
  for (std::size_t i = 0; i < piles.shells; ++i) {
    const int shell = static_cast<int>(i);
    piles.share[i] = share_[shell];
    piles.per_share[i] = per_share_[shell];
    abreast.stock.enthalpy[i][lane] = stock_.enthalpy[shell];
    abreast.stock.fast[i][lane] = stock_.fast[shell];
    abreast.stock.slow[i][lane] = stock_.slow[shell];
    abreast.stock.water[i][lane] = stock_.water[shell];
    abreast.oxygen[i][lane] = oxygen_[shell];
  }
  abreast.stock.volatile_nitrogen[lane] = stock_.volatile_nitrogen;
  abreast.stock.activity[lane] = stock_.activity;
  for (const auto& [of_piles, of_set] : parameters_of_a_lane) (piles.*of_piles)[lane] = p_.*of_set;
  piles.vent[lane] = shape_.vent;
  piles.cover[lane] = shape_.cover;
  piles.radius0[lane] = radius0_;
  piles.scale[lane] = scale_;
  piles.volume0[lane] = volume0_;
  piles.dry_volume0[lane] = dry_volume0_;
  piles.log_shrink[lane] = degradable_ > 0.0 ? log_shrink_ : 0.0;
  piles.warmth_at_rate_temperature[lane] = warmth_at_rate_temperature_;
  piles.fixed[lane] = inert_ + ash_;
  piles.per_degradable[lane] = degradable_ > 0.0 ? 1.0 / degradable_ : 0.0;
}

void Pile::take_back(int lane, const Abreast& abreast) {
  for (int shell = 0; shell < n_; ++shell) {
    const auto i = static_cast<std::size_t>(shell);
    stock_.enthalpy[shell] = abreast.stock.enthalpy[i][lane];
    stock_.fast[shell] = abreast.stock.fast[i][lane];
    stock_.slow[shell] = abreast.stock.slow[i][lane];
    stock_.water[shell] = abreast.stock.water[i][lane];
    oxygen_[shell] = abreast.oxygen[i][lane];
  }
  stock_.volatile_nitrogen = abreast.stock.volatile_nitrogen[lane];
  stock_.activity = abreast.stock.activity[lane];
  flows_.volatile_solids += abreast.flows.volatile_solids[lane];
  flows_.water_out += abreast.flows.water_out[lane];
  flows_.heat_conducted += abreast.flows.heat_conducted[lane];
  flows_.heat_in_vapour += abreast.flows.heat_in_vapour[lane];
  flows_.heat_in_air += abreast.flows.heat_in_air[lane];
  flows_.heat_made += abreast.flows.heat_made[lane];
  flows_.heat_of_matter += abreast.flows.heat_of_matter[lane];
}

Pile::Pile(const ProcessParameters& parameters, const PileContents& contents, const SettledShape& shape, TemperaturePoint start)
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
  coarse_ = contents.coarse.value();
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
  Abreast alone(*this);
  AirAbreast air;
  for (int lane = 0; lane < piles_abreast; ++lane) take_air(lane, start, usual_humidity, air);
  Lanes unused;
  breathe_in(alone.piles, alone.stock, air, Lanes{} + sweeps_, alone.oxygen, unused);  // its first breath
  take_back(0, alone);
}

void Pile::spread_heat(double joule) {
  for (int i = 0; i < n_; ++i) stock_.enthalpy[i] += joule * share_[i];
}

void Pile::add(const PileContents& contents, TemperaturePoint air) {
  const double celsius = std::max(air.celsius(), coldest_addition);
  const double heat = (p_.cd * contents.dry().value() + p_.cw * contents.water.value()) * celsius;
  for (int i = 0; i < n_; ++i) {
    stock_.fast[i] += contents.fast.value() * share_[i];
    stock_.slow[i] += contents.slow.value() * share_[i];
    stock_.water[i] += contents.water.value() * share_[i];
  }
  spread_heat(heat);
  inert_ += contents.inert.value();
  coarse_ += contents.coarse.value();
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

void Pile::rain(TemperaturePoint air, Length taken_up) {
  const double celsius = air.celsius();
  if (!(celsius > 0.0)) return;
  const double fallen = taken_up.value() * water_kg_per_m3 * shape_.plan.value();
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

void Pile::live_a_day(TemperaturePoint air, Steps steps, double humidity) {
  const Day day{this, air, humidity};
  live_a_day(std::span(&day, 1), steps);
}

void Pile::live_a_day(std::span<const Day> days, Steps steps) {
  if (days.empty() || days.size() > piles_abreast) throw DomainError("some piles live abreast, as many as there are lanes at most");
  Abreast abreast(*days.front().pile);
  AirAbreast air;
  Lanes sweeps{};
  for (int lane = 0; lane < piles_abreast; ++lane) {
    const Day& day = days[std::min(static_cast<std::size_t>(lane), days.size() - 1)];
    if (day.pile->n_ != days.front().pile->n_) throw DomainError("piles of as many shells live abreast");
    if (lane > 0) day.pile->take_lane(lane, abreast);
    take_air(lane, day.air, day.humidity, air);
    sweeps[lane] = day.pile->sweeps_;
  }
  Lanes decay;
  breathe_in(abreast.piles, abreast.stock, air, sweeps, abreast.oxygen, decay);
  Lanes count{}, seconds{};
  for (int lane = 0; lane < static_cast<int>(days.size()); ++lane) {
    count[lane] = steps_of_a_day(decay[lane], steps);
    seconds[lane] = seconds_per_day / count[lane];
  }
  take_steps(abreast.piles, air, count, seconds, abreast.stock, abreast.flows, abreast.oxygen);
  for (int lane = 0; lane < static_cast<int>(days.size()); ++lane) {
    Pile& pile = *days[static_cast<std::size_t>(lane)].pile;
    pile.take_back(lane, abreast);
    pile.sweeps_ = sweeps_of_a_day;
    pile.steps_taken_ += static_cast<long>(count[lane]);
  }
}

PileState Pile::state() const {
  const Abreast alone(*this);
  ShapeAbreast shape;
  measure(alone.piles, alone.stock, AirAbreast(), shape);
  PileState now;
  double fast = 0.0, slow = 0.0, water = 0.0, mean = 0.0, worst = 0.0;
  now.least_air_space = now.rotted_worst = 1.0;
  const auto respiration = [&](double fast_kg, double slow_kg, double passing) {
    return passing > 0.0 ? p_.kap * 1000.0 * p_.cC * (p_.kF * fast_kg + p_.kS * slow_kg) / passing : 0.0;  // mg/g and day
  };
  for (int i = 0; i < n_; ++i) {
    fast += stock_.fast[i];
    slow += stock_.slow[i];
    water += stock_.water[i];
    mean += shape.temperature[static_cast<std::size_t>(i)][0] * share_[i];
    const double rotting = stock_.fast[i] + stock_.slow[i];
    const double passing = rotting + (inert_ - coarse_) * share_[i];
    worst = std::max(worst, respiration(stock_.fast[i], stock_.slow[i], passing));
    if (degradable_ > 0.0) now.rotted_worst = std::min(now.rotted_worst, 1.0 - rotting * per_share_[i] / degradable_);
    now.least_air_space = std::min(now.least_air_space, shape.air[static_cast<std::size_t>(i)][0]);
  }
  const double solids = fast + slow + inert_;
  const double nitrogen = nitrogen_in_ - (volatile_nitrogen_in_ - stock_.volatile_nitrogen);
  const auto to_nitrogen = [&](double kg) {
    return carbon_to_nitrogen(nitrogen > 0.0 ? p_.cC * kg / nitrogen : std::numeric_limits<double>::infinity());
  };
  now.core = TemperaturePoint::from_celsius(shape.temperature.front()[0]);
  now.mean = TemperaturePoint::from_celsius(mean);
  now.edge = TemperaturePoint::from_celsius(shape.temperature[static_cast<std::size_t>(n_ - 1)][0]);
  now.volatile_solids_loss = std::max(0.0, 1.0 - solids / volatile_solids_in_);  // of what is frozen all along no rounding below nothing
  now.moisture = wet_basis(water / (water + solids + ash_));
  now.carbon_to_nitrogen = to_nitrogen(solids - coarse_);
  now.least_carbon_to_nitrogen = to_nitrogen(inert_ - coarse_);
  now.nitrogen_loss = nitrogen_in_ > 0.0 ? 1.0 - nitrogen / nitrogen_in_ : 0.0;
  now.respiration_mean = respiration(fast, slow, solids - coarse_) * mg_carbon_per_g_and_day;
  now.respiration_worst = worst * mg_carbon_per_g_and_day;
  now.relative_volume = shape.total_volume[0] / volume0_;
  now.core_oxygen = oxygen_[0];
  now.mass = (water + solids + ash_) * unit::kg;
  now.dry = (solids + ash_) * unit::kg_dry;
  now.volatile_solids = solids * unit::kg_organic;
  now.coarse = coarse_ * unit::kg_organic;
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
