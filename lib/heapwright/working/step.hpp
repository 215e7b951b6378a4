#pragma once
/// A calculation in steps that a person can do again on a pocket calculator.
///
/// A term's value is exactly the number that is printed. Arithmetic on terms makes three things from the same pieces: the formula
/// in symbols, the formula with the numbers put in, and its value; so they cannot disagree. A step rounds that value to the digits it
/// prints, and later steps go on from there:
///
///     Working working;
///     const Term m = given("m", "weight of the leaves", 120.0, "lb", "your own figure");
///     const Term M = given("M", "their moisture, as a fraction", 0.38, "", "your own figure");
///     const Term W = working.step({"W", "Water in the leaves", "weight times moisture", "lb", "by definition"}, m * M);
///     // W = m × M = 120 × 0.38 = 45.6 lb

#include <optional>
#include <string>
#include <vector>

namespace heapwright {

/// The source of a formula that says what a word means: moisture is water over weight.
inline constexpr const char* by_definition = "by definition";

/// A number of a calculation.
struct Term {
  std::string symbol;
  std::string what;
  std::string number;  ///< as it is printed
  double value;        ///< of the printed number
  std::string unit;    ///< empty for a ratio or a fraction
  std::string source;  ///< whose figure it is, or the step that gave it
};

/// A figure that a calculation starts from, to six significant digits. @throws DomainError for nan and inf
Term given(std::string symbol, std::string what, double value, std::string unit, std::string source);

/// A formula over terms, in symbols, in numbers and as a value, in plain arithmetic: + − × / √ ∛ and brackets.
class Expression {
 public:
  // Terms and the formula's own numbers (100, 27) stand in formulas as they are, so the conversions are implicit.
  Expression(const Term& term);  // NOLINT(google-explicit-constructor)
  Expression(double number);     // NOLINT(google-explicit-constructor)

  /// "m × M", and with its numbers put in "120 × 0.38"; and what that comes to.
  const std::string& symbols() const { return symbols_; }
  const std::string& numbers() const { return numbers_; }
  double value() const { return value_; }
  /// Each once, in the order in which the formula names them.
  const std::vector<Term>& terms() const { return terms_; }

  /// Arithmetic, which writes itself down as it goes.
  friend Expression operator+(const Expression& a, const Expression& b);
  friend Expression operator-(const Expression& a, const Expression& b);
  friend Expression operator*(const Expression& a, const Expression& b);
  friend Expression operator/(const Expression& a, const Expression& b);
  friend Expression root(const Expression& a);  ///< of what lies below zero, zero
  friend Expression cube_root(const Expression& a);

 private:
  enum class Binding { sum, product, whole };
  Expression inside(const char* sign, double value) const;
  enum class Right { any_order, in_order };  ///< a − (b − c) wants its brackets, a + (b + c) does not

  static Expression join(const Expression& a, const char* sign, const Expression& b, Binding binding, Right right, double value);

  std::string symbols_;
  std::string numbers_;
  double value_;
  std::vector<Term> terms_;
  Binding binding_ = Binding::whole;
};

/// The same, found for terms too. root() of what lies below zero is zero.
Expression operator+(const Expression& a, const Expression& b);
Expression operator-(const Expression& a, const Expression& b);
Expression operator*(const Expression& a, const Expression& b);
Expression operator/(const Expression& a, const Expression& b);
Expression root(const Expression& a);
Expression cube_root(const Expression& a);

/// a + b + c; zero of nothing.
Expression sum(const std::vector<Expression>& parts);

/// What a step is to give.
struct StepHeading {
  std::string symbol;
  std::string what;
  std::string formula;  ///< in words
  std::string unit;
  std::string source;  ///< of the formula
  int digits = 5;      ///< significant ones of the result
};

/// A step that was worked out.
struct Step {
  std::string what;
  std::string formula;      ///< in words; where there is no result, what it comes to, or why there is none
  std::string symbols;      ///< the formula in symbols
  std::string numbers;      ///< the same with the numbers put in
  std::vector<Term> terms;  ///< what the symbols stand for
  std::optional<Term> result;
  std::string source;  ///< of the formula
};

/// Steps in their order.
class Working {
 public:
  /// Adds a step; its result is a term for later ones. @throws DomainError where the value is no finite number
  Term step(const StepHeading& heading, const Expression& expression);
  /// Adds a step without arithmetic: what it comes to, in words, or why it cannot be done.
  void in_words(std::string what, std::string words, std::string source);

  /// All steps so far.
  const std::vector<Step>& steps() const { return steps_; }

 private:
  std::vector<Step> steps_;
};

}  // namespace heapwright
