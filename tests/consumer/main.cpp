// Mixes leaves and clippings by the public headers alone.
#include <heapwright/materials/materials.hpp>
#include <heapwright/mix/mix.hpp>
#include <heapwright/mix/supply.hpp>
#include <heapwright/recipe/recipe.hpp>
#include <heapwright/yard/yard.hpp>
#include <iostream>

using namespace heapwright;

int main() {
  const Materials materials = built_in_materials();
  const Supply leaves = supply_of(materials, "leaves");
  const Supply clippings = supply_of(materials, "grass-clippings:loose");
  const Mix mix = mix_of({{leaves.ingredient(20.0 * unit::kg), clippings.ingredient(15.0 * unit::kg)}, {}});
  std::cout << "C:N " << mix.carbon_to_nitrogen->value() << ":1\n";
  if (*mix.carbon_to_nitrogen < carbon_to_nitrogen(25.0) || *mix.carbon_to_nitrogen > carbon_to_nitrogen(50.0)) return 1;

  // The TOML reader and the solver come from other libraries: both must have been found and linked.
  const Yard yard =
      read_yard_text("[[supply]]\nfeedstock = \"leaves\"\namount = \"20 kg\"\n[[supply]]\nfeedstock = \"grass\"\namount = \"60 kg\"\n",
                     "yard.toml", built_in_tables());
  return solve(recipe_question(yard.supplies, yard.targets, yard.options, Date(), yard.tables.materials)).mix ? 0 : 1;
}
