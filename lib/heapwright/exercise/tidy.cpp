#include "heapwright/exercise/tidy.hpp"

#include <cmath>

namespace heapwright {
namespace {

constexpr double even_within = 1e-6;  // of a step: what sums of fractions may be off by

/// What its dry matter, carbon and nitrogen come to, where they are tidy.
bool is_tidy(double dry, double carbon_percent, double ratio) {
  const double carbon = dry * carbon_percent / 100.0;
  return is_even(dry, 1.0) && is_even(carbon, 0.1) && is_even(carbon / ratio, 0.01);
}

Ingredient portion_of(const Feedstock& feedstock, Mass mass, double moisture_percent, double carbon_percent, double ratio) {
  Ingredient portion;
  portion.id = feedstock.id;
  portion.name = feedstock.name;
  portion.mass = mass;
  portion.properties = {wet_basis(moisture_percent / 100.0), carbon_dry_basis(carbon_percent / 100.0),
                        nitrogen_dry_basis(carbon_percent / 100.0 / ratio), organic_dry_basis(1.0), organic_particle_density()};
  return portion;
}

}  // namespace

bool is_even(double number, double step) { return std::abs(number / step - std::round(number / step)) < even_within; }

bool rounds_clearly(double number, double step) {
  constexpr double margin = 0.13;  // of a step: four figures of a working move it by less
  const double rest = number / step - std::floor(number / step);
  return std::abs(rest - 0.5) > margin;
}

std::vector<double> multiples_of(double step, Band<double> between) {
  std::vector<double> multiples;
  for (double count = std::ceil(between.low / step - even_within); count * step <= between.high + even_within * step; count += 1.0)
    multiples.push_back(count * step);
  return multiples;
}

std::vector<Ingredient> tidy_portions(const Feedstock& feedstock, const std::vector<Mass>& masses, Mass one) {
  constexpr double steps_of_five = 5.0;
  const std::vector<double> moistures = multiples_of(steps_of_five, published_between(feedstock.moisture, 100.0));
  const std::vector<double> carbons = multiples_of(steps_of_five, published_between(feedstock.carbon, 100.0));
  const Band<double> ratios = published_between(feedstock.carbon_to_nitrogen);
  constexpr double many = 30.0;  // above it nobody tells C:N to the unit
  std::vector<Ingredient> portions;
  for (const Mass& mass : masses) {
    for (const double moisture : moistures) {
      const double dry = value_in(one, mass) * (1.0 - moisture / 100.0);
      for (const double carbon : carbons) {
        for (const double ratio : multiples_of(ratios.high > many ? steps_of_five : 1.0, ratios)) {
          if (moisture > 0.0 && is_tidy(dry, carbon, ratio)) portions.push_back(portion_of(feedstock, mass, moisture, carbon, ratio));
        }
      }
    }
  }
  return portions;
}

}  // namespace heapwright
