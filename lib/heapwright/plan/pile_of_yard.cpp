#include <algorithm>

#include "heapwright/plan/answers.hpp"
#include "heapwright/recipe/verdict.hpp"

namespace heapwright {
namespace {

/// Without a size of its own a recipe is of parts, and its volume an example.
std::optional<Volume> volume_to_put_in(const Recipe& recipe) {
  const std::optional<Volume> volume = has_size(recipe) ? as_built(recipe).mix.volume : std::nullopt;
  return volume && is_positive(*volume) ? volume : std::nullopt;
}

/// What the recipe leaves of what is on hand, loose.
std::optional<Volume> left_over_by(const Recipe& recipe) {
  Volume left;
  for (const RecipeAmount& amount : as_built(recipe).amounts) {
    if (is_left(amount)) left += *amount.left_over;
  }
  return is_positive(left) ? std::optional(left) : std::nullopt;
}

std::vector<std::string> left_over_of(const Recipe& recipe) {
  std::vector<std::string> names;
  for (const RecipeAmount& amount : as_built(recipe).amounts) {
    if (is_left(amount)) names.push_back(amount.name);
  }
  return names;
}

std::vector<std::string> staying_out_of(const Recipe& recipe) {
  std::vector<std::string> names;
  for (const LeftOut& left : recipe.left_out) names.push_back(left.name);
  for (const NotToday& one : recipe.not_today) {
    if (!(one.share_on_hand > 0.0)) names.push_back(one.name);
  }
  for (const RecipeAmount& amount : not_needed(recipe)) names.push_back(amount.name);
  return names;
}

/// Of a pile that is described, while nothing is there to put in.
Facts facts_of_empty_pile(const Yard& yard, Date built) {
  Facts facts = facts_of(yard.observations);
  const bool treated =
      std::any_of(yard.supplies.begin(), yard.supplies.end(), [](const Supply& supply) { return supply.may_carry_weedkiller(); });
  if (treated) facts.insert(Fact::treated);
  if (!yard.pile) return facts;
  facts.insert(Fact::pile);
  facts.merge(facts_of(*yard.pile, built));
  return facts;
}

/// Where the weather is known the forecast says whether a small pile gets hot, and no rule of thumb.
void leave_heat_to_forecast(Answer<PileFit>& answer) {
  const auto by_rule = [](PileNote note) { return note == PileNote::too_small_to_heat || note == PileNote::too_little_to_heat; };
  if (std::erase_if(answer->notes, by_rule) > 0) answer->notes.push_back(PileNote::forecast_tells);
  std::erase_if(answer.assumptions, [](const Assumption& assumption) { return assumption.what == rule_of_heating; });
}

}  // namespace

Answer<PileFit> pile_of(const Yard& yard, const Answer<Recipe>& recipe, Date today) {
  const std::optional<Volume> mix = volume_to_put_in(recipe.result);
  Answer<PileFit> answer = fit_of(yard.pile, mix, yard.options.settling);
  answer->stays_out = staying_out_of(recipe.result);
  if (yard.climate && mix && answer->pile) leave_heat_to_forecast(answer);
  if (mix) {
    answer->left_over = left_over_by(recipe.result);
    answer->left_over_of = left_over_of(recipe.result);
    answer.assumptions.insert(answer.assumptions.begin(), recipe.assumptions.begin(), recipe.assumptions.end());
    answer.measure_first = recipe.measure_first;
    answer.cautions = recipe.cautions;
  } else {
    answer.cautions = cautions_for(*yard.tables.materials.cautions, facts_of_empty_pile(yard, yard.built_or(today)));
  }
  return answer;
}

}  // namespace heapwright
