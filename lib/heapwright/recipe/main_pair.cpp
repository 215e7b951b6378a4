#include "heapwright/recipe/main_pair.hpp"

#include <utility>

namespace heapwright {
namespace {

bool is_main(const RecipeSupply& supply) {
  const bool sparing = supply.feedstock_class == FeedstockClass::supplement || supply.feedstock_class == FeedstockClass::mineral;
  const bool none = supply.available && !(supply.available->value() > 0.0);
  return !sparing && !none;
}

/// By carbon over nitrogen, multiplied out, since there may be no nitrogen.
bool is_greener(const Properties& one, const Properties& other) {
  return one.carbon.value() * other.nitrogen.value() < other.carbon.value() * one.nitrogen.value();
}

}  // namespace

std::optional<Pair> main_pair(const RecipeQuestion& question) {
  std::vector<const Ingredient*> main;
  for (const RecipeSupply& supply : question.supplies) {
    if (is_main(supply)) main.push_back(&supply.ingredient);
  }
  if (main.size() != 2) return std::nullopt;
  if (is_greener(main[0]->properties, main[1]->properties)) std::swap(main[0], main[1]);
  return pair_of(*main[0], *main[1], question.targets);
}

}  // namespace heapwright
