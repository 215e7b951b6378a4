#pragma once
/// Piles that live the same hours abreast, a pile a lane, so that the processor does for all what it does for one. No lane knows of the
/// others: each pile lives as it would alone.

#include <array>
#include <cstdint>

#include "heapwright/process/pile.hpp"

namespace heapwright {

inline constexpr double seconds_per_day = 86400.0;
inline constexpr double heat_of_fusion = 3.34e5;  ///< J/kg
inline constexpr double oxygen_of_air = 0.205;    ///< 1, volume fraction

/// A figure of each of the piles, and what holds of which: −1 where it does, else 0.
using Lanes = double __attribute__((vector_size(piles_abreast * sizeof(double))));
using LanesWhere = std::int64_t __attribute__((vector_size(piles_abreast * sizeof(std::int64_t))));

/// A figure of each shell of the piles, core first, and a last one of what lies outside.
using ShellsAbreast = std::array<Lanes, most_shells + 1>;

struct AirAbreast {
  Lanes temperature{};  ///< °C
  Lanes vapour{};       ///< kg/m³
};

/// What is integrated.
struct StockAbreast {
  ShellsAbreast enthalpy;  ///< J, of liquid water and dry matter at 0 °C and up
  ShellsAbreast fast;      ///< kg
  ShellsAbreast slow;      ///< kg
  ShellsAbreast water;     ///< kg
  Lanes volatile_nitrogen;
  Lanes activity;
};

/// What left or was made, kg or J since the beginning; or per second.
struct FlowsAbreast {
  Lanes volatile_solids;  ///< oxidized
  Lanes water_out;
  Lanes heat_conducted;
  Lanes heat_in_vapour;
  Lanes heat_in_air;
  Lanes heat_made;
  Lanes heat_of_matter;  ///< that enthalpy gains as dry matter turns to water
};

/// What follows from the stock at once.
struct ShapeAbreast {
  ShellsAbreast dry, heat_capacity, temperature, moisture, air, conductivity, vapour;
  Lanes total_volume;
  ShellsAbreast heat, gas;  ///< conductances outward of each shell, W/K and m
  ShellsAbreast breeze;     ///< m³/s of air through each
};

/// What of piles of as many shells each does not change in a day, with the symbols of ProcessParameters and Pile.
struct PilesAbreast {
  std::size_t shells;
  std::array<double, most_shells> share, per_share;
  Lanes kF, kS, Tmin, Topt, Tmax, mu, KO, dH, yO, yW, cd, cw, k0, k1, k2, h, Kp, nK, u0, dlat, gN;
  Lanes vent, cover;
  Lanes radius0, scale, volume0, dry_volume0, log_shrink, warmth_at_rate_temperature;
  Lanes fixed;           ///< kg, inert and ash
  Lanes per_degradable;  ///< 1/kg; 0 of what does not rot
};

/// What follows from a stock, in the air.
void measure(const PilesAbreast& piles, const StockAbreast& stock, const AirAbreast& air, ShapeAbreast& shape);
/// The oxygen of each shell after as many sweeps as each lane is given, and the fastest decay of heat, 1/s.
void breathe_in(const PilesAbreast& piles, const StockAbreast& stock, const AirAbreast& air, const Lanes& sweeps, ShellsAbreast& oxygen,
                Lanes& decay);
/// Steps of Heun's method, as many in each lane as it is given; a lane that has no more stands still.
void take_steps(const PilesAbreast& piles, const AirAbreast& air, const Lanes& steps, const Lanes& seconds, StockAbreast& stock,
                FlowsAbreast& flows, ShellsAbreast& oxygen);

}  // namespace heapwright
