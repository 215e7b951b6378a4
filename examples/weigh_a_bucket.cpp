// A bucket of your own leaves on the bathroom scale, and a handful dried in the oven, in place of the table's figures:
// leaves differ ten-fold in weight, so no measurement is worth more.
//
// Prints:
//   The leaves weigh 81 lb/yd3 (the table says 135) and are 24 % water (35 %).
//   12 bags and 12 buckets of clippings: 265 lb, C:N 38, 51 % water, 94 % air.

#include <heapwright/materials/materials.hpp>
#include <heapwright/mix/mix.hpp>
#include <heapwright/mix/supply.hpp>
#include <heapwright/units/text.hpp>
#include <iostream>
#include <string>

using namespace heapwright;

namespace {

double pounds_per_cubic_yard(BulkDensity density) { return value_in(unit::pound / unit::cubic_yard, density); }

/// So much of a supply as goes into the blend.
Ingredient ingredient(Supply& supply, const std::string& amount, const Materials& materials) {
  set_amount(supply, read_amount(amount, *materials.containers));
  return supply.ingredient(*supply.mass(*supply.amount));
}

}  // namespace

int main() {
  const Materials materials = built_in_materials();
  const Container& bucket = *find_container(*materials.containers, "bucket");

  Supply leaves = supply_of(materials, "leaves");
  const BulkDensity table_density = *leaves.density();
  const MoistureWetBasis table_moisture = leaves.properties().moisture;
  leaves.weighed = Weighed{{bucket.id, 1.0, bucket.volume}, read_mass("4 lb"), read_mass("2 lb")};
  leaves.dried = Dried{read_mass("50 g"), read_mass("38 g")};
  std::cout << "The leaves weigh " << print_number(pounds_per_cubic_yard(*leaves.density()), 2) << " lb/yd3 (the table says "
            << print_number(pounds_per_cubic_yard(table_density), 3) << ") and are "
            << print_percent(leaves.properties().moisture.value(), 2) << " water (" << print_percent(table_moisture.value(), 2) << ").\n";

  Supply clippings = supply_of(materials, "grass-clippings:loose");
  const Mix mix =
      mix_of({{ingredient(leaves, "12 leaf bags", materials), ingredient(clippings, "12 buckets", materials)}, read_water("2 gal")});
  std::cout << "12 bags and 12 buckets of clippings: " << print_in(mix.mass, "lb", 3) << ", C:N "
            << print_number(mix.carbon_to_nitrogen->value(), 2) << ", " << print_percent(mix.moisture->value(), 2) << " water, "
            << print_percent(mix.air_space->value(), 2) << " air.\n";
}
