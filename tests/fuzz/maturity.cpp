/// Lines of laboratories' reports and checks at home, "name=value" each, and the rating that they come to.

#include "checks.hpp"
#include "heapwright/maturity/observations.hpp"
#include "heapwright/maturity/working.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/answers.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/text.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

/// A check where its name is one, else a line of a report.
void take_line(std::string_view line, Yard& yard) {
  const std::size_t equals = line.find('=');
  if (equals == std::string_view::npos) return;
  const std::string_view name = line.substr(0, equals);
  const std::string_view value = line.substr(equals + 1);
  const Criteria& criteria = *yard.tables.criteria;
  const ReportLines& lines = *yard.tables.report_lines;
  ends_well([&] { yard.observations.checks.push_back(read_household_check(criteria, name, value)); });
  ends_well([&] { keep(yard.observations, line_of_report(named_line(criteria, lines, name), lines, value)); });
}

void put(const Yard& yard, std::string_view input) {
  Answer<YardCompost> compost = maturity_of(yard, today);
  compost.working = working_of_rating(compost->known, yard.tables.materials);
  if (!in_every_form(input)) return;
  const Materials& materials = yard.tables.materials;
  check_answer(json_of_maturity(compost, materials), maturity_page(compost, materials), Show(ShownUnits::us), input);
  check_output(text_of_working(*compost.working), input);
}

}  // namespace

void rate_report(std::string_view text) {
  Yard yard;
  yard.tables = tables();
  for (std::string_view rest = text; !rest.empty();) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    take_line(rest.substr(0, end), yard);
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  if (ends_well([&] { put(yard, text); })) count_answered();
}

}  // namespace heapwright::fuzz
