#include "heapwright/recipe/whole.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>

namespace heapwright {
namespace {

constexpr double nearly_on_the_edge = 1.0 + 1e-6;  // the slack between stages
constexpr double about_as_far = 1.05;
constexpr double about_the_fill = 0.10;
constexpr double as_near = 1e-9;
constexpr double smallest_share = 1e-4;
constexpr int reach = 16;  // measures to either side of the recipe's amount

/// An amount of one supply that a person can measure.
struct Choice {
  Mass mass;
  double measures;
  Mass away;  ///< from the recipe's amount
};
using Choices = std::vector<Choice>;  // the nearest first

Choices choices_of(const RecipeSupply& supply, Mass recipe_mass, Mass pile_mass) {
  if (supply.use == Use::all && supply.available) return {{*supply.available, 1.0, Mass()}};
  if (!(recipe_mass > smallest_share * pile_mass)) return {{Mass(), 0.0, Mass()}};
  const Mass measure = measure_of(supply, recipe_mass);
  const Mass most = supply.available.value_or(std::numeric_limits<double>::infinity() * unit::kg);
  Choices choices;
  const double middle = std::round(recipe_mass / measure);
  for (int step = -reach; step <= reach; ++step) {
    const double measures = middle + step;
    const Mass mass = measures * measure;
    // Beyond ten containers nobody counts halves.
    const double coarser = is_positive(mass) ? static_cast<double>(mass / measure_of(supply, mass)) : 0.0;
    const bool countable = std::abs(coarser - std::round(coarser)) <= as_near * coarser || !supply.counted_in;
    if (measures >= 0.0 && countable && mass <= most * (1.0 + as_near)) choices.push_back({mass, measures, apart(mass, recipe_mass)});
  }
  const bool all = recipe_mass >= used_up * most;
  const auto same = [&](const Choice& choice) { return apart(choice.mass, most) <= as_near * most; };
  if (all && std::none_of(choices.begin(), choices.end(), same)) choices.push_back({most, most / measure, apart(most, recipe_mass)});
  std::stable_sort(choices.begin(), choices.end(), [](const Choice& one, const Choice& other) { return one.away < other.away; });
  return choices;
}

/// A combination of choices by their places; `changed` is the last place that its parent may still have changed, so that each combination
/// comes up once.
struct Combination {
  Mass away;
  std::size_t changed;
  std::vector<std::size_t> places;
  bool operator<(const Combination& other) const { return away > other.away; }  // the nearest on top
};

/// All combinations of one choice for each supply, the nearest first.
class Combinations {
 public:
  explicit Combinations(std::vector<Choices> choices) : choices_(std::move(choices)) {
    Mass away;
    for (const Choices& of_one : choices_) away += of_one.front().away;
    waiting_.push({away, 0, std::vector<std::size_t>(choices_.size(), 0)});
  }

  std::optional<Combination> next() {
    if (waiting_.empty()) return std::nullopt;
    const Combination nearest = waiting_.top();
    waiting_.pop();
    for (std::size_t i = nearest.changed; i < choices_.size(); ++i) {
      const std::size_t place = nearest.places[i];
      if (place + 1 == choices_[i].size()) continue;
      Combination further = nearest;
      further.changed = i;
      further.places[i] = place + 1;
      further.away += choices_[i][place + 1].away - choices_[i][place].away;
      waiting_.push(std::move(further));
    }
    return nearest;
  }

  const Choice& choice(const Combination& of, std::size_t supply) const { return choices_[supply][of.places[supply]]; }

 private:
  std::vector<Choices> choices_;
  std::priority_queue<Combination> waiting_;
};

/// A combination with its water.
struct WholeMix {
  Amounts amounts;
  Mix mix;
  double distance = std::numeric_limits<double>::infinity();
  bool keeps_limits = false;
  bool good = false;  ///< near enough to the aim as well
  Mass away;
  double measures = 0.0;
};

class Search {
 public:
  /// @param farthest distance from the aim that is good enough
  Search(const RecipeQuestion& question, const Recipe& recipe, WaterMass water_measure, double farthest)
      : question_(question),
        recipe_(recipe),
        blend_(blend_of(question, {std::vector<Mass>(question.supplies.size()), WaterMass()})),
        water_measure_(water_measure),
        farthest_(farthest) {}

  /// The best candidate of some amounts, over the whole measures of water about the moisture aim.
  WholeMix best_of(const std::vector<Mass>& masses) {
    for (std::size_t i = 0; i < masses.size(); ++i) blend_.ingredients[i].mass = masses[i];
    WholeMix best = with_water(masses, 0.0);
    const double measures = measures_wanted(best.mix);
    const double exact = recipe_.water_to_add / water_measure_;  // less than to the aim, where air binds
    for (const double count : {std::floor(measures), std::ceil(measures), std::floor(exact), std::ceil(exact)}) {
      if (!(count > 0.0)) continue;
      WholeMix candidate = with_water(masses, count);
      if (improves_on(candidate, best)) best = std::move(candidate);
    }
    return best;
  }

 private:
  /// Measures of water that bring a dry mix to the moisture aim, or for the goal least-water just inside the window; as far as there is
  /// water.
  double measures_wanted(const Mix& mix) const {
    const bool sparing = question_.options.goal == Goal::least_water;
    WaterMass wanted = water_to(mix, sparing ? question_.targets.moisture.low : question_.targets.moisture.aim);
    if (question_.options.most_water) wanted = std::min(wanted, *question_.options.most_water);
    return wanted / water_measure_;
  }

  bool improves_on(const WholeMix& candidate, const WholeMix& best) const {
    if (candidate.good != best.good) return candidate.good;
    if (candidate.keeps_limits != best.keeps_limits) return candidate.keeps_limits;
    if (question_.options.goal == Goal::least_water && candidate.good) return candidate.amounts.water < best.amounts.water;
    // Where C:N alone decides the distance, water still matters.
    if (std::abs(candidate.distance - best.distance) <= as_near) return from_moisture_aim(candidate.mix) < from_moisture_aim(best.mix);
    return candidate.distance < best.distance;
  }

  MoistureWetBasis from_moisture_aim(const Mix& mix) const {
    return mix.moisture ? apart(*mix.moisture, question_.targets.moisture.aim) : wet_basis(1.0);
  }

  WholeMix with_water(const std::vector<Mass>& masses, double measures) {
    WholeMix candidate;
    candidate.amounts = {masses, measures * water_measure_};
    blend_.added_water = candidate.amounts.water;
    candidate.mix = mix_of(blend_);
    if (!is_positive(candidate.mix.mass)) return candidate;
    candidate.distance = distance_from_aim(candidate.mix, question_.targets);
    candidate.keeps_limits = keeps_limits(candidate);
    candidate.good = candidate.keeps_limits && candidate.distance <= farthest_;
    candidate.measures = measures;
    return candidate;
  }

  bool keeps_limits(const WholeMix& candidate) const {
    const RecipeOptions& options = question_.options;
    if (options.most_water && !(candidate.amounts.water <= on_the_edge * *options.most_water)) return false;
    const Volume fill = *recipe_.mix->volume;
    const bool is_filled = options.fill && recipe_.status != RecipeStatus::not_enough;
    if (is_filled && !(apart(*candidate.mix.volume, fill) <= about_the_fill * fill)) return false;
    if (options.capacity && !(*candidate.mix.volume <= on_the_edge * *options.capacity)) return false;
    for (std::size_t i = 0; i < question_.supplies.size(); ++i) {
      const auto& most = question_.supplies[i].most_of_volume;
      const auto& share = candidate.mix.parts[i].share;
      if (most && share && !at_most(*most, *share)) return false;
    }
    return true;
  }

  const RecipeQuestion& question_;
  const Recipe& recipe_;
  Blend blend_;
  WaterMass water_measure_;
  double farthest_;
};

WholeMix nearest_good_one(const RecipeQuestion& question, const Recipe& recipe, WaterMass water_measure) {
  std::vector<Choices> choices;
  const Mass pile_mass = recipe.mix->mass;
  for (std::size_t i = 0; i < question.supplies.size(); ++i)
    choices.push_back(choices_of(question.supplies[i], recipe.amounts[i].mass, pile_mass));
  Combinations combinations(std::move(choices));
  // A recipe off its windows stays about as far off.
  Search search(question, recipe, water_measure,
                recipe.distance_from_aim <= nearly_on_the_edge ? on_the_edge : about_as_far * recipe.distance_from_aim);
  WholeMix best;
  std::vector<Mass> masses(question.supplies.size());
  for (std::size_t looked_at = 0; looked_at < most_combinations; ++looked_at) {
    const std::optional<Combination> combination = combinations.next();
    if (!combination || (best.good && combination->away > best.away + as_near * pile_mass)) break;
    double measures = 0.0;
    for (std::size_t i = 0; i < masses.size(); ++i) {
      masses[i] = combinations.choice(*combination, i).mass;
      measures += combinations.choice(*combination, i).measures;
    }
    WholeMix candidate = search.best_of(masses);
    candidate.away = combination->away;
    candidate.measures += measures;
    const bool nearer_the_aim = candidate.distance < best.distance - as_near;
    const bool as_good_and_fewer = candidate.distance <= best.distance + as_near && candidate.measures < best.measures;
    const bool ranks_alike = candidate.good == best.good && candidate.keeps_limits == best.keeps_limits;
    const bool ranks_higher = candidate.good != best.good ? candidate.good : candidate.keeps_limits && !best.keeps_limits;
    if (ranks_higher || (ranks_alike && (nearer_the_aim || as_good_and_fewer))) best = std::move(candidate);
  }
  return best;
}

std::optional<WholeContainers> whole_in(const RecipeQuestion& question, const Recipe& recipe, WaterMass water_measure) {
  const WholeMix best = nearest_good_one(question, recipe, water_measure);
  const bool worth_telling = best.good || best.distance <= hardly_off;
  if (!best.keeps_limits || !worth_telling) return std::nullopt;
  WholeContainers whole;
  whole.mix = best.mix;
  whole.inside = best.good && best.distance <= on_the_edge;
  whole.distance_from_aim = best.distance;
  whole.water_to_add = best.amounts.water;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    whole.amounts.push_back(amount_of(supply, best.amounts.supplies[i]));
  }
  return whole;
}

/// What is bought by the container is paid by whole ones, whatever of them goes in.
Cost cost_of(const RecipeQuestion& question, const std::vector<RecipeAmount>& amounts) {
  Cost cost;
  for (std::size_t i = 0; i < amounts.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    Mass mass = amounts[i].mass;
    if (supply.counted_in) {
      const Mass container = supply.counted_mass / supply.counted_in->count;
      mass = std::ceil(mass / container - as_near) * container;
    }
    cost += Cost(supply.price * mass);
  }
  return cost;
}

/// The question with what comes in larger containers measured in a smaller one, bought or not.
RecipeQuestion in_smaller_measure(RecipeQuestion question, const ContainerCount& smaller) {
  for (RecipeSupply& supply : question.supplies) {
    supply.bought = false;  // of what was bought whole so much may go in
    const bool too_coarse = supply.counted_in && supply.counted_in->each > smaller.each && !supply.is_fixed();
    if (too_coarse) supply = measured_in(std::move(supply), smaller);
  }
  return question;
}

/// And what is less than two of the smaller ones weighed.
RecipeQuestion with_little_weighed(RecipeQuestion question, const Recipe& recipe, const ContainerCount& smaller) {
  constexpr double little = 2.0;
  question = in_smaller_measure(std::move(question), smaller);
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    RecipeSupply& supply = question.supplies[i];
    if (!(recipe.amounts[i].volume < little * smaller.each)) continue;
    supply.counted_in.reset();
    supply.counted_by_mass = true;
  }
  return question;
}

}  // namespace

std::optional<WholeContainers> in_whole_containers(const RecipeQuestion& question, const Recipe& recipe, const SmallMeasures& measures) {
  std::optional<WholeContainers> whole = whole_in(question, recipe, measures.water);
  for (const RecipeQuestion& finer_question :
       {in_smaller_measure(question, measures.container), with_little_weighed(question, recipe, measures.container)}) {
    const bool will_do = whole && (whole->inside || recipe.distance_from_aim > nearly_on_the_edge);
    if (will_do) break;
    std::optional<WholeContainers> finer = whole_in(finer_question, recipe, measures.water);
    if (!finer || (whole && !finer->inside)) continue;
    for (std::size_t i = 0; i < finer->amounts.size(); ++i) {  // what stays in its bags is counted in bags
      const RecipeAmount counted = amount_of(question.supplies[i], finer->amounts[i].mass);
      finer->amounts[i].bought = counted.bought;
      finer->amounts[i].left_over = counted.left_over;
      finer->amounts[i].mass_left = counted.mass_left;
      finer->amounts[i].containers_left = counted.containers_left;
    }
    whole = std::move(finer);
  }
  if (whole) whole->cost = cost_of(question, whole->amounts);
  return whole;
}

}  // namespace heapwright
