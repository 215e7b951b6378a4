#pragma once
/// A pile as the model has it: shells from the core to the edge, each with its heat, rotting matter and water.
///
/// README.md beside this file gives the equations, their sources and how far they hold. Quantities are typed where they come in and go
/// out; within class Pile, doubles in the SI slots that each name documents (kg, m, s, J, W, °C; oxygen as volume fraction).

#include <array>
#include <optional>
#include <span>

#include "heapwright/process/air.hpp"
#include "heapwright/process/contents.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// Less than a bucketful warms and cools too fast to follow.
inline const Volume smallest_pile = 0.018 * unit::m3;

inline constexpr ParticleDensity density_of_solids = 1500.0 * (unit::kg_dry / unit::m3);  ///< dry, without air; assumed

/// The size of a pile as built, and how it meets the air.
struct SettledShape {
  Volume volume;
  Area exposed;        ///< top and sides: the base is taken as neither losing heat nor breathing
  Area plan{};         ///< the ground that rain falls on
  double vent = 1.0;   ///< 1, air drawn through, relative to an open pile
  double cover = 1.0;  ///< 1, gas passing the surface, relative to an open pile
};

/// How long the integrator's steps may be. Shorter wherever the heat would outrun them.
struct Steps {
  Duration longest;
};
/// The reference runs' and the forecasts'. Steps of three hours are as good for most piles, within 0.13 °C of these, but where a pile works
/// hardest they overshoot by up to 10 °C, past where rotting stops.
inline constexpr Steps hourly_steps{unit::hour};

/// What respiration is told in: a mg of CO2-C per g of organic matter and day.
inline constexpr RespirationRate mg_carbon_per_g_and_day = 1e-3 * (unit::kg_carbon / unit::kg_organic) / unit::day;

/// What a pile is at a time.
struct PileState {
  TemperaturePoint core = TemperaturePoint::from_celsius(0.0);
  TemperaturePoint mean = TemperaturePoint::from_celsius(0.0);
  TemperaturePoint edge = TemperaturePoint::from_celsius(0.0);
  double volatile_solids_loss = 0.0;  ///< share of all that was put in
  MoistureWetBasis moisture;
  CarbonNitrogenRatio carbon_to_nitrogen;        ///< of what passes a screen; infinite without nitrogen
  CarbonNitrogenRatio least_carbon_to_nitrogen;  ///< that it can come down to, when all has rotted that does
  double nitrogen_loss = 0.0;                    ///< share of all that was put in
  RespirationRate respiration_mean;              ///< of a sample of the whole at 37 °C
  RespirationRate respiration_worst;             ///< of the rawest shell
  double rotted_worst = 0.0;                     ///< share of what rots that is gone, in the rawest shell; 1 where nothing does
  double relative_volume = 0.0;                  ///< over the volume built
  double core_oxygen = 0.0;                      ///< volume fraction
  Mass mass;
  DryMass dry;
  OrganicMass volatile_solids;
  OrganicMass coarse;            ///< wood that stays on the screen
  double least_air_space = 0.0;  ///< of the shell with least
};

/// By how much carbon, water and energy do not balance over all that happened, each relative to what went in.
struct Closure {
  double carbon = 0.0;
  double water = 0.0;
  double energy = 0.0;
};

inline constexpr int most_shells = 6;    ///< of a pile
inline constexpr int piles_abreast = 4;  ///< that live a day at the cost of one, where the processor takes four numbers at once

/// A pile under one set of parameters, which is lived through day by day.
class Pile {
 public:
  /// @throws DomainError for a pile of nothing, without volatile solids, of less than smallest_pile, or with figures that are none
  Pile(const ProcessParameters& parameters, const PileContents& contents, const SettledShape& shape, TemperaturePoint start);

  // What happens at the start of a day, in this order. All throw DomainError for a moisture of 1 and more, or air without a temperature.
  /// More of the same recipe, spread over the whole, as warm as the air but not below 5 °C.
  void add(const PileContents& contents, TemperaturePoint air);
  /// All of it mixed, which loses heat and some water; then water up to a moisture, where one is given and the pile is not frozen.
  void turn(TemperaturePoint air, std::optional<MoistureWetBasis> wet_to);
  /// Water on the pile as it lies, each thawed shell up to a moisture.
  void water(TemperaturePoint air, MoistureWetBasis wet_to);
  /// Rain that is taken up on its plan area, spread over the whole; none while it freezes.
  void rain(TemperaturePoint air, Length taken_up);
  /// What the pile cannot hold runs out.
  void drain();

  /// A day under one air temperature. Heun's method, with steps that the heat does not outrun.
  /// @param humidity 1, of the air, relative
  /// @throws DomainError for air without a temperature
  void live_a_day(TemperaturePoint air, Steps steps, double humidity = usual_humidity);

  /// A pile and the air of its day.
  struct Day {
    Pile* pile;
    TemperaturePoint air;
    double humidity;
  };
  /// A day of up to piles_abreast piles of as many shells each, in which each lives as it would alone. @throws DomainError, as alone
  static void live_a_day(std::span<const Day> days, Steps steps);

  /// What it is now.
  PileState state() const;
  /// How well all balances have closed so far.
  Closure closure() const;
  WaterMass water_given() const;  ///< at turnings and by watering
  /// For whoever checks the integrator: into how many shells it is cut, and how many steps it took.
  int shells() const { return n_; }
  long steps_taken() const { return steps_taken_; }

 private:
  /// A figure of each shell, core first; only the first n_ count.
  class Shells {
   public:
    double& operator[](int shell) { return of_[static_cast<std::size_t>(shell)]; }
    double operator[](int shell) const { return of_[static_cast<std::size_t>(shell)]; }
    void fill(double value) { of_.fill(value); }

   private:
    std::array<double, most_shells> of_;
  };

  /// What is integrated.
  struct Stock {
    Shells enthalpy{};  ///< J, of liquid water and dry matter at 0 °C and up
    Shells fast{};      ///< kg
    Shells slow{};      ///< kg
    Shells water{};     ///< kg
    double volatile_nitrogen = 0.0;
    double activity = 0.0;
  };
  /// What left or was made, kg or J since the beginning.
  struct Flows {
    double volatile_solids = 0.0;  ///< oxidized
    double water_out = 0.0;
    double heat_conducted = 0.0;
    double heat_in_vapour = 0.0;
    double heat_in_air = 0.0;
    double heat_made = 0.0;
    double heat_of_matter = 0.0;  ///< that enthalpy gains as dry matter turns to water
  };

  struct Abreast;
  void take_lane(int lane, Abreast& abreast) const;
  void take_back(int lane, const Abreast& abreast);
  void spread_heat(double joule);

  ProcessParameters p_;
  SettledShape shape_;
  int n_;
  double radius0_, scale_, volume0_, dry_volume0_, log_shrink_;
  Shells share_{}, per_share_{};  ///< of the volume, and 1 over it
  double warmth_at_rate_temperature_ = 0.0;
  double inert_ = 0.0, coarse_ = 0.0, ash_ = 0.0, degradable_ = 0.0;  ///< kg, of all put in
  double nitrogen_in_ = 0.0, volatile_nitrogen_in_ = 0.0;             ///< kg
  double volatile_solids_in_ = 0.0, water_in_ = 0.0, energy_in_ = 0;  ///< kg, kg, J
  double water_lost_ = 0.0, energy_lost_ = 0.0;                       ///< by turning and draining
  double water_given_ = 0.0;
  Stock stock_;
  Flows flows_;
  Shells oxygen_{};
  int sweeps_ = 30;
  long steps_taken_ = 0;
};

}  // namespace heapwright
