#include "heapwright/working/step.hpp"

#include <algorithm>
#include <cmath>

#include "heapwright/units/decimal.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr int figures_of_a_given = 6;

Term printed(std::string symbol, std::string what, double value, int digits, std::string unit, std::string source) {
  std::string number = print_number(value, digits);
  const double shown = *decimal_of(number);
  return {std::move(symbol), std::move(what), std::move(number), shown, std::move(unit), std::move(source)};
}

std::string in_brackets(const std::string& text, bool wanted) { return wanted ? "(" + text + ")" : text; }

/// A sign before a number and one between two would be read as one.
std::string within_a_formula(const std::string& number) { return in_brackets(number, number.starts_with('-')); }

void take_terms(std::vector<Term>& terms, const std::vector<Term>& more) {
  for (const Term& term : more) {
    const auto known = std::find_if(terms.begin(), terms.end(), [&](const Term& other) { return other.symbol == term.symbol; });
    if (known == terms.end()) terms.push_back(term);
  }
}

}  // namespace

Term given(std::string symbol, std::string what, double value, std::string unit, std::string source) {
  return printed(std::move(symbol), std::move(what), value, figures_of_a_given, std::move(unit), std::move(source));
}

Expression::Expression(const Term& term)
    : symbols_(term.symbol), numbers_(within_a_formula(term.number)), value_(term.value), terms_{term} {}

Expression::Expression(double number) : value_(*decimal_of(print_number(number, figures_of_a_given))) {
  numbers_ = within_a_formula(print_number(number, figures_of_a_given));
  symbols_ = numbers_;
}

Expression Expression::join(const Expression& a, const char* sign, const Expression& b, Binding binding, Right right, double value) {
  const bool left_brackets = a.binding_ < binding;
  const bool right_brackets = b.binding_ < binding || (right == Right::in_order && b.binding_ == binding);
  Expression joined = a;
  joined.symbols_ = in_brackets(a.symbols_, left_brackets) + sign + in_brackets(b.symbols_, right_brackets);
  joined.numbers_ = in_brackets(a.numbers_, left_brackets) + sign + in_brackets(b.numbers_, right_brackets);
  joined.value_ = value;
  take_terms(joined.terms_, b.terms_);
  joined.binding_ = binding;
  return joined;
}

Expression operator+(const Expression& a, const Expression& b) {
  return Expression::join(a, " + ", b, Expression::Binding::sum, Expression::Right::any_order, a.value_ + b.value_);
}

Expression operator-(const Expression& a, const Expression& b) {
  return Expression::join(a, " − ", b, Expression::Binding::sum, Expression::Right::in_order, a.value_ - b.value_);
}

Expression operator*(const Expression& a, const Expression& b) {
  return Expression::join(a, " × ", b, Expression::Binding::product, Expression::Right::any_order, a.value_ * b.value_);
}

Expression operator/(const Expression& a, const Expression& b) {
  return Expression::join(a, " / ", b, Expression::Binding::product, Expression::Right::in_order, a.value_ / b.value_);
}

Expression Expression::inside(const char* sign, double value) const {
  Expression whole = *this;
  whole.symbols_ = sign + ("(" + symbols_ + ")");
  whole.numbers_ = sign + ("(" + numbers_ + ")");
  whole.value_ = value;
  whole.binding_ = Binding::whole;
  return whole;
}

Expression root(const Expression& a) { return a.inside("√", a.value_ > 0.0 ? std::sqrt(a.value_) : 0.0); }

Expression cube_root(const Expression& a) { return a.inside("∛", std::cbrt(a.value_)); }

Expression sum(const std::vector<Expression>& parts) {
  if (parts.empty()) return 0.0;
  Expression whole = parts.front();
  for (std::size_t i = 1; i < parts.size(); ++i) whole = whole + parts[i];
  return whole;
}

Term Working::step(const StepHeading& heading, const Expression& expression) {
  Term result =
      printed(heading.symbol, heading.what, expression.value(), heading.digits, heading.unit, "step " + std::to_string(steps_.size() + 1));
  steps_.push_back({heading.what, heading.formula, expression.symbols(), expression.numbers(), expression.terms(), result, heading.source});
  return result;
}

void Working::in_words(std::string what, std::string words, std::string source) {
  steps_.push_back({std::move(what), std::move(words), "", "", {}, std::nullopt, std::move(source)});
}

}  // namespace heapwright
