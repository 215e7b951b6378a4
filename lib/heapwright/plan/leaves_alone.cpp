#include "heapwright/plan/leaves_alone.hpp"

#include <algorithm>

#include "heapwright/lawn/lawn.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/recipe/amounts.hpp"
#include "heapwright/recipe/verdict.hpp"

namespace heapwright {
namespace {

bool are_own_leaves(const Supply& supply) {
  return supply.feedstock.has_tag("leaves") && supply.feedstock.feedstock_class == FeedstockClass::keeper && !supply.bought &&
         supply.amount && supply.density();
}

/// Leaves lie on the lawn from their first month to the end of December; taken as fall where no months are told. Judged.
bool is_leaf_fall(const Supply& leaves, Date today) {
  const std::optional<Season> season = season_of(leaves);
  const std::chrono::month first = season ? season->months.front() : std::chrono::October;
  return today.month() >= first && today.month() <= std::chrono::December;
}

/// The day from which lawns are mown; while leaves fall that is next spring.
Date first_mowing(const Supply& leaves, Date today) {
  if (is_mowing_season(today) && !is_leaf_fall(leaves, today)) return today;
  const Date april(today.year() / std::chrono::April / 15);  // judged
  return today <= april ? april : Date((today.year() + std::chrono::years(1)) / std::chrono::April / 15);
}

/// A pile of these leaves and as many clippings as they want: a cubic yard of it or what one bin holds, and less where they are few.
Answer<Recipe> first_pile(const Yard& yard, Date day) {
  Yard spring = yard;
  Supply clippings = supply_of(yard.tables.materials, "grass-clippings");
  clippings.use = Use::unlimited;
  clippings.treated = Treated::no;
  for (Supply& leaves : spring.supplies) leaves.when = std::monostate();
  spring.supplies.push_back(std::move(clippings));
  tell_apart(spring.supplies);
  Volume size = unit::cubic_yard;
  if (spring.pile) {
    spring.pile->built = day;
    size = std::min(size, taken_by(*spring.pile));
  }
  if (spring.options.fill) return first_recipe(spring, day);
  spring.options.fill = size;
  Answer<Recipe> whole = first_recipe(spring, day);
  if (whole->status == RecipeStatus::on_target) return whole;
  spring.options.fill.reset();
  spring.options.capacity = size;
  return first_recipe(spring, day);
}

}  // namespace

std::optional<LeavesAlone> leaves_alone_of(const Yard& yard, Date today) {
  if (yard.supplies.empty() || !std::all_of(yard.supplies.begin(), yard.supplies.end(), are_own_leaves)) return std::nullopt;
  Yard there = yard;
  Mass all;
  for (Supply& supply : there.supplies) {
    supply.amount = on_hand(supply, today);
    all += *supply.mass(*supply.amount);
  }
  if (!is_positive(all)) return std::nullopt;
  const Supply& leaves = yard.supplies.front();
  const Date day = first_mowing(leaves, today);
  const Recipe recipe = first_pile(there, day).result;
  if (!has_size(recipe) || recipe.status != RecipeStatus::on_target) return std::nullopt;
  const AsBuilt pile = as_built(recipe);
  Mass goes_in;
  for (std::size_t i = 0; i + 1 < pile.amounts.size(); ++i) goes_in += pile.amounts[i].mass;
  const RecipeSupply counted = recipe_question({leaves}, yard.targets, {}, today, yard.tables.materials).supplies.front();
  const auto so_much = [&](Mass mass) { return amount_of(counted, mass); };
  Mass rest = std::max(Mass(), Mass(all - goes_in));
  LeavesAlone answer{so_much(all), so_much(std::min(all, goes_in)), pile.amounts.back(), pile.water_to_add, day, {}, {}};
  if (yard.lawn && is_leaf_fall(leaves, today)) {
    const DryMass most = most_mulched_leaves * area_of(*yard.lawn);
    const Mass mulch = std::min(rest, as_is_mass_of(most, leaves.properties().moisture));
    if (is_positive(mulch)) answer.mulch = so_much(mulch);
    rest -= mulch;
  }
  constexpr double hardly_more = 0.1;  // of what is kept: so much browner the pile is still right; judged
  if (rest > hardly_more * answer.keep.mass) {
    answer.mold = so_much(rest);
  } else if (is_positive(rest)) {
    answer.keep = so_much(answer.keep.mass + rest);
  }
  return answer;
}

bool has_greens_alone(const Yard& yard) {
  return !yard.supplies.empty() && std::all_of(yard.supplies.begin(), yard.supplies.end(), [](const Supply& supply) {
    const FeedstockClass sort = supply.feedstock.feedstock_class;
    const bool is_scraps = sort == FeedstockClass::must_go && supply.feedstock.has_tag("scraps");
    return (sort == FeedstockClass::clippings || is_scraps) && !supply.bought;
  });
}

}  // namespace heapwright
