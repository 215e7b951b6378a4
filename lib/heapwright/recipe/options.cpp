#include "heapwright/recipe/options.hpp"

#include <string>
#include <utility>
#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, Goal>> goal_words{
    {"use-most", Goal::use_most}, {"cheapest", Goal::cheapest}, {"least-bought", Goal::least_bought}, {"least-water", Goal::least_water}};

}  // namespace

std::string_view goal_word(Goal goal) {
  for (const auto& [word, meaning] : goal_words) {
    if (meaning == goal) return word;
  }
  return "";
}

Volume read_pile_volume(std::string_view text) {
  const Volume volume = read_volume(text);
  const Volume least = 0.001 * unit::m3;
  if (!(volume >= least)) throw TextError("\"" + std::string(text) + "\" is no pile", "write a volume of 1 L or more: \"1 yd3\"");
  return volume;
}

RecipeOptions read_recipe_options(Table& root) {
  RecipeOptions options;
  std::optional<Table> table = root.table("recipe");
  if (!table) return options;
  options.goal = table->one_of("goal", goal_words).value_or(options.goal);
  options.fill = table->read("fill", read_pile_volume);
  options.capacity = table->read("capacity", read_pile_volume);
  if (options.fill && options.capacity)
    table->problem_at("capacity", "a pile has either a fill or a capacity",
                      "fill is the volume you want, capacity the most there is room for");
  options.most_water = table->read("most_water", read_water);
  if (const auto settling = table->find("settling")) {
    const auto value = settling->number();
    if (value && *value > 0.0 && *value <= 1.0) {
      options.settling = ShareOfLooseVolume::of(*value);
    } else if (value) {
      settling->problem("settling is the settled over the loose volume", "write a number above 0, at most 1");
    }
  }
  table->finish();
  return options;
}

}  // namespace heapwright
