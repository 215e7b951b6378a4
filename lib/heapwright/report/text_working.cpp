#include <algorithm>
#include <set>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {
namespace {

constexpr std::size_t of_heads = 5;
constexpr std::size_t of_lines = 7;
constexpr std::size_t of_what_goes_on = 11;

std::string indented(const std::string& text, std::size_t width) { return wrap(std::string(of_lines, ' ') + text, of_what_goes_on, width); }

std::string with_unit(const Term& term) { return term.number + (term.unit.empty() ? "" : " " + term.unit); }

/// Figures that a reader has not met yet; results of steps were met there.
std::string new_terms_text(const Step& step, std::set<std::string>& met, std::size_t width) {
  std::string text;
  for (const Term& term : step.terms) {
    if (met.insert(term.symbol).second)
      text += indented(term.symbol + " = " + with_unit(term) + ": " + term.what + " (" + term.source + ")", width);
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
    return " [" + std::to_string(at + 1) + "]";
  }

  std::string text() const {
    std::string text = "Formulas";
    for (std::size_t i = 0; i < sources_.size(); ++i) text += (i == 0 ? ": [" : "; [") + std::to_string(i + 1) + "] " + sources_[i];
    return text + (sources_.empty() ? ": by definition." : "; the others by definition.");
  }

 private:
  std::vector<std::string> sources_;
};

std::string step_text(const Step& step, std::size_t number, Sources& sources, std::set<std::string>& met, std::size_t width) {
  const std::string words = step.what + ": " + step.formula + sources.mark(step.source);
  std::string text = wrap(right(std::to_string(number), 3) + ". " + words, of_heads, width);
  if (!step.result) return text;
  text += indented(step.result->symbol + " = " + step.symbols, width) + new_terms_text(step, met, width);
  met.insert(step.result->symbol);
  return text + indented(step.result->symbol + " = " + step.numbers + " = " + with_unit(*step.result), width);
}

}  // namespace

std::string text_of_working(const Working& working, std::size_t width) {
  std::string text;
  std::set<std::string> met;
  Sources sources;
  std::size_t number = 0;
  for (const Step& step : working.steps()) text += step_text(step, ++number, sources, met, width);
  return text + wrap(sources.text(), 0, width);
}

}  // namespace heapwright
