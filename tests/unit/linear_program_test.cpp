#include "heapwright/linear_program/linear_program.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <limits>
#include <numeric>
#include <random>
#include <stdexcept>
#include <unistd.h>
#include <utility>
#include <vector>

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using heapwright::LinearProgram;
using heapwright::SolverFailure;

using Row = LinearProgram::Row;
using Solution = LinearProgram::Solution;
using Term = LinearProgram::Term;
using Terms = LinearProgram::Terms;
using Variable = LinearProgram::Variable;

namespace {

constexpr double unlimited = LinearProgram::unlimited;
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();
constexpr double tolerance = 1e-9;

/// The same numbers with every library, unlike std::uniform_real_distribution.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : bits_(seed) {}
  double between(double low, double high) { return low + (high - low) * static_cast<double>(bits_() >> 11U) * 0x1p-53; }
  std::size_t below(std::size_t count) { return static_cast<std::size_t>(bits_() % count); }

 private:
  std::mt19937_64 bits_;
};

std::vector<Variable> add_variables(LinearProgram& programme, std::size_t count, double low, double high) {
  std::vector<Variable> variables;
  for (std::size_t i = 0; i < count; ++i) variables.push_back(programme.add_variable(low, high));
  return variables;
}

Terms terms(const std::vector<Variable>& variables, const std::vector<double>& coefficients) {
  Terms terms;
  for (std::size_t i = 0; i < coefficients.size(); ++i) terms.push_back({variables[i], coefficients[i]});
  return terms;
}

double sum(const Terms& terms, const Solution& solution) {
  double sum = 0;
  for (const Term& term : terms) sum += term.coefficient * solution.value(term.variable);
  return sum;
}

}  // namespace

TEST_CASE("a textbook programme has the optimum of the textbook", "[linear_program]") {
  // The glass works of Hillier and Lieberman, as remembered: 36 at (2, 6).
  LinearProgram programme;
  const auto x = programme.add_variable(0, unlimited);
  const auto y = programme.add_variable(0, unlimited);
  programme.add_row({{x, 1}}, -unlimited, 4);
  programme.add_row({{y, 2}}, -unlimited, 12);
  programme.add_row({{x, 3}, {y, 2}}, -unlimited, 18);

  const auto most = programme.maximise({{x, 3}, {y, 5}});
  REQUIRE(most);
  CHECK_THAT(most->optimum, WithinAbs(36, tolerance));
  CHECK_THAT(most->value(x), WithinAbs(2, tolerance));
  CHECK_THAT(most->value(y), WithinAbs(6, tolerance));

  const auto least = programme.minimise({{x, -3}, {y, -5}});
  REQUIRE(least);
  CHECK_THAT(least->optimum, WithinAbs(-36, tolerance));
}

TEST_CASE("bounds alone decide where there are no rows", "[linear_program]") {
  LinearProgram programme;
  CHECK(programme.minimise({})->optimum == 0);
  const auto x = programme.add_variable(-2, 3);
  const auto y = programme.add_variable(1, unlimited);
  const auto solution = programme.minimise({{x, -1}, {y, 2}});
  REQUIRE(solution);
  CHECK(solution->value(x) == 3);
  CHECK(solution->value(y) == 1);
  CHECK(solution->optimum == -1);
}

TEST_CASE("a row without terms is zero", "[linear_program]") {
  LinearProgram programme;
  const Row row = programme.add_row({}, 0, 1);
  CHECK(programme.minimise({}));
  const auto x = programme.add_variable(0, 1);
  CHECK(programme.minimise({{x, 1}}));
  programme.set_bounds(row, 0.5, 1);
  CHECK_FALSE(programme.minimise({{x, 1}}));
  programme.set_bounds(x, 0, unlimited);
  CHECK_FALSE(programme.maximise({{x, 1}}));
}

TEST_CASE("nothing where no values meet the rows", "[linear_program]") {
  LinearProgram programme;
  const auto x = programme.add_variable(0, 1);
  const auto y = programme.add_variable(0, 1);
  const Row both = programme.add_row({{x, 1}, {y, 1}}, 3, unlimited);
  CHECK_FALSE(programme.minimise({{x, 1}}));
  CHECK_FALSE(programme.maximise({{x, 1}}));
  CHECK_FALSE(programme.minimise({}));

  SECTION("and something again once they can be met") {
    programme.set_bounds(both, 2, unlimited);
    REQUIRE(programme.minimise({{x, 1}}));
    CHECK_THAT(programme.minimise({{x, 1}})->optimum, WithinAbs(1, tolerance));
  }
  SECTION("even by a little") {
    programme.set_bounds(both, 2 + 1e-7, unlimited);
    CHECK_FALSE(programme.minimise({{x, 1}}));
  }
}

TEST_CASE("nothing where a low bound is above the high one, beyond rounding", "[linear_program]") {
  LinearProgram programme;
  const auto x = programme.add_variable(0, 1);
  const Row row = programme.add_row({{x, 1}}, 0.5, 0.5 - 1e-12);
  REQUIRE(programme.minimise({{x, 1}}));
  CHECK_THAT(programme.minimise({{x, 1}})->optimum, WithinAbs(0.5, tolerance));
  programme.set_bounds(row, 0.5, 0.4);
  CHECK_FALSE(programme.minimise({{x, 1}}));
  programme.set_bounds(row, 0, 1);
  programme.set_bounds(x, 1, 0);
  CHECK_FALSE(programme.minimise({{x, 1}}));
}

TEST_CASE("a cost that falls for ever is a failure", "[linear_program]") {
  LinearProgram programme;
  const auto x = programme.add_variable(0, unlimited);
  const auto y = programme.add_variable(-unlimited, unlimited);
  CHECK_THROWS_AS(programme.maximise({{x, 1}}), SolverFailure);
  programme.add_row({{x, 1}, {y, -1}}, 0, 0);
  CHECK_THROWS_AS(programme.minimise({{y, -1}}), SolverFailure);
  CHECK_THAT(programme.minimise({{y, 1}})->optimum, WithinAbs(0, tolerance));

  SECTION("also with rows of which it is no part") {
    const auto z = programme.add_variable(0, unlimited);
    for (const double weight : {0.3, 0.6}) programme.add_row({{x, weight}, {y, 0.1}}, -unlimited, 1);
    CHECK_THROWS_AS(programme.maximise({{z, 1}}), SolverFailure);
    programme.set_bounds(y, 20, 30);
    CHECK_FALSE(programme.maximise({{z, 1}}));
  }
}

TEST_CASE("equality rows hold", "[linear_program]") {
  LinearProgram programme;
  const auto v = add_variables(programme, 3, -unlimited, unlimited);
  programme.add_row(terms(v, {1, 1, 1}), 6, 6);
  programme.add_row(terms(v, {1, -1, 2}), 5, 5);
  programme.add_row(terms(v, {2, 1, -1}), 1, 1);  // x = 1, y = 2, z = 3
  const auto solution = programme.minimise({});
  REQUIRE(solution);
  CHECK_THAT(solution->value(v[0]), WithinAbs(1, tolerance));
  CHECK_THAT(solution->value(v[1]), WithinAbs(2, tolerance));
  CHECK_THAT(solution->value(v[2]), WithinAbs(3, tolerance));
}

TEST_CASE("terms of the same variable add up, and new terms replace the old ones", "[linear_program]") {
  LinearProgram programme;
  const auto x = programme.add_variable(0, unlimited);
  const auto y = programme.add_variable(0, unlimited);
  const Row row = programme.add_row({{x, 1}, {y, 1}, {x, 3}}, -unlimited, 8);
  CHECK_THAT(programme.maximise({{x, 0.5}, {x, 0.5}})->optimum, WithinAbs(2, tolerance));
  programme.set_terms(row, {{x, 2}, {y, 2}});
  CHECK_THAT(programme.maximise({{x, 1}})->optimum, WithinAbs(4, tolerance));
  programme.set_terms(row, {{y, 2}});
  programme.set_bounds(x, 0, 7);
  CHECK_THAT(programme.maximise({{x, 1}})->optimum, WithinAbs(7, tolerance));
}

TEST_CASE("Beale's programme does not cycle", "[linear_program]") {
  // E. M. L. Beale 1955, as remembered; the simplex method with the textbook's rules goes round in six steps.
  LinearProgram programme;
  const auto v = add_variables(programme, 4, 0, unlimited);
  programme.add_row(terms(v, {0.25, -8, -1, 9}), -unlimited, 0);
  programme.add_row(terms(v, {0.5, -12, -0.5, 3}), -unlimited, 0);
  programme.add_row(terms(v, {0, 0, 1, 0}), -unlimited, 1);
  const auto solution = programme.minimise(terms(v, {-0.75, 20, -0.5, 6}));
  REQUIRE(solution);
  CHECK_THAT(solution->optimum, WithinAbs(-1.25, tolerance));
}

TEST_CASE("Kuhn's programme does not cycle", "[linear_program]") {
  // H. W. Kuhn, as remembered.
  LinearProgram programme;
  const auto v = add_variables(programme, 4, 0, unlimited);
  programme.add_row(terms(v, {-2, -9, 1, 9}), -unlimited, 0);
  programme.add_row(terms(v, {1.0 / 3, 1, -1.0 / 3, -2}), -unlimited, 0);
  programme.add_row(terms(v, {2, 3, -1, -12}), -unlimited, 2);
  const auto solution = programme.minimise(terms(v, {-2, -3, 1, 12}));
  REQUIRE(solution);
  CHECK_THAT(solution->optimum, WithinAbs(-2, tolerance));
}

TEST_CASE("the cube of Klee and Minty has its optimum at the last corner", "[linear_program]") {
  constexpr int dimension = 8;
  LinearProgram programme;
  const auto v = add_variables(programme, dimension, 0, unlimited);
  Terms gain;
  for (int i = 0; i < dimension; ++i) {
    Terms row = {{v[static_cast<std::size_t>(i)], 1}};
    for (int j = 0; j < i; ++j) row.push_back({v[static_cast<std::size_t>(j)], std::exp2(i - j + 1)});
    programme.add_row(row, -unlimited, std::pow(5, i + 1));
    gain.push_back({v[static_cast<std::size_t>(i)], std::exp2(dimension - 1 - i)});
  }
  const auto solution = programme.maximise(gain);
  REQUIRE(solution);
  CHECK_THAT(solution->optimum, WithinRel(std::pow(5, dimension), 1e-12));
}

TEST_CASE("an assignment, degenerate at every corner, is the best of all permutations", "[linear_program]") {
  constexpr std::size_t size = 5;
  Dice dice(1);
  for (int round = 0; round < 20; ++round) {
    LinearProgram programme;
    const auto v = add_variables(programme, size * size, 0, unlimited);
    std::vector<double> costs;
    for (std::size_t i = 0; i < size * size; ++i) costs.push_back(static_cast<double>(dice.below(10)));
    for (std::size_t i = 0; i < size; ++i) {
      Terms across;
      Terms down;
      for (std::size_t j = 0; j < size; ++j) {
        across.push_back({v[i * size + j], 1});
        down.push_back({v[j * size + i], 1});
      }
      programme.add_row(across, 1, 1);
      programme.add_row(down, 1, 1);
    }
    std::array<std::size_t, size> permutation{};
    std::iota(permutation.begin(), permutation.end(), 0U);
    double best = unlimited;
    do {
      double cost = 0;
      for (std::size_t i = 0; i < size; ++i) cost += costs[i * size + permutation[i]];
      best = std::min(best, cost);
    } while (std::next_permutation(permutation.begin(), permutation.end()));
    const auto solution = programme.minimise(terms(v, costs));
    REQUIRE(solution);
    CHECK_THAT(solution->optimum, WithinAbs(best, tolerance));
  }
}

TEST_CASE("many copies of the same rows and columns change nothing", "[linear_program]") {
  LinearProgram programme;
  Terms row;
  Terms sum_of_all;
  Terms gain;
  for (int copy = 0; copy < 10; ++copy) {
    const auto x = programme.add_variable(0, unlimited);
    const auto y = programme.add_variable(0, unlimited);
    row.insert(row.end(), {{x, 1}, {y, 3}});
    sum_of_all.insert(sum_of_all.end(), {{x, 1}, {y, 1}});
    gain.insert(gain.end(), {{x, 2}, {y, 5}});
  }
  for (int copy = 0; copy < 20; ++copy) {
    programme.add_row(row, -unlimited, 6);
    programme.add_row(sum_of_all, 4, 4);
    programme.add_row(row, 1, 6);
  }
  const auto solution = programme.maximise(gain);  // x = 3, y = 1
  REQUIRE(solution);
  CHECK_THAT(solution->optimum, WithinAbs(11, tolerance));
}

TEST_CASE("rows that leave a billionth are met", "[linear_program]") {
  constexpr double width = 1e-9;
  Dice dice(2);
  for (int round = 0; round < 100; ++round) {
    LinearProgram programme;
    const std::size_t count = 2 + dice.below(10);
    const auto v = add_variables(programme, count, 0, unlimited);
    std::vector<double> point;
    for (std::size_t i = 0; i < count; ++i) point.push_back(dice.between(0, 1));
    Terms cost;
    for (const Variable variable : v) cost.push_back({variable, dice.between(-1, 1)});
    for (std::size_t i = 0; i < 3 * count; ++i) {
      std::vector<double> coefficients;
      for (std::size_t j = 0; j < count; ++j) coefficients.push_back(dice.between(-1, 1));
      const double middle = std::inner_product(point.begin(), point.end(), coefficients.begin(), 0.0);
      programme.add_row(terms(v, coefficients), middle - width, middle + width);
    }
    const auto solution = programme.minimise(cost);
    REQUIRE(solution);
    CHECK_THAT(solution->optimum, WithinAbs(sum(cost, {0, point}), 1e-6));
  }
}

TEST_CASE("an optimum can be kept with a slack of a billionth while the next is sought", "[linear_program]") {
  constexpr double slack = 1e-9;
  Dice dice(3);
  for (int round = 0; round < 200; ++round) {
    LinearProgram programme;
    const auto v = add_variables(programme, 8, 0, 1);
    programme.add_row(terms(v, std::vector<double>(8, 1)), 1, 1);
    std::vector<std::pair<Terms, double>> kept;
    for (int stage = 0; stage < 8; ++stage) {
      Terms cost;
      for (const Variable variable : v) cost.push_back({variable, std::floor(dice.between(-2, 3))});  // many ties
      const auto solution = programme.minimise(cost);
      REQUIRE(solution);
      for (const auto& [earlier, most] : kept) CHECK(sum(earlier, *solution) <= most + tolerance);
      kept.emplace_back(cost, solution->optimum + slack);
      programme.add_row(cost, -unlimited, solution->optimum + slack);
    }
  }
}

TEST_CASE("halving finds the edge of what can be met", "[linear_program]") {
  // The last steps ask for programmes that are met or missed by less than any tolerance: either answer will do,
  // but there must be one.
  Dice dice(4);
  for (int round = 0; round < 100; ++round) {
    LinearProgram programme;
    const auto v = add_variables(programme, 6, 0, unlimited);
    Terms all;
    Terms weighted;
    double greatest = 0;
    for (const Variable variable : v) {
      all.push_back({variable, 1});
      weighted.push_back({variable, dice.between(0.1, 1)});
      greatest = std::max(greatest, weighted.back().coefficient);
    }
    programme.add_row(all, 1, 1);
    const Row row = programme.add_row(weighted, 0, unlimited);
    double met = 0;
    double missed = 2;
    while (missed - met > 1e-14) {
      const double middle = 0.5 * (met + missed);
      Terms shifted = weighted;  // Σ (weight - middle)·x ≥ 0: the parameter is in the coefficients
      for (Term& term : shifted) term.coefficient -= middle;
      programme.set_terms(row, shifted);
      (programme.minimise({{v[0], 1}}) ? met : missed) = middle;
    }
    CHECK_THAT(met, WithinAbs(greatest, 1e-9));
  }
}

TEST_CASE("coefficients may spread over six powers of ten", "[linear_program]") {
  // The fullest sack, which takes the most valuable by weight first.
  Dice dice(5);
  for (int round = 0; round < 200; ++round) {
    LinearProgram programme;
    const auto v = add_variables(programme, 12, 0, 1);
    std::vector<std::pair<double, double>> value_and_weight;
    Terms gain;
    Terms weight;
    double capacity = 0;
    for (const Variable variable : v) {
      const double w = std::pow(10, dice.between(-3, 3));
      const double value = w * dice.between(0.5, 2);
      value_and_weight.emplace_back(value / w, w);
      gain.push_back({variable, value});
      weight.push_back({variable, w});
      capacity += 0.4 * w;
    }
    std::sort(value_and_weight.rbegin(), value_and_weight.rend());
    double best = 0;
    double left = capacity;
    for (const auto& [value, w] : value_and_weight) {
      best += value * std::min(w, left);
      left -= std::min(w, left);
    }
    programme.add_row(weight, -unlimited, capacity);
    const auto solution = programme.maximise(gain);
    REQUIRE(solution);
    CHECK_THAT(solution->optimum, WithinRel(best, 1e-12));
  }
}

TEST_CASE("an answer of the solver that does not hold up is not given", "[linear_program]") {
  // Small programmes with but one choice, which the solver leaves by using up its tolerances.
  constexpr double promised = 1e-8;
  LinearProgram programme;
  SECTION("a cost too low for its prices") {
    const auto x = programme.add_variable(0, 1);
    const auto y = programme.add_variable(0, unlimited);
    programme.add_row({{x, 0.0012}, {y, -310}}, -unlimited, 0);
    programme.add_row({{x, -8.5}, {y, 320}}, -unlimited, 0);
    programme.add_row({{y, -1.1}}, 0, unlimited);  // so y = 0, and with it x
    CHECK_THAT(programme.minimise({{x, -0.98}, {y, -0.096}})->optimum, WithinAbs(0, promised));
  }
  SECTION("likewise, with three variables") {
    const auto x = programme.add_variable(0, unlimited);
    const auto y = programme.add_variable(0, unlimited);
    const auto z = programme.add_variable(0, 1);
    programme.add_row({{z, -0.5}}, -unlimited, 0);
    programme.add_row({{x, -4.9}, {y, -0.051}, {z, 140}}, 0, unlimited);
    programme.add_row({{x, -89}, {z, -0.042}}, 0, unlimited);  // so x = z = 0, and with them y
    CHECK_THAT(programme.minimise({{x, -0.92}, {y, -0.45}, {z, -0.14}})->optimum, WithinAbs(0, promised));
  }
  SECTION("a row missed") {
    const double most = 0.85930777748525811;
    const auto x = programme.add_variable(0, 1);
    const auto y = programme.add_variable(0, 1);
    const auto z = programme.add_variable(0, 1);
    programme.add_row({{x, 0.0023}, {y, -950}, {z, 420}}, 0, unlimited);
    programme.add_row({{y, -0.0069}, {z, -300}}, 0, 0);  // so y = z = 0
    programme.add_row({{x, 0.89}, {y, -0.0015}}, -unlimited, most);
    programme.add_row({{y, -200}}, -unlimited, 0);
    CHECK_THAT(programme.minimise({{x, -0.21}, {y, -0.74}, {z, -0.55}})->optimum, WithinAbs(-0.21 * most / 0.89, promised));
  }
  SECTION("nothing, where zeros meet all rows") {
    const auto x = programme.add_variable(0, unlimited);
    const auto y = programme.add_variable(-unlimited, 1);
    programme.add_row({{y, 0.033}}, 0, unlimited);
    programme.add_row({{x, -0.0039}, {y, -650}}, 0, unlimited);
    REQUIRE(programme.minimise({{x, -0.097}, {y, -0.35}}));
    CHECK_THAT(programme.minimise({{x, -0.097}, {y, -0.35}})->optimum, WithinAbs(0, promised));
  }
}

namespace {

struct HalfPlane {
  double a, b, most;  // a·x + b·y ≤ most
};

/// The least cost over all crossings of two borders that lie in all half-planes, or `unlimited`.
double least_by_corners(const std::vector<HalfPlane>& planes, double cost_x, double cost_y) {
  double least = unlimited;
  for (const HalfPlane& p : planes) {
    for (const HalfPlane& q : planes) {
      const double determinant = p.a * q.b - q.a * p.b;
      if (determinant == 0) continue;
      const double x = (p.most * q.b - q.most * p.b) / determinant;
      const double y = (p.a * q.most - q.a * p.most) / determinant;
      const bool inside =
          std::all_of(planes.begin(), planes.end(), [&](const HalfPlane& r) { return r.a * x + r.b * y <= r.most + tolerance; });
      if (inside) least = std::min(least, cost_x * x + cost_y * y);
    }
  }
  return least;
}

}  // namespace

TEST_CASE("in the plane the optimum is the best corner", "[linear_program]") {
  Dice dice(6);
  std::size_t met = 0;
  constexpr std::size_t rounds = 2000;
  for (std::size_t round = 0; round < rounds; ++round) {
    std::vector<HalfPlane> planes = {{-1, 0, 0}, {1, 0, 2}, {0, -1, 0}, {0, 1, 2}};
    LinearProgram programme;
    const auto v = add_variables(programme, 2, 0, 2);
    for (std::size_t i = 0; i < 1 + round % 6; ++i) {
      // Small whole numbers, so that borders run together and through corners.
      const HalfPlane plane = {std::floor(dice.between(-3, 4)), std::floor(dice.between(-3, 4)), std::floor(dice.between(-2, 4))};
      programme.add_row(terms(v, {plane.a, plane.b}), -unlimited, plane.most);
      planes.push_back(plane);
    }
    const double cost_x = std::floor(dice.between(-3, 4));
    const double cost_y = std::floor(dice.between(-3, 4));
    const double least = least_by_corners(planes, cost_x, cost_y);
    const auto solution = programme.minimise(terms(v, {cost_x, cost_y}));
    REQUIRE(solution.has_value() == std::isfinite(least));
    if (!solution) continue;
    ++met;
    CHECK_THAT(solution->optimum, WithinAbs(least, tolerance));
  }
  CHECK(met > rounds / 4);
  CHECK(met < rounds);
}

namespace {

/// A programme kept as numbers too, so that it can be built anew at any time.
struct Notes {
  std::vector<std::vector<double>> rows;
  std::vector<double> most;
  std::vector<double> costs;
  double high = unlimited;

  LinearProgram build() const {
    LinearProgram programme;
    const auto v = add_variables(programme, costs.size(), 0, high);
    programme.add_row(terms(v, std::vector<double>(costs.size(), 1)), 1, 1);
    for (std::size_t i = 0; i < rows.size(); ++i) programme.add_row(terms(v, rows[i]), -unlimited, most[i]);
    return programme;
  }

  Terms cost() const {
    Terms terms;
    for (std::size_t i = 0; i < costs.size(); ++i) terms.push_back({{i}, costs[i]});
    return terms;
  }
};

Notes random_notes(Dice& dice) {
  Notes notes;
  notes.costs.resize(2 + dice.below(14));
  for (double& cost : notes.costs) cost = dice.between(0, 1);
  notes.rows.resize(2 + dice.below(20), std::vector<double>(notes.costs.size()));
  for (auto& row : notes.rows) {
    for (double& coefficient : row) coefficient = dice.below(3) == 0 ? 0 : dice.between(-1, 1);
    notes.most.push_back(dice.between(-0.1, 0.3));
  }
  return notes;
}

/// One change, in the notes and in the programme.
void change(Notes& notes, LinearProgram& programme, Dice& dice) {
  const std::size_t row = dice.below(notes.rows.size());
  const Row handle = {row + 1};
  switch (dice.below(5)) {
    case 0: notes.costs[dice.below(notes.costs.size())] = dice.between(-1, 1); break;
    case 1:
      notes.most[row] = dice.between(-0.1, 0.3);
      programme.set_bounds(handle, -unlimited, notes.most[row]);
      break;
    case 2:
      notes.high = dice.between(0.2, 1.5);
      for (std::size_t i = 0; i < notes.costs.size(); ++i) programme.set_bounds(Variable{i}, 0, notes.high);
      break;
    default: {
      for (double& coefficient : notes.rows[row]) coefficient = dice.below(3) == 0 ? 0 : dice.between(-1, 1);
      Terms terms;
      for (std::size_t i = 0; i < notes.costs.size(); ++i) terms.push_back({{i}, notes.rows[row][i]});
      programme.set_terms(handle, terms);
    }
  }
}

}  // namespace

TEST_CASE("a programme changed and asked again answers as one built anew", "[linear_program]") {
  Dice dice(7);
  int met = 0;
  int missed = 0;
  for (int round = 0; round < 100; ++round) {
    Notes notes = random_notes(dice);
    LinearProgram programme = notes.build();
    for (int step = 0; step < 50; ++step) {
      change(notes, programme, dice);
      const auto again = programme.minimise(notes.cost());
      const auto anew = notes.build().minimise(notes.cost());
      REQUIRE(again.has_value() == anew.has_value());
      ++(again ? met : missed);
      if (again) CHECK_THAT(again->optimum, WithinAbs(anew->optimum, tolerance));
    }
  }
  CHECK(met > 1000);
  CHECK(missed > 1000);
}

TEST_CASE("variables and rows may be added between answers", "[linear_program]") {
  LinearProgram programme;
  Terms all;
  double least = unlimited;
  Dice dice(8);
  const Row whole = programme.add_row({}, 1, 1);
  Terms cost;
  for (int i = 0; i < 25; ++i) {
    const auto x = programme.add_variable(0, unlimited);
    all.push_back({x, 1});
    cost.push_back({x, dice.between(1, 2)});
    least = std::min(least, cost.back().coefficient);
    programme.set_terms(whole, all);
    programme.add_row({{x, 1}}, -1, unlimited);
    const auto solution = programme.minimise(cost);
    REQUIRE(solution);
    CHECK_THAT(solution->optimum, WithinAbs(least, tolerance));
  }
}

TEST_CASE("values never lie outside their bounds", "[linear_program]") {
  Dice dice(9);
  for (int round = 0; round < 300; ++round) {
    Notes notes = random_notes(dice);
    notes.high = 1.0 / 3;
    const auto solution = notes.build().minimise(notes.cost());
    if (!solution) continue;
    for (const double value : solution->values) {
      CHECK(value >= 0);
      CHECK(value <= notes.high);
    }
  }
}

TEST_CASE("a copy goes its own way", "[linear_program]") {
  LinearProgram programme;
  const auto x = programme.add_variable(0, 5);
  const Row row = programme.add_row({{x, 1}}, 1, 4);
  CHECK_THAT(programme.minimise({{x, 1}})->optimum, WithinAbs(1, tolerance));

  LinearProgram copy = programme;
  copy.set_bounds(row, 2, 4);
  copy.add_row({{x, 2}}, 6, unlimited);
  CHECK_THAT(copy.minimise({{x, 1}})->optimum, WithinAbs(3, tolerance));
  CHECK_THAT(programme.minimise({{x, 1}})->optimum, WithinAbs(1, tolerance));

  programme = copy;
  CHECK_THAT(programme.minimise({{x, 1}})->optimum, WithinAbs(3, tolerance));
  const LinearProgram kept = std::move(copy);
  copy = kept;
  CHECK_THAT(copy.minimise({{x, 1}})->optimum, WithinAbs(3, tolerance));
}

TEST_CASE("the same calls give the same answers to the last bit", "[linear_program]") {
  const auto answers = [] {
    Dice dice(12);
    Notes notes = random_notes(dice);
    LinearProgram programme = notes.build();
    std::vector<double> values;
    for (int step = 0; step < 200; ++step) {
      change(notes, programme, dice);
      const auto solution = programme.minimise(notes.cost());
      if (solution) values.insert(values.end(), solution->values.begin(), solution->values.end());
    }
    return values;
  };
  const std::vector<double> first = answers();
  CHECK(first.size() > 100);
  CHECK(first == answers());
}

TEST_CASE("numbers that are none are refused, and change nothing", "[linear_program]") {
  LinearProgram programme;
  const auto x = programme.add_variable(0, 1);
  const Row row = programme.add_row({{x, 1}}, 0.5, 1);
  CHECK_THROWS_AS(programme.add_variable(not_a_number, 1), std::invalid_argument);
  CHECK_THROWS_AS(programme.add_variable(0, not_a_number), std::invalid_argument);
  CHECK_THROWS_AS(programme.add_variable(unlimited, unlimited), std::invalid_argument);
  CHECK_THROWS_AS(programme.add_row({{x, not_a_number}}, 0, 1), std::invalid_argument);
  CHECK_THROWS_AS(programme.add_row({{x, unlimited}}, 0, 1), std::invalid_argument);
  CHECK_THROWS_AS(programme.add_row({{x, 1}}, -unlimited, -unlimited), std::invalid_argument);
  CHECK_THROWS_AS(programme.set_terms(row, {{x, -unlimited}}), std::invalid_argument);
  CHECK_THROWS_AS(programme.set_bounds(row, 0, not_a_number), std::invalid_argument);
  CHECK_THROWS_AS(programme.set_bounds(x, not_a_number, 0), std::invalid_argument);
  CHECK_THROWS_AS(programme.minimise({{x, not_a_number}}), std::invalid_argument);
  CHECK_THROWS_AS(programme.add_row({{Variable{1}, 1}}, 0, 1), std::out_of_range);
  CHECK_THROWS_AS(programme.set_bounds(Row{1}, 0, 1), std::out_of_range);
  CHECK_THROWS_AS(programme.set_terms(Row{1}, {{x, 1}}), std::out_of_range);
  CHECK_THAT(programme.minimise({{x, 1}})->optimum, WithinAbs(0.5, tolerance));
}

namespace {

/// What is written to a file descriptor, by whatever means, while this lives.
class Capture {
 public:
  explicit Capture(int descriptor) : descriptor_(descriptor), before_(dup(descriptor)), file_(std::tmpfile()) {
    std::fflush(nullptr);
    dup2(fileno(file_), descriptor_);
  }
  Capture(const Capture&) = delete;
  Capture& operator=(const Capture&) = delete;
  ~Capture() {
    restore();
    close(before_);
    std::fclose(file_);
  }

  long bytes() {
    restore();
    return std::fseek(file_, 0, SEEK_END) == 0 ? std::ftell(file_) : -1;
  }

 private:
  void restore() const {
    std::fflush(nullptr);
    dup2(before_, descriptor_);
  }

  int descriptor_;
  int before_;
  std::FILE* file_;
};

}  // namespace

TEST_CASE("nothing is ever printed", "[linear_program]") {
  Capture out(STDOUT_FILENO);
  Capture err(STDERR_FILENO);
  Dice dice(11);
  int failures = 0;
  for (int round = 0; round < 100; ++round) {
    Notes notes = random_notes(dice);
    LinearProgram programme = notes.build();
    (void)programme.minimise(notes.cost());
    LinearProgram copy = programme;
    change(notes, copy, dice);
    (void)copy.minimise(notes.cost());
    const auto x = copy.add_variable(0, unlimited);
    copy.set_bounds(x, 0, 1e-12);
    (void)copy.maximise({{x, 1e-12}});
    try {
      copy.set_bounds(x, 0, unlimited);
      (void)copy.maximise({{x, 1}});
    } catch (const SolverFailure&) {
      ++failures;
    }
  }
  const long printed = out.bytes();
  const long complained = err.bytes();
  CHECK(failures > 0);
  CHECK(printed == 0);
  CHECK(complained == 0);
}
