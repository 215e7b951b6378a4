#include "heapwright/plan/plan.hpp"

#include <memory>

#include "command.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/icalendar.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct PlanOptions {
  CommonOptions common;
  std::string file;
  std::string calendar;
};

ExitCode run_plan(const PlanOptions& options) {
  const Yard yard = options.common.yard(options.file);
  const Date today = options.common.today();
  const Answer<Plan> plan = make_plan(yard, today);
  if (!options.calendar.empty())
    write_whole("--calendar: ", options.calendar,
                icalendar_of(yard.title, plan->calendar, today, yard.tables.materials, options.common.show(yard.units)),
                options.common.force);
  return print_plan(options.common, plan, yard);
}

}  // namespace

ExitCode print_plan(const CommonOptions& common, const Answer<Plan>& plan, const Yard& yard) {
  common.print_answer([&] { return json_of_plan(plan, yard.tables.materials); }, [&] { return plan_page(plan, yard.tables.materials); },
                      common.show(yard.units));
  return plan->recipe->mix || plan->topdressing ? done : no_answer;
}

void add_plan_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<PlanOptions>();
  CLI::App* command = program.add_subcommand("plan", "the whole job: the pile, its compost, the lawn, what to buy");
  command->add_option("file", options->file, "a yard file")->required();
  command->add_option("--calendar", options->calendar, "write its chores to a file for your own calendar (.ics)");
  options->common.add_to(*command);
  command->footer("Example:\n  heapwright plan examples/quarter-acre.toml");
  command->callback([options, &chosen] { chosen = [options] { return run_plan(*options); }; });
}

}  // namespace heapwright::cli
