#include "heapwright/plan/feeding.hpp"

#include <algorithm>
#include <map>
#include <string>

namespace heapwright {
namespace {

constexpr int most_weeks = 52;

/// Browns by the name of their row: a card tells them so.
using Store = std::map<std::string, Mass>;

Store left_after(const RecipeQuestion& question, const Recipe& recipe) {
  Store store;
  const std::vector<RecipeAmount>& amounts = as_built(recipe).amounts;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    if (supply.keeps || !supply.available) continue;
    store[amounts[i].id] += std::max(Mass(), Mass(*supply.available - amounts[i].mass));
  }
  return store;
}

/// Whether a card's browns are there. What has no limit always is.
bool has(const Store& store, const Card& card) {
  return std::all_of(card.browns.begin(), card.browns.end(), [&](const RecipeAmount& browns) {
    const auto kept = store.find(browns.id);
    return kept == store.end() || kept->second >= browns.mass;
  });
}

void take(Store& store, const Card& card) {
  for (const RecipeAmount& browns : card.browns) {
    const auto kept = store.find(browns.id);
    if (kept != store.end()) kept->second -= browns.mass;
  }
}

void add(Blend& blend, const RecipeQuestion& question, const Card& card, double times) {
  const auto add_some = [&](const RecipeSupply& supply, const RecipeAmount& amount) {
    blend.ingredients.push_back(supply.ingredient);
    blend.ingredients.back().mass = times * amount.mass;
    blend.ingredients.back().density = amount.mass / amount.volume;  // as it lies in what it is put in by
  };
  add_some(question.supplies[card.supply], card.greens);
  for (const RecipeAmount& browns : card.browns) {
    add_some(
        *std::find_if(question.supplies.begin(), question.supplies.end(),
                      [&](const RecipeSupply& one) { return one.ingredient.id == browns.id && one.ingredient.supply == browns.supply; }),
        browns);
  }
  blend.added_water += times * card.water_to_add;
}

}  // namespace

std::optional<FeedingSchedule> feeding_schedule(const std::vector<Supply>& supplies, const RecipeQuestion& question, const Recipe& recipe,
                                                Date built) {
  Store store = left_after(question, recipe);
  std::vector<int> times(recipe.cards.size());
  FeedingSchedule schedule{0, built, built, false, {}};
  for (int week = 1; week <= most_weeks && !schedule.browns_run_out; ++week) {
    const Date day(std::chrono::sys_days(built) + std::chrono::days(7 * week));
    bool fed = false;
    for (std::size_t i = 0; i < recipe.cards.size(); ++i) {
      const Card& card = recipe.cards[i];
      if (!comes_on(supplies[card.supply], day)) continue;
      if (!has(store, card)) {
        schedule.browns_run_out = true;
        continue;
      }
      take(store, card);
      ++times[i];
      fed = true;
    }
    if (!fed) continue;
    if (schedule.weeks == 0) schedule.from = day;
    ++schedule.weeks;
    schedule.until = day;
  }
  if (schedule.weeks == 0) return std::nullopt;
  Blend blend;
  blend.settling = question.options.settling;
  for (std::size_t i = 0; i < recipe.cards.size(); ++i) {
    if (times[i] > 0) add(blend, question, recipe.cards[i], static_cast<double>(times[i]) / schedule.weeks);
  }
  schedule.of_a_week = mix_of(blend);
  return schedule;
}

}  // namespace heapwright
