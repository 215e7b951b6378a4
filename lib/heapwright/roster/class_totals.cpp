#include "heapwright/roster/class_totals.hpp"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "heapwright/materials/rows.hpp"
#include "heapwright/recipe/verdict.hpp"

namespace heapwright {
namespace {

Volume loose_volume_of(const Supply& supply, const Amount& amount) {
  if (const std::optional<Volume> volume = volume_of(amount)) return *volume;
  const std::optional<BulkDensity> density = supply.counted_density();
  const std::optional<Mass> mass = supply.mass(amount);
  return density && mass ? Volume(*mass / *density) : Volume();
}

Brought brought_of(const Supply& supply, Date today) {
  const std::optional<Amount> load = load_of(supply);
  const Amount amount = load ? *load : *supply.amount;
  const std::optional<Amount> there = on_hand(supply, today);
  const ContainerCount* counted = std::get_if<ContainerCount>(&amount);
  Brought brought;
  brought.feedstock = supply.feedstock.id;
  brought.name = supply.feedstock.name;
  brought.each_week = load.has_value();
  brought.kept_out = supply.may_carry_weedkiller();
  brought.mass = supply.mass(amount).value_or(Mass());
  brought.volume = loose_volume_of(supply, amount);
  if (there) brought.on_hand = supply.mass(*there).value_or(Mass());
  if (counted != nullptr) brought.container = counted->container;
  return brought;
}

void add_to_totals(std::vector<ClassTotal>& things, const Brought& brought) {
  const auto is_it = [&](const ClassTotal& thing) {
    return thing.feedstock == brought.feedstock && thing.each_week == brought.each_week && thing.kept_out == brought.kept_out;
  };
  auto found = std::find_if(things.begin(), things.end(), is_it);
  if (found == things.end())
    found =
        things.insert(things.end(), ClassTotal{brought.feedstock, brought.name, brought.each_week, brought.kept_out, 0, Mass(), Volume()});
  ++found->households;
  found->mass += brought.mass;
  found->volume += brought.volume;
}

/// What of one thing the class can bring on the day.
struct OnTheDay {
  Supply supply;
  ClassTotal total;
  std::map<std::string, int> counted_in;  ///< by the container's id, how many households count in it
};

/// The container that most count it in; else a bucket.
std::string usual_container(const std::map<std::string, int>& counted_in) {
  std::string most = "bucket";
  int times = 0;
  for (const auto& [container, count] : counted_in) {
    if (count > times) std::tie(most, times) = std::pair(container, count);
  }
  return most;
}

void set_on_hand(OnTheDay& thing, const Materials& materials) {
  Supply& supply = thing.supply;
  const Container* container = row_with_id(*materials.containers, usual_container(thing.counted_in));
  const std::optional<Mass> each = container != nullptr ? supply.mass(so_many(1.0, *container)) : std::nullopt;
  if (each && is_positive(*each)) {
    supply.amount = so_many(thing.total.mass / *each, *container);
  } else {
    supply.amount = thing.total.mass;
  }
  thing.total.volume = loose_volume_of(supply, *supply.amount);
}

std::vector<OnTheDay> on_the_day(const std::vector<HouseholdShare>& shares, const Materials& materials) {
  std::vector<OnTheDay> things;
  for (const HouseholdShare& share : shares) {
    for (const Brought& brought : share.brought) {
      if (brought.kept_out || !is_positive(brought.on_hand)) continue;
      auto found =
          std::find_if(things.begin(), things.end(), [&](const OnTheDay& thing) { return thing.total.feedstock == brought.feedstock; });
      if (found == things.end())
        found = things.insert(
            things.end(),
            OnTheDay{supply_of(materials, brought.feedstock), {brought.feedstock, brought.name, false, false, 0, Mass(), Volume()}, {}});
      ++found->total.households;
      found->total.mass += brought.on_hand;
      if (!brought.container.empty()) ++found->counted_in[brought.container];
    }
  }
  for (OnTheDay& thing : things) set_on_hand(thing, materials);
  std::stable_sort(things.begin(), things.end(),
                   [](const OnTheDay& one, const OnTheDay& other) { return one.total.volume > other.total.volume; });
  return things;
}

/// The brown and the green that there is most of; one where there is no other.
std::vector<OnTheDay> main_two(const std::vector<OnTheDay>& things, const Targets& targets) {
  std::vector<OnTheDay> two;
  for (const bool brown : {true, false}) {
    const auto is_so = [&](const OnTheDay& thing) {
      const FeedstockClass sort = thing.supply.feedstock.feedstock_class;
      const std::optional<CarbonNitrogenRatio> ratio = thing.supply.feedstock.used_carbon_to_nitrogen();
      return sort != FeedstockClass::supplement && sort != FeedstockClass::mineral && ratio &&
             (*ratio > targets.carbon_to_nitrogen.aim) == brown;
    };
    const auto most = std::find_if(things.begin(), things.end(), is_so);
    if (most != things.end()) two.push_back(*most);
  }
  return two;
}

/// A pile that is worth building before a class.
bool is_to_build(const Recipe& recipe) {
  const RecipeVerdict verdict = verdict_of(recipe);
  return has_size(recipe) && verdict != RecipeVerdict::no_pile && verdict != RecipeVerdict::far_off;
}

DemonstrationPile pile_of_things(const std::vector<OnTheDay>& things, const Yard& base, Date today) {
  Yard yard;
  yard.tables = base.tables;
  yard.units = base.units;
  yard.targets = base.targets;
  yard.options = base.options;
  yard.options.fill = 1.0 * unit::cubic_yard;
  yard.options.capacity.reset();
  DemonstrationPile pile;
  for (const OnTheDay& thing : things) {
    if (yard.supplies.size() == most_supplies) break;
    yard.supplies.push_back(thing.supply);
    pile.brought.push_back(thing.total);
  }
  tell_apart(yard.supplies);
  pile.recipe = first_recipe(yard, today);
  pile.is_to_build = is_to_build(pile.recipe.result);
  return pile;
}

std::optional<DemonstrationPile> demonstration_pile(const std::vector<HouseholdShare>& shares, const Yard& base, Date today) {
  const std::vector<OnTheDay> things = on_the_day(shares, base.tables.materials);
  if (things.empty()) return std::nullopt;
  const std::vector<OnTheDay> two = main_two(things, base.targets);
  if (!two.empty() && two.size() < things.size()) {
    DemonstrationPile of_two = pile_of_things(two, base, today);
    if (of_two.recipe->status == RecipeStatus::on_target) return of_two;
  }
  return pile_of_things(things, base, today);
}

}  // namespace

HouseholdShare share_of(const Yard& yard, Date today) {
  HouseholdShare share;
  for (const Supply& supply : yard.supplies) {
    if (supply.amount && !supply.bought) share.brought.push_back(brought_of(supply, today));
  }
  if (yard.lawn) share.lawn = area_of(*yard.lawn);
  return share;
}

ClassTotals totals_of(const std::vector<HouseholdShare>& shares, const Yard& base, Date today) {
  ClassTotals totals;
  totals.households = static_cast<int>(shares.size());
  for (const HouseholdShare& share : shares) {
    for (const Brought& brought : share.brought) add_to_totals(totals.things, brought);
    if (!share.lawn) continue;
    ++totals.lawns;
    totals.lawn += *share.lawn;
  }
  std::stable_sort(totals.things.begin(), totals.things.end(),
                   [](const ClassTotal& one, const ClassTotal& other) { return one.volume > other.volume; });
  totals.pile = demonstration_pile(shares, base, today);
  return totals;
}

}  // namespace heapwright
