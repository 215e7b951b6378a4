#include <memory>

#include "command.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/season_csv.hpp"

namespace heapwright::cli {
namespace {

struct SeasonOptions {
  CommonOptions common;
  std::string file;
  bool csv = false;
};

ExitCode run_season(const SeasonOptions& options) {
  options.common.check_csv_alone(options.csv);
  options.common.check_files(options.file);
  const Yard yard = options.common.yard(options.file);
  const Answer<YardSeason> season = season_of(yard, options.common.today());
  if (options.csv) {
    options.common.print(csv_of_season(season.result));
  } else {
    options.common.print_answer([&] { return json_of_season(season, yard.tables.materials); },
                                [&] { return season_page(season, yard.tables.materials); }, options.common.show(yard.units));
  }
  return season->supplies.empty() ? no_answer : done;
}

}  // namespace

void add_season_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<SeasonOptions>();
  CLI::App* command = program.add_subcommand("season", "a year of supplies: what to keep dry, what goes in each week");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml)->required();
  command->add_flag("--csv", options->csv, "a line a month and feedstock, as CSV");
  options->common.add_to(*command);
  command->footer("Example:\n  heapwright season examples/quarter-acre.toml");
  command->callback([options, &chosen] { chosen = [options] { return run_season(*options); }; });
}

}  // namespace heapwright::cli
