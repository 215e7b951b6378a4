#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <set>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {
namespace {

constexpr std::size_t of_heads = 5;
constexpr std::size_t of_lines = 7;
constexpr std::size_t of_what_goes_on = 11;

std::string indented(std::string_view text, std::size_t width) {
  return wrap(fmt::format("{:{}}{}", "", of_lines, text), of_what_goes_on, width);
}

std::string with_unit(const Term& term) { return term.unit.empty() ? term.number : fmt::format("{} {}", term.number, term.unit); }

/// Figures that a reader has not met yet; results of steps were met there.
std::string new_terms_text(const Step& step, std::set<std::string>& met, std::size_t width) {
  std::string text;
  for (const Term& term : step.terms) {
    if (met.insert(term.symbol).second)
      text += indented(fmt::format("{} = {}: {} ({})", term.symbol, with_unit(term), term.what, term.source), width);
  }
  return text;
}

/// The sources of formulas, numbered as they come.
class Sources {
 public:
  /// " [2]"; nothing of what follows by definition.
  std::string mark(const std::string& source) {
    if (source == by_definition) return {};
    const auto known = std::find(sources_.begin(), sources_.end(), source);
    const auto at = static_cast<std::size_t>(known - sources_.begin());
    if (known == sources_.end()) sources_.push_back(source);
    return fmt::format(" [{}]", at + 1);
  }

  std::string text() const {
    if (sources_.empty()) return "Formulas: by definition.";
    std::vector<std::string> numbered;
    for (const std::string& source : sources_) numbered.push_back(fmt::format("[{}] {}", numbered.size() + 1, source));
    return fmt::format("Formulas: {}; the others by definition.", fmt::join(numbered, "; "));
  }

 private:
  std::vector<std::string> sources_;
};

std::string step_text(const Step& step, std::size_t number, Sources& sources, std::set<std::string>& met, std::size_t width) {
  std::string text = wrap(fmt::format("{:>3}. {}: {}{}", number, step.what, step.formula, sources.mark(step.source)), of_heads, width);
  if (!step.result) return text;
  const Term& result = *step.result;
  text += indented(fmt::format("{} = {}", result.symbol, step.symbols), width);
  text += new_terms_text(step, met, width);
  text += indented(fmt::format("{} = {} = {}", result.symbol, step.numbers, with_unit(result)), width);
  met.insert(result.symbol);
  return text;
}

}  // namespace

std::string text_of_working(const Working& working, std::size_t width) {
  std::string text;
  std::set<std::string> met;
  Sources sources;
  std::size_t number = 0;
  for (const Step& step : working.steps()) text += step_text(step, ++number, sources, met, width);
  text += wrap(sources.text(), 0, width);
  return text;
}

}  // namespace heapwright
