#include <memory>

#include "command.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/compare.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/process/working.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/trajectory_tables.hpp"
#include "progress.hpp"

namespace heapwright::cli {
namespace {

struct ForecastOptions {
  CommonOptions common;
  std::string file;
  std::string turn_every;
  std::string built;
  std::string height;
  std::string climate;
  bool keep_moist = false;
  bool table = false;
  bool csv = false;
  bool compare = false;
  WorkingOption working;
};

/// What the command line says wins over the file. @throws TextError for a height where there is no pile that has one
void apply(const ForecastOptions& options, Yard& yard) {
  if (!options.climate.empty())
    yard.climate =
        read_option("--climate", options.climate, [&](std::string_view name) { return climate_like(*yard.tables.climates, name); });
  const bool about_the_pile = !options.turn_every.empty() || !options.built.empty() || !options.height.empty() || options.keep_moist;
  if (!about_the_pile) return;
  if (!yard.pile) throw TextError("the file describes no [pile] to change", "add [pile] with its shape and size");
  if (!options.turn_every.empty()) yard.pile->turn_every = read_option("--turn-every", options.turn_every, read_turning);
  if (!options.built.empty()) yard.pile->built = read_option("--built", options.built, read_date);
  if (!options.height.empty()) {
    if (yard.pile->shape == PileShape::tumbler) throw TextError("--height: a tumbler is not measured by it", "leave it out");
    read_option("--height", options.height, [&](std::string_view text) { read_size(*yard.pile, "height", text); });
  }
  yard.pile->keep_moist = yard.pile->keep_moist || options.keep_moist;
}

void print(const Answer<YardForecast>& answer, const ForecastOptions& options, const Yard& yard) {
  const Show show = options.common.show(yard.units);
  if (options.csv) {
    options.common.print(csv_of_forecast(answer.result));
  } else if (options.table) {
    options.common.print(table_of_forecast(answer.result, show));
  } else {
    options.common.print_answer([&] { return json_of_forecast(answer, yard.tables.materials); },
                                [&] { return forecast_page(answer, yard.tables.materials); }, show);
  }
}

/// Exit code: as of the pile as it is.
ExitCode compare(const ForecastOptions& options, const Yard& yard) {
  if (!yard.pile) throw TextError("the file describes no [pile] to change", "add [pile] with its shape and size");
  const Answer<PileComparison> answer = compare_piles(yard, options.common.today(), ProgressLine());
  options.common.print_answer([&] { return json_of_comparison(answer, yard.tables.materials); },
                              [&] { return comparison_page(answer, yard.tables.materials); }, options.common.show(yard.units));
  const std::optional<Forecast>& as_it_is = answer->piles.front().forecast.forecast;
  return as_it_is && as_it_is->status != ForecastStatus::never ? done : no_answer;
}

ExitCode run_forecast(const ForecastOptions& options) {
  options.common.check_files(options.file);
  if ((options.csv || options.table) && (options.common.json || !options.common.html.empty()))
    throw TextError("--csv and --table are neither JSON nor a page", "leave out --json and --html");
  Yard yard = as_of(options.common.yard(options.file), options.common.today());
  apply(options, yard);
  if (!yard.climate)
    throw TextError(options.file + ": [climate] is missing: what a pile does depends on the weather",
                    "add [climate] with like = \"cool\", or coldest_month = \"30 degF\" and warmest_month = \"76 degF\"");
  if (options.compare) return compare(options, yard);
  const Date today = options.common.today();
  Answer<YardForecast> answer = forecast_of(yard, recipe_in_pile(yard, today), today, nullptr, ProgressLine());
  if (options.working.asked && answer->screened)
    answer.working = working_of_yield(answer->forecast->finished, answer->such_piles, answer->yield, yard.tables.materials,
                                      options.working.units(options.common, options.common.show(yard.units)));
  print(answer, options, yard);
  return answer->forecast && answer->forecast->status != ForecastStatus::never ? done : no_answer;
}

}  // namespace

void add_forecast_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<ForecastOptions>();
  CLI::App* command = program.add_subcommand("forecast", "what the pile will do through the year, and when it is ready");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml)->required();
  command->add_option("--turn-every", options->turn_every, "what if: \"7 days\", or never");
  command->add_option("--built", options->built, "what if: built on a day, 2027-04-10");
  command->add_option("--height", options->height, "what if: a pile so high, \"3 ft\"");
  command->add_flag("--keep-moist", options->keep_moist, "what if: watered whenever it is dry");
  command->add_option("--climate", options->climate, "what if: in another climate, \"cold\" or \"mild\"");
  CLI::Option* table = command->add_flag("--table", options->table, "week by week");
  CLI::Option* csv = command->add_flag("--csv", options->csv, "day by day, as CSV")->excludes(table);
  options->working.add_to(*command);
  command->add_flag("--compare", options->compare, "the same pile larger, wetter, turned otherwise: a row each")
      ->excludes(table)
      ->excludes(csv)
      ->excludes("--show-working");
  options->common.add_to(*command);
  command->footer(
      "Examples:\n  heapwright forecast examples/quarter-acre.toml\n"
      "  heapwright forecast examples/quarter-acre.toml \\\n    --built 2027-04-10 --turn-every \"7 days\"");
  command->callback([options, &chosen] { chosen = [options] { return run_forecast(*options); }; });
}

}  // namespace heapwright::cli
