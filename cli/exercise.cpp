#include "heapwright/exercise/exercise.hpp"

#include <charconv>
#include <memory>

#include "command.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct ExerciseOptions {
  CommonOptions common;
  std::string seed = "1";
  std::string level = "1";
  bool answers = false;
};

std::uint32_t seed_said(std::string_view text) {
  std::uint32_t seed = 0;
  const char* end = text.data() + text.size();
  const auto [stopped, trouble] = std::from_chars(text.data(), end, seed);
  if (trouble != std::errc() || stopped != end)
    throw TextError("\"" + std::string(text) + "\" is no number of a sheet", "write a whole number from 0 to 4294967295: --seed 7");
  return seed;
}

Level level_said(std::string_view text) {
  if (text == "1") return Level::first;
  if (text == "2") return Level::second;
  if (text == "3") return Level::third;
  throw TextError("\"" + std::string(text) + "\" is no level", "write 1 for the easy half, 2 for all, 3 for ranges too");
}

ExitCode run_exercise(const ExerciseOptions& options) {
  const CommonOptions& common = options.common;
  if (!common.materials_file.empty())
    throw TextError("--materials: a sheet is drawn from the tables that come with the program", "leave the file out");
  if (!common.base.empty()) throw TextError("--base: a sheet is drawn from the tables that come with the program", "leave the file out");
  common.check_files();
  // A class reckons in one system.
  const Show show(common.show().in_us_units() ? ShownUnits::us : ShownUnits::si);
  const Tables tables = common.tables();
  const Exercise exercise = make_exercise(read_option("--seed", options.seed, seed_said), read_option("--level", options.level, level_said),
                                          show.in_us_units() ? us_sheet_units() : si_sheet_units(), tables);
  std::vector<Page> pages{exercise_page(exercise, tables.materials)};
  if (options.answers) pages.push_back(answers_page(exercise));
  if (!common.html.empty()) write_whole("--html: ", common.html, printable(html_of_sheets(pages.front().title, pages, show)), common.force);
  if (common.json) {
    common.print(json_of_exercise(exercise, tables.materials, show));
    return done;
  }
  std::string text;
  for (const Page& page : pages) text += (text.empty() ? "" : "\n") + text_of(page, show, common.screen());
  common.print(text);
  return done;
}

}  // namespace

void add_exercise_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<ExerciseOptions>();
  CLI::App* command = program.add_subcommand("exercise", "a problem sheet for a class, and its key");
  command->add_option("--seed", options->seed, "the number of the sheet: the same number, the same sheet");
  command->add_option("--level", options->level, "1 the easy half, 2 all, 3 with ranges and two thermometers");
  command->add_flag("--answers", options->answers, "the key too, on a sheet of its own");
  options->common.add_to(*command);
  for (const char* of_yards : {"--base", "--materials"}) command->get_option(of_yards)->group("");  // told of where somebody tries
  command->footer("Examples:\n  heapwright exercise --seed 7\n  heapwright exercise --seed 7 --level 2 --answers --html sheet.html");
  command->callback([options, &chosen] { chosen = [options] { return run_exercise(*options); }; });
}

}  // namespace heapwright::cli
