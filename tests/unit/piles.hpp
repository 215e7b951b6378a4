#pragma once
/// Piles to try the pile model on.

#include <cmath>
#include <numbers>
#include <string>
#include <utility>
#include <vector>

#include "heapwright/mix/mix.hpp"
#include "heapwright/process/forecast.hpp"
#include "heapwright/process/weather.hpp"

namespace heapwright::piles {

inline const Materials& materials() {
  static const Materials tables = built_in_materials();
  return tables;
}

inline const ProcessEnsemble& every_set() {
  static const ProcessEnsemble ensemble = built_in_ensemble();
  return ensemble;
}

/// The best set and two of the others, to be quick.
inline const ProcessEnsemble& some_sets() {
  static const ProcessEnsemble ensemble = [] {
    ProcessEnsemble few = every_set();
    few.members.resize(2);
    return few;
  }();
  return ensemble;
}

/// Some kg of dry matter of each, watered or dried to a moisture.
inline Mix mix(const std::vector<std::pair<std::string, double>>& dry, double moisture, const Materials& tables = materials()) {
  Blend blend;
  for (const auto& [name, kg] : dry) {
    const Feedstock& row = find_feedstock(tables, name);
    const Properties properties = row.properties().value();
    const Mass mass = as_is_mass_of(kg * unit::kg_dry, properties.moisture);
    blend.ingredients.push_back({{properties, row.density(), mass}, row.id, row.name, row.usual_packing});
  }
  blend.added_water = water_to(mix_of(blend), wet_basis(moisture));
  Mix made = mix_of(blend);
  made.moisture = wet_basis(moisture);
  made.mass = as_is_mass_of(made.dry, *made.moisture);
  made.water = (made.mass.value() - made.dry.value()) * unit::kg_water;
  return made;
}

/// Autumn leaves with clippings and scraps, C:N about 31: what a household builds.
inline Mix household(double moisture = 0.55) {
  return mix({{"leaves-fall", 65.0}, {"grass-clippings", 20.0}, {"kitchen-scraps", 15.0}}, moisture);
}

/// 0.8 m³ about as a free pile meets the air and the rain.
inline SettledShape pile_of_0_8_m3() { return {0.8 * unit::m3, 3.9 * unit::m2, 1.7 * unit::m2}; }

/// Days without rain.
inline DailyWeather steady(double celsius, int days) {
  return DailyWeather(static_cast<std::size_t>(days), {TemperaturePoint::from_celsius(celsius)});
}

/// A smooth year, coldest on 20 January, by the means of its months. Its rain is what is taken where nobody tells of it.
inline Weather year(double mean_degc, double half_swing) {
  MonthlyMeans means;
  for (int month = 0; month < 12; ++month)
    means.push_back(
        TemperaturePoint::from_celsius(mean_degc - half_swing * std::cos(2.0 * std::numbers::pi * (30.4 * month - 4.8) / 365.0)));
  return Weather::of_months(means);
}

}  // namespace heapwright::piles
