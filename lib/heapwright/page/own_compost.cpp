#include "heapwright/page/own_compost.hpp"

#include <algorithm>
#include <utility>
#include <variant>

#include "heapwright/lawn/compost_fitness.hpp"
#include "heapwright/maturity/verdict.hpp"
#include "heapwright/page/nutrients_parts.hpp"
#include "heapwright/page/pile_now.hpp"

namespace heapwright {
namespace {

/// Its salts as a supplier's analysis would tell them; those of which only an upper bound is told bar nothing.
CompostAnalysis salts_of(const YardCompost& compost) {
  CompostAnalysis analysis;
  const auto add = [&](std::string_view test, SaltsMethod method) {
    for (const RatedTest* one : counting(compost.known.rating.tests, test)) {
      const bool may_be_less = one->test.told == Bound::Side::below || one->test.told == Bound::Side::at_most;
      const ElectricConductivity* value = std::get_if<ElectricConductivity>(&one->test.value);
      if (value != nullptr && !may_be_less) analysis.salts.push_back({method, *value});
    }
  };
  add("salts-1to5", SaltsMethod::slurry_1to5);
  add("salts-paste", SaltsMethod::saturated_paste);
  return analysis;
}

/// A line of its reports that is beyond a limit somebody sets; nothing where there is none.
const LineLimit* limit_passed(const YardCompost& compost) {
  const auto found = std::find_if(compost.report_lines.begin(), compost.report_lines.end(),
                                  [](const StandingLine& one) { return one.standing == LineStanding::beyond_limit; });
  return found == compost.report_lines.end() ? nullptr : &*found->line->limit;
}

bool asks_an_office(const YardCompost& compost) {
  return std::any_of(compost.report_lines.begin(), compost.report_lines.end(), [](const StandingLine& one) { return one.ask_about; });
}

/// What speaks against it on a lawn; empty where nothing that is known of it does.
Words what_speaks_against(const YardCompost& compost, const Criteria& criteria) {
  if (is_to_be_mended(verdict_of(compost.known))) return say("Keep your own compost off the lawn for now. {}", verdict_in_short(compost));
  if (compost_fitness(salts_of(compost), criteria).too_salty) return "Keep your own compost off the lawn: it is too salty for one.";
  if (const LineLimit* limit = limit_passed(compost)) return say("Your own compost: {}", limit->beyond);  // which is no limit for lawns
  if (asks_an_office(compost)) return "Show your own compost's report to your extension office before any of it goes on the lawn.";
  return {};
}

}  // namespace

void say_own_compost(Page& page, const SpreadingAdvice& advice, const YardCompost& compost, const Criteria& criteria) {
  Words against = what_speaks_against(compost, criteria);
  if (against.empty()) return;
  std::vector<Block>& blocks = page.sections.at(sections_of_hold(advice)).blocks;
  blocks.insert(blocks.begin() + 1, Paragraph{std::move(against)});
}

}  // namespace heapwright
