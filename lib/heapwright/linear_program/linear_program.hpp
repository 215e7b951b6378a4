#pragma once
/// Small linear programmes: the least or the greatest of a weighted sum within bounds and rows.
///
///     least Σ cost·x    where    row low ≤ Σ coefficient·x ≤ row high    and    low ≤ x ≤ high
///
/// For some tens of variables and rows with numbers near one: scale what you ask. A programme may be changed
/// and asked again, many times; each answer then starts from the last one, which is several times faster
/// than a new programme. The same calls in the same order give the same answers.

#include <cstddef>
#include <limits>
#include <memory>
#include <optional>
#include <vector>

#include "heapwright/error.hpp"

namespace heapwright {

/// A linear programme without end (its cost can fall for ever), or one that defeats the solver.
class SolverFailure : public Error {
  using Error::Error;
};

class LinearProgram {
 public:
  static constexpr double unlimited = std::numeric_limits<double>::infinity();

  struct Variable {
    std::size_t index;
  };
  struct Row {
    std::size_t index;
  };
  struct Term {
    Variable variable;
    double coefficient;
  };
  using Terms = std::vector<Term>;  ///< terms of the same variable are added up

  struct Solution {
    double optimum;              ///< the least cost, or the greatest gain
    std::vector<double> values;  ///< one for each variable, never outside its bounds

    double value(Variable variable) const { return values.at(variable.index); }
  };

  LinearProgram();
  LinearProgram(const LinearProgram&);  ///< to try something on the side
  LinearProgram(LinearProgram&&) noexcept;
  LinearProgram& operator=(LinearProgram) noexcept;
  ~LinearProgram();

  /// Coefficients must be finite and bounds numbers, `unlimited` (or -unlimited) on an open side: else
  /// std::invalid_argument. A variable or row that the programme has not is std::out_of_range.
  Variable add_variable(double low, double high);
  Row add_row(const Terms& terms, double low, double high);

  void set_bounds(Variable variable, double low, double high);
  void set_bounds(Row row, double low, double high);
  void set_terms(Row row, const Terms& terms);  ///< in place of all its earlier terms

  /// Nothing where no x meets all bounds and rows. Throws SolverFailure.
  ///
  /// Every answer has been checked without trust in the solver: its rows hold to 1e-8 of the size of their terms. The
  /// prices of the rows prove that no other x is better by more than 1e-8 of the size of the terms of the cost; where
  /// they do not (rows that only just can be met), several methods have tried, and the answer nearest to a proof is given.
  std::optional<Solution> minimise(const Terms& cost);
  std::optional<Solution> maximise(const Terms& gain);

 private:
  struct Model;
  std::unique_ptr<Model> model_;
};

}  // namespace heapwright
