#include "heapwright/plan/loaded.hpp"

#include <algorithm>

#include "heapwright/plan/answers.hpp"
#include "heapwright/plan/leaves_alone.hpp"
#include "heapwright/process/settled.hpp"
#include "heapwright/time/days.hpp"

namespace heapwright {
namespace {

using std::chrono::sys_days;

bool is_alike(const Supply& one, const Supply& other) {
  const bool as_measured = one.weighed || one.dried || one.feel || other.weighed || other.dried || other.feel;
  return !as_measured && one.feedstock.id == other.feedstock.id && one.packing_as_counted() == other.packing_as_counted() &&
         one.shredded == other.shredded && one.treated == other.treated;
}

/// Two amounts of one supply together: counted alike still counted, else by their weight.
Amount both_of(const Supply& supply, const Amount& one, const Amount& other) {
  const std::optional<Amount> counted = sum_of(one, other);
  return counted ? *counted : Amount(Mass(*supply.mass(one) + *supply.mass(other)));
}

/// All of it goes in, whenever it came.
Supply gone_in(Supply supply) {
  supply.when = std::monostate();
  supply.use = Use::all;
  supply.most_of_volume.reset();
  supply.bought = false;
  supply.estimated.reset();
  return supply;
}

using LoadsOfADay = std::vector<const Load*>;

Blend blend_of(const LoadsOfADay& loads, ShareOfLooseVolume settling) {
  Blend blend{{}, WaterMass(), settling};
  for (const Load* load : loads) {
    if (load->supply) blend.ingredients.push_back(load->supply->ingredient(*load->supply->mass(*load->supply->amount)));
    blend.added_water += load->water;
  }
  return blend;
}

/// As they went in, with the water that is told or taken for granted.
Blend blend_as_loaded(const LoadsOfADay& loads, bool is_water_told, const Yard& yard) {
  Blend blend = blend_of(loads, yard.options.settling);
  const Mix mix = mix_of(blend);
  const bool is_dry = mix.moisture && *mix.moisture < yard.targets.moisture.low;
  if (!is_water_told && is_dry) blend.added_water = water_to(mix, yard.targets.moisture.aim);
  return blend;
}

std::vector<LoadsOfADay> by_days(const std::vector<Load>& loads) {
  std::vector<LoadsOfADay> of_days;
  for (const Load& load : loads) {
    if (of_days.empty() || of_days.back().front()->date != load.date) of_days.emplace_back();
    of_days.back().push_back(&load);
  }
  return of_days;
}

}  // namespace

bool is_enough_to_follow(const Yard& yard, const Mix& mix) {
  if (!is_positive(mix.dry)) return false;
  const SettledDensity density = settled_density_of(mix, yard.tables.materials, *yard.tables.ensemble);
  constexpr double sure = 2.0;  // whatever a set packs it to: judged
  const Volume settled = mix.dry / density.at(1.0 * unit::m, 1.0);
  return settled >= sure * smallest_pile;
}

bool tells_water(const std::vector<Load>& loads) {
  return std::any_of(loads.begin(), loads.end(), [](const Load& load) { return is_positive(load.water); });
}

bool is_only_planned(const Yard& yard, Date today) {
  const std::optional<Stands> stands = stands_by(yard, today);
  return !stands || stands == Stands::by_date;
}

Yard as_of(Yard yard, Date today) {
  std::erase_if(yard.loads, [&](const Load& load) { return load.date > today; });
  return yard;
}

bool is_filled_before_loads(const Yard& yard) {
  constexpr std::chrono::days of_filling(3);
  const bool is_dated = is_loaded(yard) && yard.pile && yard.pile->built && !yard.pile->standing;
  return is_dated && sys_days(yard.loads.front().date) - sys_days(*yard.pile->built) >= of_filling;
}

std::vector<Load> all_loads_of(const Yard& yard) {
  if (!is_filled_before_loads(yard)) return yard.loads;
  const Date built = *yard.pile->built;
  const Recipe recipe = first_recipe(yard, built).result;
  if (!has_size(recipe)) return yard.loads;
  std::vector<Load> all;
  for (const Portion& portion : recipe.batch.portions) {
    Supply supply = portion.supply;
    supply.number = 0;
    supply.apart.clear();
    supply.amount = portion.counted.value_or(portion.mass);
    all.push_back({built, std::move(supply), WaterMass()});
  }
  if (!all.empty()) all.front().water = recipe.batch.added_water;
  all.insert(all.end(), yard.loads.begin(), yard.loads.end());
  return all;
}

Yard as_loaded(const Yard& yard) {
  const std::vector<Load> loads = all_loads_of(yard);
  Yard loaded = yard;
  loaded.loads = loads;
  loaded.supplies.clear();
  for (const Load& load : loads) {
    if (!load.supply) continue;
    const auto alike =
        std::find_if(loaded.supplies.begin(), loaded.supplies.end(), [&](const Supply& one) { return is_alike(one, *load.supply); });
    if (alike == loaded.supplies.end()) {
      loaded.supplies.push_back(gone_in(*load.supply));
    } else {
      alike->amount = both_of(*alike, *alike->amount, *load.supply->amount);
    }
  }
  tell_apart(loaded.supplies);
  loaded.options.fill.reset();
  loaded.options.given_water = WaterMass();
  const bool is_water_told = tells_water(loads);
  for (const LoadsOfADay& day : by_days(loads)) loaded.options.given_water += blend_as_loaded(day, is_water_told, yard).added_water;
  return loaded;
}

Answer<Recipe> recipe_in_pile(const Yard& yard, Date today) { return first_recipe(is_loaded(yard) ? as_loaded(yard) : yard, today); }

InPile in_pile_by_loads(const Yard& yard, Date today) {
  InPile in{today, {}};
  for (const Load& load : all_loads_of(yard)) {
    if (!load.supply) continue;
    Mass rest = *load.supply->mass(*load.supply->amount);
    for (const Supply& supply : yard.supplies) {
      if (supply.feedstock.id != load.supply->feedstock.id || supply.bought || !supply.amount) continue;
      const std::optional<Amount> there = on_hand(supply, today);
      Mass& taken = in.of_supplies[supply.number];
      const Mass left = there ? std::max(Mass(), Mass(*supply.mass(*there) - taken)) : Mass();
      const Mass part = std::min(rest, left);
      taken += part;
      rest -= part;
    }
  }
  return in;
}

Yard not_loaded_yet(const Yard& yard, Date today) {
  Yard left = yard;
  if (!is_loaded(yard)) return left;
  left.loads.clear();
  if (left.pile) left.pile->built.reset();
  const InPile in = in_pile_by_loads(yard, today);
  for (Supply& supply : left.supplies) {
    const Mass gone = in.of(supply);
    if (comes_fresh(supply) || !is_positive(gone)) continue;
    const Amount there = *on_hand(supply, today);
    supply.amount = times(std::max(0.0, 1.0 - static_cast<double>(gone / *supply.mass(there))), there);
    supply.when = std::monostate();
  }
  return left;
}

std::optional<LoadedPile> loaded_pile(const Yard& yard) {
  const std::vector<Load> loads = all_loads_of(yard);
  const bool is_water_told = tells_water(loads);
  LoadedPile pile;
  LoadsOfADay first;
  bool enough = false;
  for (const LoadsOfADay& day : by_days(loads)) {
    const Date date = day.front()->date;
    if (enough) {
      pile.later.push_back({days_from_to(pile.begun, date), mix_of(blend_as_loaded(day, is_water_told, yard))});
      continue;
    }
    first.insert(first.end(), day.begin(), day.end());
    pile.begun = date;
    pile.first = mix_of(blend_as_loaded(first, is_water_told, yard));
    enough = is_enough_to_follow(yard, pile.first);
  }
  return enough ? std::optional(std::move(pile)) : std::nullopt;
}

Answer<YardSeason> season_with_pile(const Yard& yard, const Answer<Recipe>& recipe, Date today) {
  if (is_loaded(yard)) return season_of_yard(yard, today, in_pile_by_loads(yard, today));
  if (!has_size(recipe.result)) return season_of_yard(yard, today);
  return season_of_yard(yard, today, in_pile_of(recipe.result, yard.built_or(today)));
}

Answer<YardSeason> season_of(const Yard& told, Date today) {
  const Yard yard = as_of(told, today);
  const bool is_no_pile = is_only_planned(yard, today) && (leaves_alone_of(yard, today) || has_greens_alone(yard));
  const bool has_pile = (yard.pile || is_loaded(yard)) && !is_no_pile;
  return has_pile ? season_with_pile(yard, recipe_in_pile(yard, today), today) : season_of_yard(yard, today);
}

}  // namespace heapwright
