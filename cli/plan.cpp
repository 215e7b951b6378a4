#include "heapwright/plan/plan.hpp"

#include <memory>

#include "command.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/icalendar.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct PlanOptions {
  CommonOptions common;
  std::string file;
  std::string calendar;
  HandoutOptions extra;
};

/// @throws TextError for sheets of a handout that is not asked for
void check(const PlanOptions& options) {
  const bool has_handout = !options.common.html.empty() && !options.common.all;
  if (has_handout || (!options.extra.shed_card && !options.extra.blank_log)) return;
  throw TextError(std::string(options.extra.shed_card ? "--shed-card" : "--blank-log") + " is a sheet of the handout, and none is written",
                  "write --html handout.html, without --all");
}

ExitCode run_plan(const PlanOptions& options) {
  check(options);
  options.common.check_files(options.file, {}, {{"--calendar", options.calendar}});
  const Yard yard = options.common.yard(options.file, {{"--calendar", options.calendar}});
  const Date today = options.common.today();
  const Answer<Plan> plan = make_plan(yard, today);
  if (!options.calendar.empty())
    write_whole("--calendar: ", options.calendar,
                icalendar_of(yard.title, plan->calendar, today, yard.tables.materials, options.common.show(yard.units)),
                options.common.force);
  return print_plan(options.common, plan, yard, options.extra);
}

}  // namespace

std::string handout_of(const Answer<Plan>& plan, const Yard& yard, const Show& show, const HandoutOptions& extra) {
  std::vector<Page> sides = handout_pages(plan, yard.office, extra.not_told, yard.tables.materials);
  if (extra.shed_card) sides.push_back(shed_card_page(plan.result, yard.tables.materials));
  if (extra.blank_log) sides.push_back(blank_log_page(plan.result));
  return html_of_handout(plan->title.empty() ? sides.front().subject : plan->title, sides, show);
}

ExitCode print_plan(const CommonOptions& common, const Answer<Plan>& plan, const Yard& yard, const HandoutOptions& extra) {
  const Show show = common.show(yard.units);
  const auto as_json = [&] { return json_of_plan(plan, yard.tables.materials); };
  const auto as_page = [&] { return plan_page(plan, yard.tables.materials); };
  if (common.all) {
    common.print_answer(as_json, as_page, show);
  } else {
    if (!common.html.empty()) write_whole("--html: ", common.html, printable(handout_of(plan, yard, show, extra)), common.force);
    common.print_on_screen(as_json, as_page, show);
  }
  return plan->recipe->mix || plan->topdressing ? done : no_answer;
}

void add_plan_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<PlanOptions>();
  CLI::App* command = program.add_subcommand("plan", "the whole job: the pile, its compost, the lawn, what to buy");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml)->required();
  command->add_option("--calendar", options->calendar, "write its chores to a file for your own calendar (.ics)")->type_name(takes::file);
  command->add_flag("--shed-card", options->extra.shed_card, "with --html: a card for the shed too, what goes in each week");
  command->add_flag("--blank-log", options->extra.blank_log, "with --html: a sheet too, to write temperatures and loads on");
  options->common.add_to(*command);
  command->footer(
      "Examples:\n  heapwright plan examples/quarter-acre.toml\n"
      "  heapwright plan examples/quarter-acre.toml --html handout.html");
  command->callback([options, &chosen] { chosen = [options] { return run_plan(*options); }; });
}

}  // namespace heapwright::cli
