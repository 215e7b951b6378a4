#include "heapwright/season/year.hpp"

#include <algorithm>
#include <functional>

#include "heapwright/error.hpp"
#include "heapwright/linear_program/linear_program.hpp"
#include "heapwright/mix/constituents.hpp"

namespace heapwright {
namespace {

using Terms = LinearProgram::Terms;
using Variable = LinearProgram::Variable;

constexpr std::size_t before(std::size_t month) { return (month + months_in_a_year - 1) % months_in_a_year; }

/// Where a window ends at a distance from its aim.
template <class Quantity>
Window<double> at_distance(const Window<Quantity>& window, double distance) {
  const double aim = window.aim.value();
  return {aim - distance * (aim - window.low.value()), aim, aim + distance * (window.high.value() - aim)};
}

/// A kernel of plain numbers, in SI, its masses over the mass of the whole year.
class YearProgramme {
 public:
  YearProgramme(const YearQuestion& question, bool may_wait) : question_(question), may_wait_(may_wait) {
    for (const YearSupply& supply : question.supplies) add_supply(supply);
    if (!(mass_ > 0.0)) mass_ = 1.0;
    for (std::size_t month = 0; month < months_in_a_year; ++month) add_month(month);
    for (std::size_t i = 0; i < per_kg_.size(); ++i) add_balance(i);
    add_store();
  }

  void solve() {
    keep_least(waste_terms());
    keep_least_of_worst_month();
    keep_least(terms_of_all(&MonthVariables::bought, [&](std::size_t i) { return per_kg_[i].loose.value(); }));
    keep_least(terms_of_all(&MonthVariables::kept, [&](std::size_t i) { return is_dry(i) ? 0.0 : per_kg_[i].dry.value(); }));
    keep_least({{store_, 1.0}});
    keep_least(terms_of_all(&MonthVariables::kept, [&](std::size_t i) { return is_dry(i) ? per_kg_[i].loose.value() : 0.0; }));
    Terms water;
    for (const Variable& variable : water_) water.push_back({variable, 1.0});
    keep_least(water);
  }

  Year year() const;

 private:
  struct MonthVariables {
    Variable used{0};
    Variable left{0};
    Variable kept{0};
    Variable bought{0};
  };

  bool is_dry(std::size_t i) const { return question_.supplies[i].keeping == Keeping::dry; }
  bool is_fresh(std::size_t i) const {
    return question_.supplies[i].keeping == Keeping::fresh || question_.supplies[i].keeping == Keeping::waits;
  }

  void add_supply(const YearSupply& supply) {
    if (!supply.ingredient.density || !is_positive(*supply.ingredient.density))
      throw DomainError(supply.ingredient.name + " has no density", "give its bulk density");
    for (const Mass& comes : supply.comes) {
      if (!(comes >= Mass())) throw DomainError(supply.ingredient.name + " comes in no negative amount", "give a mass");
      mass_ += comes.value();
    }
    per_kg_.push_back(constituents_of(supply.ingredient.properties, supply.ingredient.density, 1.0 * unit::kg));
  }

  double comes(std::size_t i, std::size_t month) const { return question_.supplies[i].comes[month].value() / mass_; }

  void add_month(std::size_t month) {
    constexpr double unlimited = LinearProgram::unlimited;
    for (std::size_t i = 0; i < per_kg_.size(); ++i) {
      const YearSupply& supply = question_.supplies[i];
      const bool keeps = supply.keeping == Keeping::dry || (supply.keeping == Keeping::waits && may_wait_);
      const bool is_over = question_.begins && month == before(static_cast<unsigned>(*question_.begins) - 1);
      const double most_kept = !keeps || is_over ? 0.0 : supply.keeping == Keeping::dry ? unlimited : comes(i, month);
      const double most_left = supply.keeping == Keeping::bought ? 0.0 : unlimited;
      const double most_bought = supply.keeping == Keeping::bought ? unlimited : 0.0;
      variables_[month].push_back({program_.add_variable(0.0, unlimited), program_.add_variable(0.0, most_left),
                                   program_.add_variable(0.0, most_kept), program_.add_variable(0.0, most_bought)});
    }
    water_[month] = program_.add_variable(0.0, unlimited);
    add_windows(month);
  }

  Terms sum_of(std::size_t month, const std::function<double(const Constituents&)>& part, double of_water) const {
    Terms terms;
    for (std::size_t i = 0; i < per_kg_.size(); ++i) terms.push_back({variables_[month][i].used, part(per_kg_[i])});
    if (of_water != 0.0) terms.push_back({water_[month], of_water});
    return terms;
  }

  void add_windows(std::size_t month) {
    constexpr double unlimited = LinearProgram::unlimited;
    const Window<double> ratio = at_distance(question_.targets.carbon_to_nitrogen, question_.distance);
    const Window<double> moisture = at_distance(question_.targets.moisture, question_.distance);
    const auto ratio_over = [](double bound) {
      return [bound](const Constituents& one) { return one.carbon.value() - bound * one.nitrogen.value(); };
    };
    const auto moisture_over = [](double bound) {
      return [bound](const Constituents& one) { return one.water.value() - bound * one.mass().value(); };
    };
    // Carbon and nitrogen are some hundredths of the mass: rows near one for the solver.
    constexpr double near_one = 10.0;
    const auto scaled = [](Terms terms) {
      for (LinearProgram::Term& term : terms) term.coefficient *= near_one;
      return terms;
    };
    program_.add_row(scaled(sum_of(month, ratio_over(ratio.low), 0.0)), 0.0, unlimited);
    program_.add_row(scaled(sum_of(month, ratio_over(ratio.high), 0.0)), -unlimited, 0.0);
    program_.add_row(sum_of(month, moisture_over(moisture.low), 1.0 - moisture.low), 0.0, unlimited);
    program_.add_row(sum_of(month, moisture_over(moisture.high), 1.0 - moisture.high), -unlimited, 0.0);
    const double most_filled = 1.0 - question_.targets.least_air.value();
    const double of_water = 1.0 / water_density().value();
    constexpr double kilograms = 1000.0;  // volumes of a kilogram are some thousandths
    program_.add_row(sum_of(
                         month,
                         [&](const Constituents& one) {
                           return kilograms * (one.solids.value() + of_water * one.water.value() - most_filled * one.loose.value());
                         },
                         kilograms * of_water),
                     -unlimited, 0.0);
  }

  void add_balance(std::size_t i) {
    for (std::size_t month = 0; month < months_in_a_year; ++month) {
      const MonthVariables& now = variables_[month][i];
      const double came = comes(i, month);
      program_.add_row({{now.used, 1.0}, {now.left, 1.0}, {now.kept, 1.0}, {now.bought, -1.0}, {variables_[before(month)][i].kept, -1.0}},
                       came, came);
    }
  }

  void add_store() {
    const double most = question_.store ? question_.store->value() / mass_ : LinearProgram::unlimited;
    store_ = program_.add_variable(0.0, most);
    for (std::size_t month = 0; month < months_in_a_year; ++month) {
      Terms terms{{store_, -1.0}};
      for (std::size_t i = 0; i < per_kg_.size(); ++i) {
        if (is_dry(i)) terms.push_back({variables_[month][i].kept, per_kg_[i].loose.value()});
      }
      program_.add_row(terms, -LinearProgram::unlimited, 0.0);
    }
  }

  template <class WeightOf>
  Terms terms_of_all(Variable MonthVariables::*what, WeightOf weight_of) const {
    Terms terms;
    for (const std::vector<MonthVariables>& month : variables_) {
      for (std::size_t i = 0; i < month.size(); ++i) {
        if (const double weight = weight_of(i); weight != 0.0) terms.push_back({month[i].*what, weight});
      }
    }
    return terms;
  }

  double weight_of_waste(std::size_t i) const { return is_fresh(i) ? question_.supplies[i].weight * per_kg_[i].dry.value() : 0.0; }

  Terms waste_terms() const {
    return terms_of_all(&MonthVariables::left, [&](std::size_t i) { return weight_of_waste(i); });
  }

  void keep_least_of_worst_month() {
    const Variable worst = program_.add_variable(0.0, LinearProgram::unlimited);
    for (const std::vector<MonthVariables>& month : variables_) {
      Terms terms{{worst, -1.0}};
      for (std::size_t i = 0; i < month.size(); ++i) {
        if (is_fresh(i)) terms.push_back({month[i].left, weight_of_waste(i)});
      }
      program_.add_row(terms, -LinearProgram::unlimited, 0.0);
    }
    keep_least({{worst, 1.0}});
  }

  /// The least of a sum, kept from here on within the solver's own tolerance. Where what is kept already is met by so little that the
  /// solver finds nothing more, what it found before stands.
  void keep_least(const Terms& terms) {
    if (terms.empty() || is_settled_) return;
    std::optional<LinearProgram::Solution> least = program_.minimise(terms);
    if (!least && !solution_) throw SolverFailure("a year of supplies has no balance", "leave out a supply");
    is_settled_ = !least;
    if (is_settled_) return;
    solution_ = std::move(least);
    constexpr double relative = 1e-7;
    constexpr double absolute = 1e-9;
    program_.add_row(terms, -LinearProgram::unlimited, solution_->optimum * (1.0 + relative) + absolute);
  }

  const YearQuestion& question_;
  bool may_wait_;
  double mass_ = 0.0;
  std::vector<Constituents> per_kg_;
  std::array<std::vector<MonthVariables>, months_in_a_year> variables_;
  std::array<Variable, months_in_a_year> water_{Variable{0}, Variable{0}, Variable{0}, Variable{0}, Variable{0}, Variable{0},
                                                Variable{0}, Variable{0}, Variable{0}, Variable{0}, Variable{0}, Variable{0}};
  Variable store_{0};
  LinearProgram program_;
  std::optional<LinearProgram::Solution> solution_;
  bool is_settled_ = false;  ///< no stage finds more
};

MonthOfSupply month_of_bought(Mass used) { return {{}, used, used, {}, {}}; }

/// What is left follows from the rest, so that each account is exact.
MonthOfSupply month_of_kept(Mass kept_before, Mass comes, Mass used, Mass kept) {
  MonthOfSupply month{comes, {}, {}, {}, {}};
  const Mass there = kept_before + comes;
  month.kept = std::min(kept, there);
  month.used = std::min(used, Mass(there - month.kept));
  month.left = std::max(Mass(), Mass(there - month.used - month.kept));  // not a rounding below nothing
  return month;
}

Year YearProgramme::year() const {
  Year year;
  const auto mass = [&](Variable variable) { return solution_->value(variable) * mass_ * unit::kg; };
  for (std::size_t i = 0; i < per_kg_.size(); ++i) {
    const bool is_bought = question_.supplies[i].keeping == Keeping::bought;
    Mass kept = mass(variables_.back()[i].kept);
    for (std::size_t month = 0; month < months_in_a_year; ++month) {
      const MonthVariables& now = variables_[month][i];
      year.months[month].supplies.push_back(is_bought
                                                ? month_of_bought(mass(now.used))
                                                : month_of_kept(kept, question_.supplies[i].comes[month], mass(now.used), mass(now.kept)));
      const MonthOfSupply& so = year.months[month].supplies.back();
      kept = so.kept;
      year.waste += weight_of_waste(i) * so.left.value();
      year.all_fresh += weight_of_waste(i) * so.comes.value();
      year.waits = year.waits || (is_fresh(i) && is_positive(so.kept));
      year.bought += so.bought.value() * per_kg_[i].loose;
    }
  }
  for (std::size_t month = 0; month < months_in_a_year; ++month) {
    year.months[month].water = solution_->value(water_[month]) * mass_ * unit::kg_water;
    Volume store;
    for (std::size_t i = 0; i < per_kg_.size(); ++i) {
      if (is_dry(i)) store += year.months[month].supplies[i].kept.value() * per_kg_[i].loose;
    }
    year.store = std::max(year.store, store);
  }
  return year;
}

Year solved(const YearQuestion& question, bool may_wait) {
  YearProgramme programme(question, may_wait);
  programme.solve();
  return programme.year();
}

}  // namespace

bool Year::is_balanced() const {
  constexpr double as_good_as_all = 1e-6;
  return waste <= as_good_as_all * all_fresh;
}

Year balance_year(const YearQuestion& question) {
  constexpr double worth_waiting = 0.05;
  Year year = solved(question, false);
  const bool some_may_wait =
      std::any_of(question.supplies.begin(), question.supplies.end(), [](const YearSupply& one) { return one.keeping == Keeping::waits; });
  if (!some_may_wait || year.waste < worth_waiting * year.all_fresh) return year;
  Year waiting = solved(question, true);
  return year.waste - waiting.waste >= worth_waiting * year.all_fresh ? waiting : year;
}

}  // namespace heapwright
