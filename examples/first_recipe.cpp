// What is on hand becomes a question, and the question a recipe: how much of what, how much water.
//
// Prints:
//   The recipe is on-target
//   7.6 x leaf-bag of autumn leaves
//   8 x bucket of grass clippings
//   3 x bucket of kitchen scraps
//   1.2 gal of water to add
//   makes 1.4 yd3 at C:N 33
//   held back by carbon_to_nitrogen

#include <heapwright/materials/materials.hpp>
#include <heapwright/mix/supply.hpp>
#include <heapwright/recipe/recipe.hpp>
#include <heapwright/units/text.hpp>
#include <iostream>
#include <string>
#include <vector>

using namespace heapwright;

namespace {

Supply on_hand(const std::string& name, const std::string& amount, const Materials& materials) {
  Supply supply = supply_of(materials, name);
  set_amount(supply, read_amount(amount, *materials.containers));
  return supply;
}

}  // namespace

int main() {
  const Materials materials = built_in_materials();
  const std::vector<Supply> supplies{on_hand("leaves", "24 leaf bags", materials), on_hand("grass clippings", "8 buckets", materials),
                                     on_hand("kitchen scraps", "3 buckets", materials)};
  RecipeOptions options;
  options.capacity = read_volume("1 1/2 yd3");

  // No supply here comes in by seasons, so any day is as good as another.
  const RecipeQuestion question = recipe_question(supplies, Targets(), options, Date(), materials);
  const Recipe recipe = solve(question);
  std::cout << "The recipe is " << status_word(recipe.status) << "\n";
  if (!recipe.mix) return 1;
  for (const RecipeAmount& amount : recipe.amounts) {
    std::cout << print_number(amount.containers->count, 2) << " x " << amount.containers->container << " of " << amount.name << "\n";
  }
  std::cout << print_in(recipe.water_to_add / water_density(), "gal", 2) << " of water to add\n";
  std::cout << "makes " << print_in(*recipe.mix->volume, "yd3", 2) << " at C:N " << print_number(recipe.mix->carbon_to_nitrogen->value(), 2)
            << "\n";
  for (const HeldBack& held : recipe.held_back_by) std::cout << "held back by " << limit_word(held.limit) << "\n";
}
