#include "heapwright/recipe/programme.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <iterator>
#include <limits>

#include "heapwright/mix/character.hpp"
#include "heapwright/mix/constituents.hpp"

namespace heapwright {
namespace {

constexpr double solver_tolerance = 1e-9;
constexpr double infinity = std::numeric_limits<double>::infinity();

// README, the distance t: steps beyond a window's edge.
constexpr double outer_step_cn_low = 5.0;
constexpr double outer_step_cn_high = 15.0;
constexpr double outer_step_moisture_low = 0.10;
constexpr double outer_step_moisture_high = 0.05;
constexpr double outer_step_air = 0.05;

constexpr double least_share_of_what_is_on_hand = 0.02;
constexpr double without_limit = 1000.0;  // times the mass scale: no pile wants more of one supply than this
constexpr double blocked_within = 1e-6;

double largest_of(const LinearProgram::Terms& terms) {
  double largest = 0.0;
  for (const auto& term : terms) largest = std::max(largest, std::abs(term.coefficient));
  return largest;
}

std::size_t index(Aim aim) { return static_cast<std::size_t>(aim); }

/// README, stages: an optimum is kept with this much slack.
double slack_of(double optimum) { return 1e-7 * std::max(std::abs(optimum), 0.01); }

PerKilogram per_kilogram(const Ingredient& ingredient) {
  const Constituents of = constituents_of(ingredient.properties, ingredient.density, 1.0 * unit::kg);
  return {of.dry.value(),      of.water.value(), of.carbon.value(),
          of.nitrogen.value(), of.loose.value(), (of.solids + Volume(of.water / water_density())).value()};
}

double mass_scale(const RecipeQuestion& question) {
  double available = 0.0;
  double densest = 0.0;
  for (const RecipeSupply& supply : question.supplies) {
    if (supply.available) available += supply.available->value();
    densest = std::max(densest, supply.ingredient.density->value());
  }
  if (available > 0.0) return available;
  const std::optional<Volume> size = question.options.fill ? question.options.fill : question.options.capacity;
  return size ? densest * size->value() / question.options.settling.value() : 1.0;
}

/// How far a value is from an aim: 0 there, 1 on the window's edge, and on by outer steps.
double distance_in(double value, double low, double aim, double high, double step_below, double step_above) {
  constexpr double rounding = 1e-9;  // a window without width is met by what equals its aim to rounding
  if (std::abs(value - aim) <= rounding * std::abs(aim)) return 0.0;
  if (value > aim) return value <= high ? (value - aim) / (high - aim) : 1.0 + (value - high) / step_above;
  return value >= low ? (aim - value) / (aim - low) : 1.0 + (low - value) / step_below;
}

/// low(t), high(t) and, for air, 1 − A(t).
double edge_at(const Targets& targets, Aim aim, bool low, double distance) {
  const double inner = std::min(distance, 1.0);
  const double outer = std::max(distance - 1.0, 0.0);
  switch (aim) {
    case Aim::carbon_to_nitrogen: {
      const auto& window = targets.carbon_to_nitrogen;
      return low ? window.aim.value() - inner * (window.aim - window.low).value() - outer * outer_step_cn_low
                 : window.aim.value() + inner * (window.high - window.aim).value() + outer * outer_step_cn_high;
    }
    case Aim::moisture: {
      const auto& window = targets.moisture;
      return low ? window.aim.value() - inner * (window.aim - window.low).value() - outer * outer_step_moisture_low
                 : window.aim.value() + inner * (window.high - window.aim).value() + outer * outer_step_moisture_high;
    }
    case Aim::air: return 1.0 - targets.least_air.value() + outer * outer_step_air;
  }
  return 0.0;
}

double distance_of_carbon_to_nitrogen(double carbon, double nitrogen, const Targets& targets) {
  if (!(nitrogen > 0.0)) return infinity;
  const auto& window = targets.carbon_to_nitrogen;
  return distance_in(carbon / nitrogen, window.low.value(), window.aim.value(), window.high.value(), outer_step_cn_low, outer_step_cn_high);
}

double distance_of_moisture(double water, double total, const Targets& targets) {
  if (!(total > 0.0)) return infinity;
  const auto& window = targets.moisture;
  return distance_in(water / total, window.low.value(), window.aim.value(), window.high.value(), outer_step_moisture_low,
                     outer_step_moisture_high);
}

double distance_of_air(double solids, double volume, const Targets& targets) {
  if (!(volume > 0.0)) return 0.0;
  const double missing = targets.least_air.value() - (1.0 - solids / volume);
  constexpr double rounding = 1e-9;
  return missing <= rounding ? 0.0 : 1.0 + missing / outer_step_air;
}

}  // namespace

std::vector<std::size_t> raised_supplies(const RecipeQuestion& question, std::optional<FeedstockClass> of_class) {
  std::vector<std::size_t> raised;
  for (std::size_t i = 0; i < question.supplies.size(); ++i) {
    const RecipeSupply& supply = question.supplies[i];
    if (supply.is_raised() && (!of_class || supply.feedstock_class == *of_class)) raised.push_back(i);
  }
  return raised;
}

Targets windows_at(const Targets& targets, double distance) {
  const auto of = [&](Aim aim, bool low) { return edge_at(targets, aim, low, distance); };
  Targets at = targets;
  at.carbon_to_nitrogen.low = carbon_to_nitrogen(of(Aim::carbon_to_nitrogen, true));
  at.carbon_to_nitrogen.high = carbon_to_nitrogen(of(Aim::carbon_to_nitrogen, false));
  at.moisture.low = wet_basis(of(Aim::moisture, true));
  at.moisture.high = wet_basis(of(Aim::moisture, false));
  at.least_air = AirSpace::of(std::max(0.0, 1.0 - of(Aim::air, false)));
  return at;
}

double distance_from_aim(const Mix& mix, const Targets& targets) {
  const auto ratio = judged_ratio(mix, targets);
  const double cn = ratio ? distance_of_carbon_to_nitrogen(ratio->value(), 1.0, targets) : infinity;
  const double moisture = distance_of_moisture(mix.water.value(), mix.mass.value(), targets);
  const double air = mix.air_space ? distance_of_air(1.0 - mix.air_space->value(), 1.0, targets) : 0.0;
  return std::max({cn, moisture, air});
}

Programme::Programme(const RecipeQuestion& question, const HardLimits& limits) : Programme(question, limits, false) {}

Programme Programme::of_everything_in(const RecipeQuestion& question) {
  return {question, HardLimits{.fill = false, .capacity = false, .shares = false}, true};
}

Programme::Programme(const RecipeQuestion& question, const HardLimits& limits, bool everything_in)
    : question_(&question), hard_(limits), scale_(mass_scale(question)), settling_(question.options.settling.value()) {
  limits_.fill(infinity);
  double carbon = 0.0;
  for (const RecipeSupply& supply : question.supplies) {
    per_kg_.push_back(per_kilogram(supply.ingredient));
    carbon += per_kg_.back().carbon;
  }
  // The nitrogen of a kilogram of a pile on its aim: brings the rows of C:N near one, so that the solver's tolerance is small against them.
  if (carbon > 0.0) nitrogen_scale_ = carbon / static_cast<double>(per_kg_.size()) / question.targets.carbon_to_nitrogen.aim.value();
  add_supplies(everything_in);
  if (!everything_in) add_hard_limits();
  add_windows();
}

void Programme::add_supplies(bool everything_in) {
  for (const RecipeSupply& supply : question_->supplies) {
    const bool some = supply.available && is_positive(*supply.available);
    unit_.push_back(some ? supply.available->value() / scale_ : 1.0);
    double low = 0.0;
    double high = some ? 1.0 : supply.available ? 0.0 : without_limit;
    if (supply.use == Use::all && supply.available) low = high;
    if (everything_in) {
      const bool goes_in = supply.is_raised() || supply.is_fixed();
      low = high = goes_in ? high : 0.0;
    }
    const bool none_allowed = supply.most_of_volume && hard_.shares && !is_positive(*supply.most_of_volume);
    if (none_allowed && !everything_in) high = 0.0;
    x_.push_back(program_.add_variable(low, high));
    floors_.push_back(low);
  }
  const std::optional<WaterMass>& most_water = question_->options.most_water;
  water_ =
      program_.add_variable(hard_.least_water.value() / scale_, most_water && hard_.water ? most_water->value() / scale_ : without_limit);
  slack_ = program_.add_variable(-without_limit, without_limit);
  fraction_ = program_.add_variable(0.0, without_limit);
}

/// A row with its largest coefficient brought to one, so that the solver's tolerance means the same in all of them.
void Programme::add_row_near_one(Terms terms, double low, double high) {
  const double largest = largest_of(terms);
  if (!(largest > 0.0)) return;
  for (auto& term : terms) term.coefficient /= largest;
  program_.add_row(terms, low / largest, high / largest);
}

void Programme::add_hard_limits() {
  const RecipeOptions& options = question_->options;
  if (options.fill && hard_.fill) add_row_near_one(volume_terms(), options.fill->value() / scale_, options.fill->value() / scale_);
  if (options.capacity && hard_.capacity) add_row_near_one(volume_terms(), -LinearProgram::unlimited, options.capacity->value() / scale_);

  const Terms loose = sum_of(&PerKilogram::loose, 0.0);
  for (std::size_t i = 0; i < x_.size() && hard_.shares; ++i) {
    const auto& share = question_->supplies[i].most_of_volume;
    if (!share) continue;
    Terms terms{of_supply(i, per_kg_[i].loose)};
    for (const auto& term : loose) terms.push_back({term.variable, -share->value() * term.coefficient});
    add_row_near_one(terms, -LinearProgram::unlimited, 0.0);
  }

  if (!options.fill) add_limit_of_swelling();
  if (options.fill && hard_.fill) return;
  if (std::any_of(question_->supplies.begin(), question_->supplies.end(), std::mem_fn(&RecipeSupply::is_fixed))) return;
  double on_hand = 0.0;
  Terms raised;
  for (const std::size_t i : raised_supplies(*question_)) {
    on_hand += question_->supplies[i].available->value() / scale_;
    raised.push_back(of_supply(i, 1.0));
  }
  double least = least_share_of_what_is_on_hand * on_hand;
  if (options.capacity && hard_.capacity) {  // a small bin asks for no more than half of what it holds of the lightest
    double loosest = 0.0;
    for (const PerKilogram& p : per_kg_) loosest = std::max(loosest, p.loose);
    least = std::min(least, 0.5 * options.capacity->value() / settling_ / loosest / scale_);
  }
  if (!raised.empty()) add_row_near_one(raised, least, LinearProgram::unlimited);
}

/// README, swelling.
Programme::Terms Programme::swelling_terms(double times) const {
  Terms terms;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const RecipeSupply& supply = question_->supplies[i];
    if (!supply.available) terms.push_back(of_supply(i, per_kg_[i].dry));
    if (supply.is_raised() || supply.is_fixed()) terms.push_back(of_supply(i, -times * per_kg_[i].dry));
  }
  return terms;
}

void Programme::add_limit_of_swelling() {
  const auto& supplies = question_->supplies;
  const bool endless = std::any_of(supplies.begin(), supplies.end(), [](const RecipeSupply& supply) { return !supply.available; });
  const bool limited =
      std::any_of(supplies.begin(), supplies.end(), [](const RecipeSupply& supply) { return supply.is_raised() || supply.is_fixed(); });
  if (!endless || !limited) return;
  swelling_ = program_.add_row({}, -LinearProgram::unlimited, 0.0);
  limit_swelling(hard_.swelling);
}

void Programme::limit_swelling(double times) {
  hard_.swelling = times;
  Terms terms = swelling_terms(times);
  const double largest = largest_of(terms);
  for (auto& term : terms) term.coefficient /= largest;
  program_.set_terms(*swelling_, terms);
}

void Programme::add_windows() {
  for (const Aim aim : all_aims) {
    for (const bool low : {true, false}) {
      if (aim == Aim::air && low) continue;
      windows_.push_back({aim, program_.add_row({}, -LinearProgram::unlimited, LinearProgram::unlimited), low});
    }
  }
}

double Programme::edge(Aim aim, bool low, double distance) const { return edge_at(question_->targets, aim, low, distance); }

/// The row of a window at a distance, all of it on one side: terms ≤ 0 keeps the window.
Programme::Terms Programme::window_terms(const WindowRow& row, double distance) const {
  const double at = edge(row.aim, row.low, distance);
  const double sign = row.low ? -1.0 : 1.0;
  Terms terms;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const PerKilogram& p = per_kg_[i];
    double coefficient = 0.0;
    if (row.aim == Aim::carbon_to_nitrogen) coefficient = sign * (p.carbon - at * p.nitrogen) / nitrogen_scale_;
    if (row.aim == Aim::moisture) coefficient = sign * (p.water - at);
    if (row.aim == Aim::air) coefficient = (p.solids - at * settling_ * p.loose) * water_kg_per_m3;  // brought near one
    terms.push_back(of_supply(i, coefficient));
  }
  if (row.aim == Aim::moisture) terms.push_back({water_, sign * (1.0 - at)});
  if (row.aim == Aim::air) terms.push_back({water_, 1.0});
  return terms;
}

/// What a row gains for a unit of distance at given sums: the weight of the common slack in that row, so that the slack is a distance.
double Programme::slack_weight(const WindowRow& row, double distance, const Sums& sums) const {
  const double step = std::abs(edge(row.aim, row.low, distance + 0.5) - edge(row.aim, row.low, distance)) / 0.5;
  switch (row.aim) {
    case Aim::carbon_to_nitrogen: return step * sums.nitrogen / nitrogen_scale_;
    case Aim::moisture: return step * sums.total;
    case Aim::air: return (distance < 1.0 ? 0.0 : outer_step_air) * sums.volume * water_kg_per_m3;
  }
  return 0.0;
}

void Programme::set_window(const WindowRow& row, double distance, double weight) {
  if (lifted_[index(row.aim)] || !std::isfinite(distance)) {
    program_.set_bounds(row.row, -LinearProgram::unlimited, LinearProgram::unlimited);
    return;
  }
  Terms terms = window_terms(row, distance);
  if (weight > 0.0) terms.push_back({slack_, -weight});
  program_.set_terms(row.row, terms);
  program_.set_bounds(row.row, -LinearProgram::unlimited, 0.0);
}

void Programme::limit(Aim aim, double distance) {
  limits_[index(aim)] = distance + slack_of(distance);
  for (const WindowRow& row : windows_) {
    if (row.aim == aim) set_window(row, limits_[index(aim)], 0.0);
  }
}

void Programme::limit_all(double distance) {
  for (const Aim aim : all_aims) limit(aim, distance);
}

void Programme::lift(Aim aim) {
  lifted_[index(aim)] = true;
  for (const WindowRow& row : windows_) {
    if (row.aim == aim) set_window(row, infinity, 0.0);
  }
}

/// A term of a supply by what a kilogram of it counts for.
LinearProgram::Term Programme::of_supply(std::size_t supply, double per_kilogram) const {
  return {x_[supply], per_kilogram * unit_[supply]};
}

Programme::Terms Programme::sum_of(double PerKilogram::*part, double of_water) const {
  Terms terms;
  for (std::size_t i = 0; i < x_.size(); ++i) terms.push_back(of_supply(i, per_kg_[i].*part));
  if (of_water > 0.0) terms.push_back({water_, of_water});
  return terms;
}

Programme::Terms Programme::volume_terms() const {
  Terms terms = sum_of(&PerKilogram::loose, 0.0);
  for (auto& term : terms) term.coefficient *= settling_;
  return terms;
}

/// README, `least-bought`: bought supplies, and supplements and minerals on hand unless they are fixed.
Programme::Terms Programme::not_raised_volume_terms() const {
  Terms terms;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const RecipeSupply& supply = question_->supplies[i];
    if (supply.bought || (is_sparing(supply.feedstock_class) && supply.use != Use::all)) terms.push_back(of_supply(i, per_kg_[i].loose));
  }
  return terms;
}

Programme::Terms Programme::cost_terms() const {
  Terms terms;
  for (std::size_t i = 0; i < x_.size(); ++i) terms.push_back(of_supply(i, question_->supplies[i].price.value()));
  return terms;
}

Sums Programme::sums_of(const Amounts& amounts) const {
  Sums sums;
  for (std::size_t i = 0; i < x_.size(); ++i) {
    const double x = amounts.supplies[i].value();
    const PerKilogram& p = per_kg_[i];
    sums.water += x * p.water;
    sums.total += x;
    sums.carbon += x * p.carbon;
    sums.nitrogen += x * p.nitrogen;
    sums.volume += x * settling_ * p.loose;
    sums.solids += x * p.solids;
  }
  sums.water += amounts.water.value();
  sums.total += amounts.water.value();
  sums.solids += amounts.water.value() / water_kg_per_m3;
  return sums;
}

double Programme::own_distance(Aim aim, const Amounts& amounts) const {
  const Sums sums = sums_of(amounts);
  switch (aim) {
    case Aim::carbon_to_nitrogen: return distance_of_carbon_to_nitrogen(sums.carbon, sums.nitrogen, question_->targets);
    case Aim::moisture: return distance_of_moisture(sums.water, sums.total, question_->targets);
    case Aim::air: return distance_of_air(sums.solids, sums.volume, question_->targets);
  }
  return 0.0;
}

double Programme::distance(const Amounts& amounts) const {
  double greatest = 0.0;
  for (const Aim aim : all_aims) {
    if (!lifted_[index(aim)]) greatest = std::max(greatest, own_distance(aim, amounts));
  }
  return greatest;
}

Amounts Programme::amounts_in(const LinearProgram::Solution& solution) const {
  constexpr double dust = 1e-10;  // below the solver's tolerance
  const auto kilograms = [&](Variable variable, double unit) {
    const double value = solution.value(variable) * unit;
    return value < dust ? 0.0 : value * scale_;
  };
  Amounts amounts;
  for (std::size_t i = 0; i < x_.size(); ++i) amounts.supplies.push_back(kilograms(x_[i], unit_[i]) * unit::kg);
  amounts.water = kilograms(water_, 1.0) * unit::kg_water;
  return amounts;
}

/// Optimum of some terms in the programme's scaled units; the amounts are remembered. Once there are amounts within the bounds, what
/// defeats the solver is no more than a stage without an answer: they stand.
std::optional<double> Programme::optimise(const Terms& terms, Sense sense) {
  try {
    const auto solution = sense == Sense::least ? program_.minimise(terms) : program_.maximise(terms);
    if (!solution) return std::nullopt;
    amounts_ = amounts_in(*solution);
    return solution->optimum;
  } catch (const SolverFailure&) {
    if (amounts_.supplies.empty()) throw;
    return std::nullopt;
  }
}

/// A sum of terms at some amounts, in SI.
double Programme::value_of(const Terms& terms, const Amounts& amounts) const {
  double sum = 0.0;
  for (const auto& term : terms) {
    const std::size_t i = term.variable.index;
    sum += term.coefficient * (i < x_.size() ? amounts.supplies[i].value() / unit_[i] : amounts.water.value());
  }
  return sum;
}

/// Gives the sums that were kept at nothing the sliver that the solver's tolerance made of them.
void Programme::loosen_nothings() {
  for (const auto& [row, optimum] : nothings_) program_.set_bounds(row, -LinearProgram::unlimited, optimum + slack_of(optimum));
  nothings_.clear();
}

/// Optimises some terms and keeps the optimum, with its slack, for what follows. The terms are brought near one first, so
/// that slack and tolerance mean the same for volumes, prices and masses. @return the optimum in SI
double Programme::keep(Terms terms, Sense sense) {
  const double largest = largest_of(terms);
  if (!(largest > 0.0)) return 0.0;
  for (auto& term : terms) term.coefficient /= largest;
  std::optional<double> optimum = optimise(terms, sense);
  if (!optimum) {
    loosen_nothings();
    optimum = optimise(terms, sense);
  }
  if (!optimum) return value_of(terms, amounts_) * largest;  // defeated by rounding: the amounts of the stage before stand
  if (sense == Sense::greatest) {
    program_.add_row(terms, *optimum - slack_of(*optimum), LinearProgram::unlimited);
    return *optimum * largest * scale_;
  }
  // Nothing stays nothing: slack in a sum that is nothing would count for more in a small pile than in a large one, and the
  // next stage would shrink the pile for it.
  const bool nothing = std::abs(*optimum) <= solver_tolerance;
  const Row row = program_.add_row(terms, -LinearProgram::unlimited, nothing ? 0.0 : *optimum + slack_of(*optimum));
  if (nothing) nothings_.emplace_back(row, std::max(0.0, *optimum));
  return nothing ? 0.0 : *optimum * largest * scale_;
}

bool Programme::possible() { return optimise({}, Sense::least).has_value(); }

std::optional<Volume> Programme::greatest_volume_of_all() {
  const auto volume = optimise(volume_terms(), Sense::greatest);
  return volume ? std::optional<Volume>(*volume * scale_ * unit::m3) : std::nullopt;
}

std::optional<Volume> Programme::least_volume() {
  const auto volume = optimise(volume_terms(), Sense::least);
  return volume ? std::optional<Volume>(*volume * scale_ * unit::m3) : std::nullopt;
}

/// Dinkelbach's method, with each row's slack weighted by what the row gains for a unit of distance: from amounts
/// within the bounds, ask by how much the windows can be tightened together; take the distance of the answer; until
/// nothing tightens. It comes down to the least distance from above, superlinearly.
std::optional<double> Programme::least_distance(const std::vector<Aim>& aims) {
  constexpr int most_rounds = 60;
  constexpr double settled = 1e-12;
  constexpr double out_of_reach = 1e3;  // a C:N of 15,000
  const auto asked = [&](const WindowRow& row) { return std::find(aims.begin(), aims.end(), row.aim) != aims.end(); };
  const auto distance_at = [&](const Amounts& amounts) {
    double greatest = 0.0;
    for (const Aim aim : aims) greatest = std::max(greatest, own_distance(aim, amounts));
    return greatest;
  };
  const auto tighten_from = [&](double distance, const Sums& sums) {
    for (const WindowRow& row : windows_) {
      if (asked(row)) set_window(row, distance, slack_weight(row, distance, sums));
    }
    return optimise({{slack_, 1.0}}, Sense::least);
  };

  Amounts reference{std::vector<Mass>(x_.size(), 1.0 / static_cast<double>(x_.size()) * unit::kg), 1.0 * unit::kg_water};
  std::optional<double> least;
  // On the windows' edges first: what is inside goes on inwards, where some rows have no slack; the rest comes in from outside.
  const auto slack = tighten_from(1.0, sums_of(reference));
  if (slack) {
    Amounts best = amounts_;
    double distance = std::min(distance_at(best), out_of_reach);
    for (int round = 0; round < most_rounds && distance > 0.0; ++round) {
      Sums sums = sums_of(best);
      for (double* sum : {&sums.nitrogen, &sums.total, &sums.volume}) *sum /= scale_;
      const auto gain = tighten_from(distance, sums);
      if (!gain) break;
      const double next = distance_at(amounts_);
      const bool done = !(next < distance - settled * std::max(1.0, distance));
      if (next < distance) {
        distance = next;
        best = amounts_;
      }
      if (done) break;
    }
    amounts_ = best;
    if (distance < out_of_reach) least = distance;
  }
  for (const WindowRow& row : windows_) {
    if (asked(row)) set_window(row, limits_[index(row.aim)], 0.0);
  }
  return least;
}

void Programme::lower_distances() {
  std::vector<Aim> sinking;
  for (const Aim aim : all_aims) {
    if (!lifted_[index(aim)]) sinking.push_back(aim);
  }
  while (!sinking.empty()) {
    const auto common = least_distance(sinking);
    if (!common) return;
    for (const Aim aim : sinking) limit(aim, *common);
    std::vector<Aim> free;
    for (const Aim aim : sinking) {
      const auto own = least_distance({aim});
      if (own && *own < *common - blocked_within * std::max(1.0, *common)) free.push_back(aim);
    }
    if (free.size() == sinking.size()) return;
    sinking = free;
  }
}

/// Those of some supplies, all of which keep a used fraction, whose own cannot exceed it. Raised together first: what rises then is free,
/// and where nothing does all that is left is blocked; one by one only where that does not tell.
std::vector<std::size_t> Programme::blocked_at(double fraction, std::vector<std::size_t> supplies) {
  while (!supplies.empty()) {
    Terms together;
    for (const std::size_t i : supplies) together.push_back({x_[i], 1.0});
    const double sum = optimise(together, Sense::greatest).value_or(0.0);
    if (sum <= fraction * static_cast<double>(supplies.size()) + blocked_within) return supplies;
    const auto rises = [&](std::size_t i) { return amounts_.supplies[i].value() > (fraction + blocked_within) * unit_[i] * scale_; };
    if (std::erase_if(supplies, rises) == 0) break;
  }
  std::erase_if(supplies, [&](std::size_t i) {
    return optimise({{x_[i], 1.0}}, Sense::greatest).value_or(0.0) > fraction + blocked_within;
  });
  return supplies;
}

double Programme::use_fairly(std::vector<std::size_t> supplies) {
  std::optional<double> smallest;
  // What an earlier class was promised is never taken back.
  const auto hold = [&](std::size_t i, double fraction) {
    program_.set_bounds(x_[i], std::max(floors_[i], std::clamp(fraction, 0.0, 1.0)), 1.0);
  };
  while (!supplies.empty()) {
    std::vector<Row> rows;
    for (const std::size_t i : supplies) rows.push_back(program_.add_row({{x_[i], 1.0}, {fraction_, -1.0}}, 0.0, LinearProgram::unlimited));
    auto most = optimise({{fraction_, 1.0}}, Sense::greatest);
    if (!most) {
      loosen_nothings();
      most = optimise({{fraction_, 1.0}}, Sense::greatest);
    }
    for (const Row row : rows) program_.set_bounds(row, -LinearProgram::unlimited, LinearProgram::unlimited);
    if (!most) break;  // defeated by rounding: the amounts of the stage before stand
    const double common = std::min(*most, 1.0);
    if (!smallest) smallest = common;
    // Without slack while looking for those that can go on: the slack of a large supply is much of a small one.
    for (const std::size_t i : supplies) hold(i, common - solver_tolerance);
    const std::vector<std::size_t> blocked = blocked_at(common, supplies);
    if (blocked.empty()) break;
    std::vector<std::size_t> free;
    std::set_difference(supplies.begin(), supplies.end(), blocked.begin(), blocked.end(), std::back_inserter(free));
    for (const std::size_t i : blocked) {
      floors_[i] = std::max(floors_[i], common - slack_of(common));
      hold(i, 0.0);
    }
    supplies = free;
  }
  possible();  // the amounts of the probes above are not the answer
  return smallest.value_or(1.0);
}

double Programme::keep_least_loose_volume() { return keep(sum_of(&PerKilogram::loose, 0.0), Sense::least); }
double Programme::keep_least_cost() { return keep(cost_terms(), Sense::least); }
double Programme::keep_least_volume_bought() { return keep(not_raised_volume_terms(), Sense::least); }
double Programme::keep_least_water() { return keep({{water_, 1.0}}, Sense::least); }
double Programme::keep_least_mass() {
  Terms terms;
  for (std::size_t i = 0; i < x_.size(); ++i) terms.push_back(of_supply(i, 1.0));
  return keep(terms, Sense::least);
}
double Programme::keep_greatest_volume() { return keep(volume_terms(), Sense::greatest); }

void Programme::limit_cost(Cost cost) { add_row_near_one(cost_terms(), -LinearProgram::unlimited, cost.value() / scale_); }

}  // namespace heapwright
