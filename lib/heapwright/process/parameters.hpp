#pragma once
/// The figures that the pile model runs on: one best set, and the ensemble that shows how wide a forecast is.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/materials/feedstock.hpp"

namespace heapwright {

/// Shares of a material's volatile solids that rot fast and slowly, together at most most_degradable.
struct DecayShares {
  double fast = 0.0;
  double slow = 0.0;
};
inline constexpr double most_degradable = 0.9;  ///< of volatile solids: the rest of anything is as good as stable (assumed)

/// A set of parameters; symbols as in README.md beside this file, SI with rates per day. Each set hangs together: the shares of the
/// materials go with its rates and no others.
struct ProcessParameters {
  double kF = 0.0;    ///< 1/d, rate of the fast volatile solids at 37 °C, moist, aired, all microbes there
  double kS = 0.0;    ///< 1/d, of the slow ones
  double Tmin = 0.0;  ///< °C, nothing rots below
  double Topt = 0.0;  ///< °C, it rots fastest
  double Tmax = 0.0;  ///< °C, nothing rots above
  double a0 = 0.0;    ///< 1, activity at the start
  double mu = 0.0;    ///< 1/d, its growth at 37 °C
  double KO = 0.0;    ///< 1, volume fraction of oxygen at half the rate
  double dH = 0.0;    ///< J/kg, heat of the volatile solids oxidised
  double yO = 0.0;    ///< kg oxygen per kg of volatile solids
  double yW = 0.0;    ///< kg water made per kg of volatile solids
  double cC = 0.0;    ///< kg carbon per kg of volatile solids
  double cd = 0.0;    ///< J/(kg K), heat capacity of dry matter
  double cw = 0.0;    ///< J/(kg K), of water
  double k0 = 0.0;    ///< W/(m K), thermal conductivity k0 + k1 ρ + k2 ρw
  double k1 = 0.0;    ///< W/(m K) per kg dry matter/m³
  double k2 = 0.0;    ///< W/(m K) per kg water/m³
  double h = 0.0;     ///< W/(m² K), heat film at the surface
  double Kp = 0.0;    ///< m², permeability at air space 1/2
  double nK = 0.0;    ///< 1, its exponent
  double u0 = 0.0;    ///< m/s, air moving through a pile no warmer than the air
  double dlat = 0.0;  ///< m, gas film at the surface
  double rhoF = 0.0;  ///< kg/m³, dry density of the pile when all degradable matter is gone
  double chi = 0.0;   ///< 1, share of the heat above the air's that a turning loses
  double cap = 0.0;   ///< kg water per kg dry matter, what is more drains away
  double kap = 0.0;   ///< 1, respiration of a laboratory's sample over that in the pile
  double Nmax = 0.0;  ///< 1, most nitrogen that can be lost
  double N0 = 0.0;    ///< 1, C:N at which half of that is
  double Nw = 0.0;    ///< 1, how steeply it falls with C:N
  double gN = 0.0;    ///< 1, how much sooner nitrogen goes than volatile solids
  // Of the pile and its year rather than of the model, drawn with the rest.
  double rho_f = 1.0;   ///< 1, its settled density over the law's (settled.hpp)
  double rain_f = 1.0;  ///< 1, the rain it takes up over the law's (rain.hpp)
  double dT = 0.0;      ///< K, how much warmer the year is than the mean
  std::map<RottingMaterial, DecayShares> shares;
};

/// How a material lies, whatever the set.
struct SettlingMaterial {
  DryBulkDensity density;  ///< that it settles to by itself, 1 m high
  bool coarse = false;     ///< whether what of it does not rot stays on the screen
};

/// The best set and sets drawn about it. materials/process.toml says whose each figure is.
struct ProcessEnsemble {
  ProcessParameters best;
  std::vector<ProcessParameters> members;
  std::map<RottingMaterial, SettlingMaterial> settling;
  std::map<RottingMaterial, RottingMaterial> moves_with;  ///< those whose shares the trials do not tell
  std::map<FeedstockClass, RottingMaterial> rots_like_by_class;

  /// The material that a feedstock rots like: its own `rots_like`, else by its class.
  RottingMaterial material_of(const Feedstock& feedstock) const;

  /// How the material lies that it rots like.
  const SettlingMaterial& settling_of(const Feedstock& feedstock) const;

  /// A feedstock's shares in a set: its own, moved as far as the set moves the material that it rots like, and that material's where it has
  /// none of its own. Together at most most_degradable.
  DecayShares shares_of(const Feedstock& feedstock, const ProcessParameters& set) const;
};

/// The table that comes with the program.
ProcessEnsemble built_in_ensemble();

}  // namespace heapwright
