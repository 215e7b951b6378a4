/// The program as one tree of commands and options.

#include "command.hpp"

namespace heapwright::cli {

void add_everything(CLI::App& program, ChosenCommand& chosen) {
  program.name("heapwright");
  program.description("Compost: how much of what, how big a pile, how far it goes, what to buy.");
  program.set_version_flag("--version", version_text);
  program.get_formatter()->column_width(20);
  program.footer("Example:\n  heapwright recipe --have \"leaves=20 bags\" --have \"kitchen scraps=3 buckets\"");
  program.require_subcommand(0, 1);
  add_new_command(program, chosen);
  add_materials_command(program, chosen);
  add_mix_command(program, chosen);
  add_recipe_command(program, chosen);
  add_pile_command(program, chosen);
  add_forecast_command(program, chosen);
  add_readings_command(program, chosen);
  add_maturity_command(program, chosen);
  add_topdress_command(program, chosen);
  add_season_command(program, chosen);
  add_load_command(program, chosen);
  add_plan_command(program, chosen);
  add_exercise_command(program, chosen);
  add_workshop_command(program, chosen);
}

std::string version_text() {
  return "heapwright " HEAPWRIGHT_VERSION "\n" + wrap("compiler: " HEAPWRIGHT_COMPILER, 2) + wrap("libraries: " HEAPWRIGHT_LIBRARIES, 2) +
         "sanitizers: " HEAPWRIGHT_SANITIZERS;
}

}  // namespace heapwright::cli
