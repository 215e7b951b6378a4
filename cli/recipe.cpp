#include <memory>

#include "command.hpp"
#include "heapwright/mix/working.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/recipe/verdict.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct RecipeCommandOptions {
  CommonOptions common;
  std::string file;
  HaveOptions have;
  std::string fill;
  std::string capacity;
  std::string goal;
  WorkingOption working;
};

/// What the command line says wins over the file.
void apply(const RecipeCommandOptions& options, Yard& yard) {
  options.have.apply(yard);
  if (!options.fill.empty() && !options.capacity.empty())
    throw TextError("--fill and --capacity: a pile has one or the other",
                    "--fill is the volume you want, --capacity the most there is room for");
  if (!options.fill.empty()) {
    yard.options.fill = read_option("--fill", options.fill, read_pile_volume);
    yard.options.capacity.reset();
  }
  if (!options.capacity.empty()) {
    yard.options.capacity = read_option("--capacity", options.capacity, read_pile_volume);
    yard.options.fill.reset();
  }
  for (const Goal goal : {Goal::use_most, Goal::cheapest, Goal::least_bought, Goal::least_water}) {
    if (options.goal == goal_word(goal)) yard.options.goal = goal;
  }
}

ExitCode run_recipe(const RecipeCommandOptions& options) {
  options.common.check_files(options.file);
  Yard yard = options.file.empty() ? options.common.yard_of_options() : as_of(options.common.yard(options.file), options.common.today());
  apply(options, yard);
  const Show show = options.common.show(yard.units);
  Answer<Recipe> recipe = first_recipe(not_loaded_yet(yard, options.common.today()), options.common.today());
  if (options.working.asked && recipe->mix)
    recipe.working = working_to_aims(recipe->batch, recipe->targets, yard.tables.materials, options.working.units(options.common, show));
  options.common.print_answer([&] { return json_of_recipe(recipe, yard.tables.materials); },
                              [&] { return recipe_page(recipe, yard.tables.materials); }, show);
  const RecipeVerdict verdict = verdict_of(recipe.result);
  const bool works = verdict == RecipeVerdict::on_target || verdict == RecipeVerdict::nearly_right;
  const bool answered = works || (recipe->status == RecipeStatus::no_size && recipe->whole_containers && recipe->whole_containers->inside);
  return answered ? done : no_answer;
}

}  // namespace

void add_recipe_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<RecipeCommandOptions>();
  CLI::App* command = program.add_subcommand("recipe", "how much of what goes into the pile, and how much water");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml);
  options->have.add_to(*command);
  command->add_option("--fill", options->fill, "the pile wanted, \"1 yd3\"");
  command->add_option("--capacity", options->capacity, "the room there is, \"1 yd3\"");
  command->add_option("--goal", options->goal, "use-most, cheapest, least-bought or least-water")
      ->check(CLI::IsMember({"use-most", "cheapest", "least-bought", "least-water"}));
  options->working.add_to(*command);
  options->common.add_to(*command);
  command->footer(
      "Examples:\n  heapwright recipe --have leaves --have clippings\n  heapwright recipe --have \"leaves-fall=20 leaf-bag\" \\\n"
      "    --have \"kitchen-scraps=3 bucket\" --fill \"1 yd3\"");
  command->callback([options, &chosen] { chosen = [options] { return run_recipe(*options); }; });
}

}  // namespace heapwright::cli
