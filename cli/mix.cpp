#include <memory>

#include "command.hpp"
#include "heapwright/mix/working.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct MixOptions {
  CommonOptions common;
  std::string file;
  std::vector<std::string> add;
  std::string water;
  WorkingOption working;
};

Yard yard_of(const MixOptions& options) {
  if (!options.file.empty()) return options.common.yard(options.file);
  Yard yard = options.common.yard_of_options();
  if (options.add.empty()) throw TextError("nothing to mix", "name a yard file, or --add \"leaves-fall=6 leaf-bag\"");
  return yard;
}

void add_all(const MixOptions& options, Yard& yard) {
  const std::size_t before = yard.supplies.size();
  add_supplies(yard, "--add", options.add);
  for (std::size_t i = 0; i < options.add.size(); ++i) {
    const Supply& supply = yard.supplies[before + i];
    if (!supply.amount) throw TextError("--add: how much of " + supply.feedstock.id + "?", "write \"" + options.add[i] + "=6 leaf-bag\"");
  }
}

ExitCode run_mix(const MixOptions& options) {
  options.common.check_files(options.file);
  Yard yard = yard_of(options);
  add_all(options, yard);
  const WaterMass water = options.water.empty() ? WaterMass() : read_option("--water", options.water, [&](std::string_view text) {
    return read_water_amount(text, yard.tables.materials);
  });
  const Show show = options.common.show(yard.units);
  Answer<MixOnHand> answer = mix_on_hand(yard, water, options.common.today());
  if (options.working.asked && answer->mix)
    answer.working = working_of_mix(answer->batch, yard.tables.materials, options.working.units(options.common, show));
  options.common.print_answer([&] { return json_of_mix(answer, yard.tables.materials); },
                              [&] { return mix_page(answer, yard.targets, yard.tables.materials); }, show);
  return answer->mix ? done : no_answer;
}

}  // namespace

void add_mix_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<MixOptions>();
  CLI::App* command = program.add_subcommand("mix", "what given amounts make: C:N, moisture, volume, air");
  command->add_option("file", options->file, "a yard file")->type_name(takes::toml);
  command->add_option("--add", options->add, "\"leaves=6 bags\" or \"leaves:packing=…\"; once for each")
      ->take_all()
      ->allow_extra_args(false);
  command->add_option("--water", options->water, "water added, \"2 gal\"");
  options->working.add_to(*command);
  options->common.add_to(*command);
  command->footer(
      "Example:\n  heapwright mix --add \"leaves-fall=6 leaf-bag\" \\\n    --add \"grass-clippings:loose=4 bucket\" --water \"2 gal\"");
  command->callback([options, &chosen] { chosen = [options] { return run_mix(*options); }; });
}

}  // namespace heapwright::cli
