#include "heapwright/recipe/help.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/materials/rows.hpp"
#include "heapwright/recipe/programme.hpp"

namespace heapwright {
namespace {

constexpr double just_inside = 1.0 - 1e-4;  // so that an amount given in five figures is still inside
constexpr double negligible = 1e-6;
constexpr Mass negligible_mass = 1e-6 * unit::kg;

/// Browner than that it is mostly wood, whose carbon does not rot in a season: nitrogen for all of it would be lost as ammonia. (judged;
/// leaves, which the published doses are for, are 40 to 80)
const CarbonNitrogenRatio mostly_wood = carbon_to_nitrogen(100.0);

/// Something to add, beside the supplies of a question.
struct Candidate {
  RecipeSupply supply;
  bool is_on_hand;
};

/// As much more of something as is wanted, the least of it.
RecipeSupply more_of(RecipeSupply supply) {
  supply.use = Use::up_to;
  supply.bought = true;
  supply.available.reset();
  return supply;
}

std::vector<Candidate> all_candidates(const RecipeQuestion& question, const std::vector<RecipeSupply>& others) {
  std::vector<Candidate> candidates;
  const auto known = [&](const std::string& id) {
    return std::any_of(candidates.begin(), candidates.end(), [&](const Candidate& one) { return one.supply.ingredient.id == id; });
  };
  for (const RecipeSupply& supply : question.supplies) {
    if (!known(supply.ingredient.id)) candidates.push_back({more_of(supply), true});
  }
  for (const RecipeSupply& supply : others) {
    if (!known(supply.ingredient.id)) candidates.push_back({more_of(supply), false});
  }
  std::erase_if(candidates, [](const Candidate& candidate) { return candidate.supply.hardly_rots || candidate.supply.out_of_season; });
  // Who allows only so much of something does not want more of it.
  std::erase_if(candidates, [&](const Candidate& candidate) {
    return std::any_of(question.supplies.begin(), question.supplies.end(), [&](const RecipeSupply& supply) {
      return supply.most_of_volume && supply.ingredient.id == candidate.supply.ingredient.id;
    });
  });
  std::stable_partition(candidates.begin(), candidates.end(), [](const Candidate& one) { return !is_sparing(one.supply.feedstock_class); });
  return candidates;
}

/// What the pile should be that help is sought for.
struct Wanted {
  RecipeQuestion question;
  HardLimits limits;
};

/// A pile of the size wished for, of what there is and what is added.
Wanted pile_of_the_size(const RecipeQuestion& question) { return {question, {.least_water = question.options.given_water}}; }

/// A pile of everything on hand and what is added; what may be bought counts as added.
Wanted pile_of_everything(RecipeQuestion question) {
  const std::vector<std::size_t> raised = raised_supplies(question);
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    RecipeSupply& supply = question.supplies[i];
    if (std::find(raised.begin(), raised.end(), i) != raised.end()) supply.use = Use::all;
    if (supply.use == Use::all && !supply.bought) continue;
    supply.use = Use::up_to;
    supply.available = Mass();
  }
  const WaterMass given = question.options.given_water;
  return {std::move(question), {.fill = false, .capacity = false, .least_water = given}};
}

/// The least of some candidates that brings the pile inside; nothing where that cannot be.
std::optional<Amounts> least_of(const Wanted& wanted, const std::vector<Candidate>& candidates) {
  RecipeQuestion with_them = wanted.question;
  for (const Candidate& candidate : candidates) with_them.supplies.push_back(candidate.supply);
  Programme programme(with_them, wanted.limits);
  programme.limit_all(just_inside);
  if (!programme.possible()) return std::nullopt;
  programme.keep_least_volume_bought();
  programme.keep_least_water();
  programme.keep_least_mass();
  return programme.amounts();
}

/// Whether the pile comes out right without any.
bool needs_nothing(const Wanted& wanted) { return least_of(wanted, {}).has_value(); }

/// The pile with some of the candidates, and the water that brings it towards the moisture aim.
Blend pile_with(const RecipeQuestion& question, const Amounts& amounts) {
  Blend blend = blend_of(question, amounts);
  blend.added_water = WaterMass();
  WaterMass water = std::max(water_to(mix_of(blend), question.targets.moisture.aim), question.options.given_water);
  if (question.options.most_water) water = std::min(water, *question.options.most_water);
  blend.added_water = water;
  const bool inside = distance_from_aim(mix_of(blend), question.targets) <= on_the_edge;
  if (!inside) blend.added_water = amounts.water;  // so much water that the air runs short
  return blend;
}

/// Up to what a person can measure; nobody says in what it is bought.
Mass rounded_up(RecipeSupply supply, Mass mass) {
  supply.bought = false;
  const Mass measure = measure_of(supply, mass);
  return std::ceil(mass / measure - 1e-9) * measure;
}

Help help_of(const Wanted& wanted, const std::vector<Candidate>& candidates, const Amounts& amounts) {
  RecipeQuestion with_them = wanted.question;
  for (const Candidate& candidate : candidates) with_them.supplies.push_back(candidate.supply);
  const std::size_t first = wanted.question.supplies.size();
  Amounts rounded = amounts;
  for (std::size_t i = first; i < amounts.supplies.size(); ++i) {
    const Mass least = amounts.supplies[i];
    if (least > negligible_mass) rounded.supplies[i] = rounded_up(with_them.supplies[i], least);
  }
  // In a pile of a wished size what is added takes the place of something, so rounding it up is no longer that pile.
  const bool may_round = !wanted.question.options.fill || !wanted.limits.fill;
  const bool still_inside = may_round && distance_from_aim(mix_of(pile_with(with_them, rounded)), with_them.targets) <= on_the_edge;

  Help help;
  const Blend blend = pile_with(with_them, still_inside ? rounded : amounts);
  help.mix = mix_of(blend);
  help.water_to_add = blend.added_water;
  for (std::size_t i = first; i < amounts.supplies.size(); ++i) {
    if (!(amounts.supplies[i] > negligible * help.mix.mass)) continue;
    const RecipeSupply& supply = with_them.supplies[i];
    const Mass amount = still_inside ? rounded.supplies[i] : amounts.supplies[i];
    help.additions.push_back({amount_of(supply, amounts.supplies[i]), amount_of(supply, amount), candidates[i - first].is_on_hand,
                              supply.feedstock_class == FeedstockClass::supplement});
  }
  return help;
}

/// Only the limit of the water stands against it.
std::optional<Help> more_water(const Wanted& wanted) {
  if (!wanted.question.options.most_water) return std::nullopt;
  Wanted unlimited = wanted;
  unlimited.question.options.most_water.reset();
  const std::optional<Amounts> amounts = least_of(unlimited, {});
  if (!amounts) return std::nullopt;
  return help_of(unlimited, {}, *amounts);
}

/// Clippings among what is to be used up, dried until all of it together is no wetter than the window.
std::optional<Help> wilting(const Wanted& wanted) {
  const Targets& targets = wanted.question.targets;
  Amounts all;
  for (const RecipeSupply& supply : wanted.question.supplies) all.supplies.push_back(supply.available.value_or(Mass()));
  Blend blend = blend_of(wanted.question, all);
  const Mix wet = mix_of(blend);
  if (!wet.moisture || !(*wet.moisture > targets.moisture.high)) return std::nullopt;
  std::size_t most = 0;
  Mass clippings;
  for (std::size_t i = 0; i < blend.ingredients.size(); ++i) {
    const RecipeSupply& supply = wanted.question.supplies[i];
    const bool dries = supply.feedstock_class == FeedstockClass::clippings && !supply.out_of_season;
    if (!dries || blend.ingredients[i].mass <= clippings) continue;
    most = i;
    clippings = blend.ingredients[i].mass;
  }
  if (!is_positive(clippings)) return std::nullopt;
  const MoistureWetBasis high = targets.moisture.aim + (1.0 - 2e-4) * (targets.moisture.high - targets.moisture.aim);
  const WaterMass lost = wet.water - WaterMass(wet.dry * to_dry_basis(high));
  Ingredient& drier = blend.ingredients[most];
  const DryMass dry = dry_mass(drier.mass, drier.properties.moisture);
  const WaterMass left = WaterMass(drier.mass * drier.properties.moisture) - lost;
  const MoistureWetBasis to = is_positive(left) ? moisture_wet_basis(dry, left) : MoistureWetBasis();
  const MoistureWetBasis hardly = wet_basis(0.02);  // nobody can tell
  if (!(to >= driest_clippings) || !(drier.properties.moisture - to > hardly)) return std::nullopt;
  drier.mass = as_is_mass(dry, left);
  drier.properties.moisture = to;
  Wanted wilted = wanted;
  wilted.question.supplies[most].ingredient.properties.moisture = to;
  wilted.question.supplies[most].available = drier.mass;
  if (!needs_nothing(wilted)) return std::nullopt;
  Help help;
  help.mix = mix_of(blend);
  help.wilting = Wilting{drier.id, drier.name, to, lost};
  return help;
}

std::optional<Help> help_by(const Wanted& wanted, const std::vector<Candidate>& candidates) {
  const std::optional<Amounts> amounts = least_of(wanted, candidates);
  return amounts ? std::optional(help_of(wanted, candidates, *amounts)) : std::nullopt;
}

/// Where none does alone: several of what is on hand, else the first pair in the order of the candidates, the commonest first, else all but
/// supplements.
std::optional<Help> several(const Wanted& wanted, const std::vector<Candidate>& candidates) {
  std::vector<Candidate> on_hand;
  std::vector<Candidate> all;
  for (const Candidate& candidate : candidates) {
    if (is_sparing(candidate.supply.feedstock_class)) continue;
    all.push_back(candidate);
    if (candidate.is_on_hand) on_hand.push_back(candidate);
  }
  if (auto help = help_by(wanted, on_hand)) return help;
  for (std::size_t i = 0; i < all.size(); ++i) {
    for (std::size_t j = i + 1; j < all.size(); ++j) {
      if (auto help = help_by(wanted, {all[i], all[j]})) return help;
    }
  }
  return help_by(wanted, all);
}

/// Whether nitrogen is what is short, of carbon that rots: a supplement is no means against wet.
bool wants_a_supplement(const Wanted& wanted, const Recipe& recipe) {
  const auto& window = wanted.question.targets.carbon_to_nitrogen;
  const bool everything = !wanted.limits.fill && recipe.everything_in;
  const Mix& mix = everything ? recipe.everything_in->mix : *recipe.mix;
  return mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen > (everything ? window.high : window.aim) &&
         *mix.carbon_to_nitrogen <= mostly_wood;
}

}  // namespace

std::vector<RecipeSupply> easy_to_get(const Materials& materials) {
  std::vector<Supply> supplies;
  for (const Feedstock& row : *materials.feedstocks) {
    if (!row.easy_to_get) continue;
    Supply supply = supply_of(materials, row.id);
    supply.use = Use::unlimited;
    supply.bought = true;
    if (row.feedstock_class != FeedstockClass::supplement)
      supply.priced_amount = so_many(1.0, known_row(*materials.containers, row.usual_container));
    supplies.push_back(std::move(supply));
  }
  return recipe_question(supplies, {}, {}, {}, materials).supplies;
}

std::vector<Help> what_would_help(const RecipeQuestion& question, const Recipe& recipe, const std::vector<RecipeSupply>& others) {
  const bool misses_the_size = question.options.fill && recipe.status != RecipeStatus::on_target;
  if (question.options.fill && !misses_the_size) return {};
  const Wanted wanted = misses_the_size ? pile_of_the_size(question) : pile_of_everything(question);
  if (needs_nothing(wanted)) return {};
  std::vector<Help> helps;
  if (auto help = more_water(wanted)) helps.push_back(std::move(*help));
  if (!misses_the_size) {
    if (auto help = wilting(wanted)) helps.push_back(std::move(*help));
  }
  const bool with_supplements = wants_a_supplement(wanted, recipe);
  const std::vector<Candidate> candidates = all_candidates(question, others);
  for (const Candidate& candidate : candidates) {
    const bool supplement = candidate.supply.feedstock_class == FeedstockClass::supplement;
    if (supplement && !with_supplements) continue;
    if (auto help = help_by(wanted, {candidate})) helps.push_back(std::move(*help));
  }
  // Neither drying in the sun nor a fertilizer alone is much of a way.
  const auto adds_a_feedstock = [](const Help& help) { return !help.additions.empty() && !help.additions.front().is_supplement; };
  if (std::none_of(helps.begin(), helps.end(), adds_a_feedstock)) {
    if (auto help = several(wanted, candidates)) helps.insert(helps.begin(), std::move(*help));
  }
  return helps;
}

}  // namespace heapwright
