#include <cmath>
#include <memory>

#include "command.hpp"
#include "heapwright/guide/said_load.hpp"
#include "heapwright/input/csv.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/json.hpp"
#include "progress.hpp"

namespace heapwright::cli {
namespace {

struct ReadingsOptions {
  CommonOptions common;
  std::string file;
  std::string log;
  std::string gap;
  std::vector<std::string> noticed;
};

TemperatureLog read_log(const std::string& path) {
  Problems problems;
  Csv csv = Csv::from_file(path, problems);
  TemperatureLog log = read_temperature_log(csv);
  problems.throw_if_any();
  return log;
}

std::chrono::seconds read_gap(std::string_view text) {
  const auto gap = std::chrono::seconds(std::llround(read_duration(text).value()));
  if (!(gap >= std::chrono::minutes(1) && gap <= std::chrono::days(31)))
    throw TextError("\"" + std::string(text) + "\" is no gap between two readings", "write from 1 min to 31 days: \"26 h\"");
  return gap;
}

ExitCode run_readings(const ReadingsOptions& options) {
  if (options.file.empty() && options.log.empty() && options.noticed.empty())
    throw TextError("there is nothing to read",
                    "name a yard file with [[reading]] in it, a log with --log, or what you noticed with --noticed");
  options.common.check_files(options.file, {{"--log", options.log}});
  Yard yard = options.file.empty() ? options.common.yard_of_options() : options.common.yard(options.file);
  const Date today = options.common.today();
  for (const std::string& name : options.noticed) {
    const auto signs = read_option("--noticed", name, [&](std::string_view text) { return read_all_noticed(*yard.tables.symptoms, text); });
    for (const std::string& sign : signs) yard.observations.noticed.push_back({sign, today});
  }
  const auto gap = options.gap.empty() ? usual_gap : read_option("--gap", options.gap, read_gap);
  std::optional<TemperatureLog> log;
  if (!options.log.empty()) {
    log = read_log(options.log);
    take_loads_of_log(yard, *log);
  }
  const Answer<YardReadings> answer = readings_of(yard, std::move(log), gap, today, ProgressLine());
  options.common.print_answer([&] { return json_of_readings(answer, yard.tables.materials); },
                              [&] { return readings_page(answer, yard.tables.materials); }, options.common.show(yard.units));
  return answer->log || !answer->by_hand.empty() || !yard.observations.noticed.empty() ? done : no_answer;
}

}  // namespace

void add_readings_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<ReadingsOptions>();
  CLI::App* command = program.add_subcommand("readings", "what a pile's temperatures and signs say");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml);
  command->add_option("--log", options->log, "a log of temperatures, CSV: time,core degF,event,added")->type_name(takes::csv);
  command->add_option("--gap", options->gap, "longest time between readings of one stretch, \"26 h\"");
  command->add_option("--noticed", options->noticed, "what is wrong with it: \"ammonia smell\"; once for each")->allow_extra_args(false);
  options->common.add_to(*command);
  command->footer([] { return listed("What may be noticed: smoke", built_in_symptoms()); });
  command->footer(
      "Examples:\n  heapwright readings examples/quarter-acre.toml \\\n    --log examples/quarter-acre-log.csv\n"
      "  heapwright readings --log examples/quarter-acre-log.csv --units si\n"
      "  heapwright readings --noticed \"ammonia smell\"");
  command->callback([options, &chosen] { chosen = [options] { return run_readings(*options); }; });
}

}  // namespace heapwright::cli
