#include "heapwright/linear_program/linear_program.hpp"

#include <coin/ClpSimplex.hpp>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace heapwright {
namespace {

using Vector = std::vector<double>;
using Terms = LinearProgram::Terms;

// What the solver aims at, and what its answers are held to.
constexpr double solver_tolerance = 1e-10;
constexpr double checked_tolerance = 1e-8;

struct Bounds {
  Vector low;
  Vector high;
};

/// The programme as plain numbers. Zeros are kept too: these programmes are small.
struct Programme {
  Bounds variables;
  Bounds rows;
  std::vector<Vector> columns;  // columns[variable][row]
};

void require(bool sound, const char* message) {
  if (!sound) throw std::invalid_argument(message);
}

void require_bounds(double low, double high) {
  // Comparisons that nan fails.
  const bool sound = low < LinearProgram::unlimited && high > -LinearProgram::unlimited;
  require(sound, "a bound is not a number, or unlimited on the wrong side");
}

void add(Bounds& bounds, double low, double high) {
  require_bounds(low, high);
  bounds.low.push_back(low);
  bounds.high.push_back(high);
}

void set(Bounds& bounds, std::size_t index, double low, double high) {
  require_bounds(low, high);
  bounds.low.at(index) = low;
  bounds.high.at(index) = high;
}

Vector one_for_each_variable(const Programme& programme, const Terms& terms) {
  Vector sums(programme.columns.size());
  for (const auto& [variable, coefficient] : terms) {
    require(std::isfinite(coefficient), "a coefficient is not finite");
    sums.at(variable.index) += coefficient;
  }
  return sums;
}

// ---- The check of an answer ----

struct Sum {
  double value = 0;
  double size = 1;  // of its terms, as far as above one: what rounding is relative to

  void add(double term) {
    value += term;
    size += std::abs(term);
  }
};

Sum sum(const Vector& coefficients, const Vector& values) {
  Sum sum;
  for (std::size_t i = 0; i < values.size(); ++i) sum.add(coefficients[i] * values[i]);
  return sum;
}

Sum sum_of_row(const Programme& programme, std::size_t row, const Vector& values) {
  Sum sum;
  for (std::size_t i = 0; i < values.size(); ++i) sum.add(programme.columns[i][row] * values[i]);
  return sum;
}

bool meets(double value, double low, double high, double slack) { return value >= low - slack && value <= high + slack; }

bool meets_rows(const Programme& programme, const Vector& values) {
  for (std::size_t row = 0; row < programme.rows.low.size(); ++row) {
    const Sum sum = sum_of_row(programme, row, values);
    if (!meets(sum.value, programme.rows.low[row], programme.rows.high[row], checked_tolerance * sum.size)) return false;
  }
  return true;
}

/// What could be gained at most by moving a value to the end that its rate favors.
double gain_left(double rate, double value, double low, double high) {
  if (std::abs(rate) <= solver_tolerance) return 0;
  return std::abs(rate * (rate > 0 ? value - low : high - value));
}

/// By how much the cost of these values may at most exceed the least cost: weak duality, with the rows' prices.
double gain_left(const Programme& programme, const Vector& cost, const Vector& values, const Vector& prices) {
  double gain = 0;
  for (std::size_t row = 0; row < prices.size(); ++row) {
    gain += gain_left(prices[row], sum_of_row(programme, row, values).value, programme.rows.low[row], programme.rows.high[row]);
  }
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double rate = cost[i] - sum(programme.columns[i], prices).value;
    gain += gain_left(rate, values[i], programme.variables.low[i], programme.variables.high[i]);
  }
  return gain;
}

struct Answer {
  LinearProgram::Solution solution;
  double gain_left;  // relative to the size of the cost
};

/// The answer that the solver gives, if its rows hold.
std::optional<Answer> checked(const Programme& programme, const Vector& cost, Vector values, const Vector& prices) {
  const Bounds& bounds = programme.variables;
  for (std::size_t i = 0; i < values.size(); ++i) values[i] = std::max(bounds.low[i], std::min(values[i], bounds.high[i]));
  if (!meets_rows(programme, values)) return std::nullopt;
  const Sum optimum = sum(cost, values);
  const double left = gain_left(programme, cost, values, prices) / optimum.size;
  return Answer{{optimum.value, std::move(values)}, left};
}

std::optional<Answer> better(std::optional<Answer> one, std::optional<Answer> other) {
  const bool other_is_better = other && (!one || other->gain_left < one->gain_left);
  return other_is_better ? std::move(other) : std::move(one);
}

// ---- The side of CLP ----

enum class Verdict { solved, infeasible, unbounded, unclear };

enum class Start { from_last_answer, from_scratch };

/// One way to go about a programme.
struct Attempt {
  Start start;
  int (ClpSimplex::*method)(int, int);
  int scaling;  // in CLP's numbers: 0 none, 2 geometric
};

// The first is the fast one. The others are for the rare programme on which it stalls or errs. Dual alone is not to be
// trusted with "infeasible": it can err where variables have no bounds. Nor is primal alone, which often gives up where
// little is missing.
constexpr Attempt attempts[] = {
    {Start::from_last_answer, &ClpSimplex::dual, 0},
    {Start::from_scratch, &ClpSimplex::primal, 0},
    {Start::from_scratch, &ClpSimplex::dual, 2},
    {Start::from_scratch, &ClpSimplex::primal, 2},
};

// Far beyond what some tens of rows take: only a solver that goes round in circles gets here.
constexpr int most_iterations = 10000;
constexpr double most_seconds = 2;  // of the processor

// CLP's number for a little shaking of the costs where progress is slow, which keeps it from circling.
constexpr int perturb_where_needed = 50;

// Otherwise CLP frees and asks for so much memory at each solve that it is most of the time of a small one.
constexpr int keep_work_areas = 1;

class Clp {
 public:
  Clp() { start_afresh(); }

  Verdict attempt(const Attempt& how, const Programme& programme, const Vector& cost) {
    if (how.start == Start::from_scratch) start_afresh();
    load(programme, cost);
    clp_->scaling(how.scaling);
    clp_->setMaximumSeconds(most_seconds);
    try {
      (*clp_.*how.method)(0, keep_work_areas);
    } catch (const CoinError&) {
      return Verdict::unclear;
    }
    return verdict();
  }

  Vector values() const { return {clp_->primalColumnSolution(), clp_->primalColumnSolution() + clp_->numberColumns()}; }
  Vector prices() const { return {clp_->dualRowSolution(), clp_->dualRowSolution() + clp_->numberRows()}; }

 private:
  // A new object, as nothing of an attempt that went wrong should live on in the next.
  void start_afresh() {
    clp_.emplace();
    clp_->setLogLevel(0);
    clp_->setPrimalTolerance(solver_tolerance);
    clp_->setDualTolerance(solver_tolerance);
    clp_->setMaximumIterations(most_iterations);
    clp_->setPerturbation(perturb_where_needed);
  }

  // All of it each time, whatever has changed: that takes a microsecond or two, and a solve many more.
  void load(const Programme& programme, const Vector& cost) {
    std::vector<CoinBigIndex> starts = {0};
    std::vector<int> rows;
    Vector coefficients;
    for (const Vector& column : programme.columns) {
      for (std::size_t row = 0; row < column.size(); ++row) {
        if (column[row] == 0) continue;
        rows.push_back(static_cast<int>(row));
        coefficients.push_back(column[row]);
      }
      starts.push_back(static_cast<CoinBigIndex>(rows.size()));
    }
    const Basis last = basis();
    const auto& [variable_bounds, row_bounds, columns] = programme;
    clp_->loadProblem(static_cast<int>(columns.size()), static_cast<int>(row_bounds.low.size()),  //
                      starts.data(), rows.data(), coefficients.data(),                            //
                      variable_bounds.low.data(), variable_bounds.high.data(), cost.data(),       //
                      row_bounds.low.data(), row_bounds.high.data());
    restore(last);
  }

  struct Basis {
    std::vector<ClpSimplex::Status> variables;
    std::vector<ClpSimplex::Status> rows;
  };

  Basis basis() const {
    Basis basis;
    for (int i = 0; i < clp_->numberColumns(); ++i) basis.variables.push_back(clp_->getColumnStatus(i));
    for (int i = 0; i < clp_->numberRows(); ++i) basis.rows.push_back(clp_->getRowStatus(i));
    return basis;
  }

  // Variables and rows added since keep what CLP gives new ones: not in the basis, and in it.
  void restore(const Basis& basis) {
    for (std::size_t i = 0; i < basis.variables.size(); ++i) clp_->setColumnStatus(static_cast<int>(i), basis.variables[i]);
    for (std::size_t i = 0; i < basis.rows.size(); ++i) clp_->setRowStatus(static_cast<int>(i), basis.rows[i]);
  }

  Verdict verdict() const {
    if (clp_->isProvenOptimal()) return Verdict::solved;
    if (clp_->isProvenPrimalInfeasible()) return Verdict::infeasible;
    if (clp_->isProvenDualInfeasible()) return Verdict::unbounded;
    return Verdict::unclear;
  }

  std::optional<ClpSimplex> clp_;
};

}  // namespace

struct LinearProgram::Model {
  Programme programme;
  Clp clp;
};

LinearProgram::LinearProgram() : model_(std::make_unique<Model>()) {}
LinearProgram::LinearProgram(const LinearProgram& other) : model_(std::make_unique<Model>(*other.model_)) {}
LinearProgram::LinearProgram(LinearProgram&&) noexcept = default;
LinearProgram::~LinearProgram() = default;

LinearProgram& LinearProgram::operator=(LinearProgram other) noexcept {
  std::swap(model_, other.model_);
  return *this;
}

LinearProgram::Variable LinearProgram::add_variable(double low, double high) {
  Programme& programme = model_->programme;
  add(programme.variables, low, high);
  programme.columns.emplace_back(programme.rows.low.size());
  return {programme.columns.size() - 1};
}

LinearProgram::Row LinearProgram::add_row(const Terms& terms, double low, double high) {
  Programme& programme = model_->programme;
  const Vector coefficients = one_for_each_variable(programme, terms);
  add(programme.rows, low, high);
  for (std::size_t i = 0; i < coefficients.size(); ++i) programme.columns[i].push_back(coefficients[i]);
  return {programme.rows.low.size() - 1};
}

void LinearProgram::set_bounds(Variable variable, double low, double high) { set(model_->programme.variables, variable.index, low, high); }

void LinearProgram::set_bounds(Row row, double low, double high) { set(model_->programme.rows, row.index, low, high); }

void LinearProgram::set_terms(Row row, const Terms& terms) {
  Programme& programme = model_->programme;
  const Vector coefficients = one_for_each_variable(programme, terms);
  for (std::size_t i = 0; i < coefficients.size(); ++i) programme.columns[i].at(row.index) = coefficients[i];
}

std::optional<LinearProgram::Solution> LinearProgram::minimise(const Terms& terms) {
  auto& [programme, clp] = *model_;
  const Vector cost = one_for_each_variable(programme, terms);
  std::optional<Answer> best;
  int infeasible = 0;
  bool endless = false;
  for (const Attempt& attempt : attempts) {
    const Verdict verdict = clp.attempt(attempt, programme, cost);
    if (verdict == Verdict::solved) best = better(std::move(best), checked(programme, cost, clp.values(), clp.prices()));
    if (best && best->gain_left <= checked_tolerance) return std::move(best->solution);
    if (verdict == Verdict::infeasible) ++infeasible;
    if (verdict == Verdict::unbounded) endless = true;
    // That there is no answer cannot be checked as an answer can: it takes two attempts to say so, and none against.
    if (infeasible == 2 && !endless && !best) return std::nullopt;
  }
  if (best && !endless) return std::move(best->solution);
  // CLP calls some programmes without values endless or worse, but not where nothing is to be gained.
  if (!terms.empty() && !minimise({})) return std::nullopt;
  throw SolverFailure(endless ? "a linear programme whose cost falls without end" : "a linear programme that no method solves");
}

std::optional<LinearProgram::Solution> LinearProgram::maximise(const Terms& gain) {
  Terms cost = gain;
  for (Term& term : cost) term.coefficient = -term.coefficient;
  auto solution = minimise(cost);
  if (solution) solution->optimum = 0 - solution->optimum;  // never -0
  return solution;
}

}  // namespace heapwright
