#include "heapwright/recipe/main_pair.hpp"

#include <utility>

#include "heapwright/recipe/proportion.hpp"

namespace heapwright {
namespace {

/// By carbon over nitrogen, multiplied out, since there may be no nitrogen.
bool is_greener(const Properties& one, const Properties& other) { return one.carbon * other.nitrogen < other.carbon * one.nitrogen; }

}  // namespace

std::optional<Pair> main_pair(const RecipeQuestion& question) {
  std::vector<const Ingredient*> main;
  for (const std::size_t i : main_supplies(question)) main.push_back(&question.supplies[i].ingredient);
  if (main.size() != 2) return std::nullopt;
  if (is_greener(main[0]->properties, main[1]->properties)) std::swap(main[0], main[1]);
  return pair_of(*main[0], *main[1], question.targets);
}

}  // namespace heapwright
