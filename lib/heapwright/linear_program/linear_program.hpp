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

/// A programme that is built up, asked, changed and asked again.
class LinearProgram {
 public:
  /// A bound that is none.
  static constexpr double unlimited = std::numeric_limits<double>::infinity();

  /// Variables and rows by the place in which they were added; terms of a sum.
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

  /// An optimum and where it is.
  struct Solution {
    double optimum;              ///< the least cost, or the greatest gain
    std::vector<double> values;  ///< one for each variable, never outside its bounds

    /// Of one variable.
    double value(Variable variable) const { return values.at(variable.index); }
  };

  LinearProgram();
  LinearProgram(const LinearProgram&);  ///< to try something on the side
  /// Moved from, a programme is good for nothing but to be assigned to.
  LinearProgram(LinearProgram&&) noexcept;
  LinearProgram& operator=(LinearProgram) noexcept;
  ~LinearProgram();

  /// Coefficients must be finite and bounds numbers, `unlimited` (or -unlimited) on an open side.
  /// @throws std::invalid_argument otherwise, and std::out_of_range for a variable or row that the programme has not
  Variable add_variable(double low, double high);
  Row add_row(const Terms& terms, double low, double high);

  /// Others in place of the earlier bounds.
  void set_bounds(Variable variable, double low, double high);
  void set_bounds(Row row, double low, double high);
  void set_terms(Row row, const Terms& terms);  ///< in place of all its earlier terms

  /// Nothing where no x meets all bounds and rows. @throws SolverFailure
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
