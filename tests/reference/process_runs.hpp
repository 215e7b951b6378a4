#pragma once
/// Piles to hold the model against: what is put in, how it is kept and in what weather; the five reference runs.

#include <cmath>
#include <map>
#include <numbers>
#include <string>
#include <vector>

#include "heapwright/process/pile.hpp"
#include "heapwright/process/rain.hpp"

namespace heapwright::runs {

/// A part of a mix by dry mass.
struct Part {
  RottingMaterial material;
  double share;
};

/// What the model's figures were computed with; feedstocks.toml may have it otherwise.
struct Make {
  double volatile_solids;  ///< of dry matter
  double carbon_to_nitrogen;
};
inline const std::map<RottingMaterial, Make> makes{{RottingMaterial::leaves, {0.89, 50.0}}, {RottingMaterial::grass, {0.88, 17.0}},
                                                   {RottingMaterial::food, {0.88, 17.0}},   {RottingMaterial::manure, {0.80, 18.0}},
                                                   {RottingMaterial::straw, {0.92, 90.0}},  {RottingMaterial::yard_trimmings, {0.82, 24.0}},
                                                   {RottingMaterial::shrub, {0.95, 70.0}}};

/// So many kg of dry matter and water; the shares that rot are the set's.
inline PileContents contents(const ProcessParameters& p, const std::vector<Part>& parts, double dry_kg, double water_kg) {
  double fast = 0.0, slow = 0.0, inert = 0.0, ash = 0.0, nitrogen = 0.0;
  for (const Part& part : parts) {
    const Make& make = makes.at(part.material);
    const double dry = part.share * dry_kg;
    const double solids = make.volatile_solids * dry;
    const DecayShares shares = p.shares.at(part.material);
    fast += shares.fast * solids;
    slow += shares.slow * solids;
    inert += (1.0 - shares.fast - shares.slow) * solids;
    ash += dry - solids;
    nitrogen += p.cC * solids / make.carbon_to_nitrogen;
  }
  return {fast * unit::kg_organic, slow * unit::kg_organic,   inert * unit::kg_organic,    OrganicMass(),
          ash * unit::kg_dry,      water_kg * unit::kg_water, nitrogen * unit::kg_nitrogen};
}

/// A year of 11.5 °C on the mean, coldest on the twentieth day, from a day of the year on.
inline double season(int first_day, double day) {
  return 11.5 - 12.0 * std::cos(2.0 * std::numbers::pi * (day + first_day - 20.0) / 365.25);
}

/// The exposed surface of a free pile: a half ball's, and 15 % for its slopes.
inline double pile_surface(double volume) {
  return 1.15 * 2.0 * std::numbers::pi * std::pow(3.0 * volume / (2.0 * std::numbers::pi), 2.0 / 3.0);
}

/// The ground under a free pile.
inline double pile_plan(double volume) { return pile_surface(volume) / 2.3; }

struct Run {
  std::vector<Part> parts;
  double volume_m3;
  double exposed_m2;
  double cover;
  double wet_kg;
  double moisture;
  int season_from;  ///< day of the year; 0 for a steady constant_degc
  double constant_degc;
  int turn_every;  ///< 0 never
  int last_turn;
  double wet_to;
  double rain_mm;  ///< a day, of which a pile takes up three tenths of what does not dry
  int days;
  double fed_each_day;  ///< share of the first fill
  int last_feed;

  TemperaturePoint air(int day) const {
    return TemperaturePoint::from_celsius(season_from > 0 ? season(season_from, day + 0.5) : constant_degc);
  }
  TemperaturePoint start() const { return air(0); }
  PileContents filling(const ProcessParameters& p) const { return contents(p, parts, wet_kg * (1.0 - moisture), wet_kg * moisture); }
  Pile pile(const ProcessParameters& p) const {
    return Pile(p, filling(p), {volume_m3 * unit::m3, exposed_m2 * unit::m2, exposed_m2 / 2.3 * unit::m2, 1.0, cover}, start());
  }
  void events(Pile& pile, const ProcessParameters& p, int day) const {
    if (fed_each_day > 0.0 && day >= 1 && day <= last_feed) pile.add(fed_each_day * filling(p), air(day));
    if (turn_every > 0 && day > 0 && day % turn_every == 0 && day <= last_turn) pile.turn(air(day), wet_basis(wet_to));
    if (rain_mm > 0.0) pile.rain(air(day), rain_taken_up(rain_mm / 1000.0 * unit::m, air(day), 0.30 * p.rain_f));
    pile.drain();
  }
};

inline const std::map<std::string, Run>& all() {
  using enum RottingMaterial;
  static const std::vector<Part> mixed{{leaves, 0.6}, {grass, 0.2}, {food, 0.2}};
  static const std::vector<Part> autumn{{leaves, 0.65}, {grass, 0.2}, {food, 0.15}};
  static const double fed_dry = 0.75 * 0.28 + 0.25 * 0.62;  // of wet mass: food scraps and leaves
  static const std::vector<Part> scraps{{food, 0.75 * 0.28 / fed_dry}, {leaves, 0.25 * 0.62 / fed_dry}};
  static const std::map<std::string, Run> runs{
      {"R1", {mixed, 0.8, pile_surface(0.8), 1.0, 240.0, 0.50, 110, 0.0, 0, 0, 0.0, 3.1, 365, 0.0, 0}},
      {"R2", {mixed, 1.0, 5.0, 1.0, 330.0, 0.57, 0, 20.0, 3, 87, 0.55, 0.0, 180, 0.0, 0}},
      {"R3", {autumn, 1.0, pile_surface(1.0), 1.0, 300.0, 0.55, 293, 0.0, 14, 364, 0.52, 3.1, 365, 0.0, 0}},
      {"R4", {{{leaves, 1.0}}, 25.0, 22.0, 1.0, 5750.0, 0.55, 320, 0.0, 14, 364, 0.55, 3.1, 365, 0.0, 0}},
      {"R5", {scraps, 0.02, 1.9 * std::pow(0.1, 2.0 / 3.0), 0.5, 8.0, 1.0 - fed_dry, 0, 28.0, 0, 0, 0.0, 0.0, 120, 0.2, 49}},
  };
  return runs;
}

}  // namespace heapwright::runs
