#include <algorithm>
#include <map>
#include <memory>

#include "command.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/pile/working.hpp"
#include "heapwright/plan/loaded.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct PileOptions {
  CommonOptions common;
  std::string file;
  std::string shape;
  std::map<std::string, std::string> sizes;  ///< by their key in [pile]
  std::optional<double> count;
  HaveOptions have;
  WorkingOption working;
};

std::string option_of(std::string key) {
  std::replace(key.begin(), key.end(), '_', '-');
  return "--" + key;
}

bool describe_a_pile(const PileOptions& options) {
  return !options.shape.empty() || options.count ||
         std::any_of(options.sizes.begin(), options.sizes.end(), [](const auto& size) { return !size.second.empty(); });
}

void set_shape(const std::string& word, PileDescription& pile) {
  for (const auto& [name, shape] : pile_shape_words()) {
    if (name != word || shape == pile.shape) continue;
    pile.shape = shape;
    pile.top_width.reset();  // a file's windrow may have one
  }
}

/// @throws TextError where a size is given that the shape is not measured by
void check_sizes_belong(const PileOptions& options, PileShape shape) {
  const std::vector<std::string> measured_by = sizes_of(shape);
  for (const auto& [key, text] : options.sizes) {
    if (text.empty() || key == "top_width" || std::find(measured_by.begin(), measured_by.end(), key) != measured_by.end()) continue;
    throw TextError(option_of(key) + ": a " + std::string(shape_word(shape)) + " is not measured by it",
                    "leave it out, or give another --shape");
  }
}

/// What the command line says wins over the file.
PileDescription described(const PileOptions& options, PileDescription pile) {
  set_shape(options.shape, pile);
  for (const auto& [key, text] : options.sizes) {
    if (!text.empty()) read_option(option_of(key), text, [&, &name = key](std::string_view words) { read_size(pile, name, words); });
  }
  check_sizes_belong(options, pile.shape);
  for (const std::string& key : missing_sizes(pile))
    throw TextError(option_of(key) + " is missing: a " + std::string(shape_word(pile.shape)) + " is measured by it",
                    "add " + option_of(key) + " \"" + std::string(example_size(key)) + "\"");
  read_option("--top-width", "", [&](std::string_view) { check_top_width(pile); });
  if (options.count) read_option("--count", "", [&](std::string_view) { pile.count = pile_count(*options.count); });
  return pile;
}

void add_options(CLI::App& command, PileOptions& options) {
  std::vector<std::string> shapes;
  for (const auto& [word, shape] : pile_shape_words()) shapes.push_back(word);
  const std::map<std::string_view, std::string> help{{"length", "of a bin or windrow, \"4 ft\""},
                                                     {"width", "of a bin or windrow, \"4 ft\""},
                                                     {"height", "of all but a tumbler, \"4 ft\""},
                                                     {"diameter", "of a round bin or cone, \"4 ft\""},
                                                     {"top_width", "of a windrow that is flat on top, \"4 ft\""},
                                                     {"volume", "of a tumbler, \"60 gal\""}};
  command.add_option("file", options.file, "a yard file")->type_name(takes::toml);
  command.add_option("--shape", options.shape, "bin, round, tumbler, cone or windrow")->check(CLI::IsMember(shapes));
  for (const std::string_view key : size_keys)
    command.add_option(option_of(std::string(key)), options.sizes[std::string(key)], help.at(key));
  command.add_option("--count", options.count, "how many such piles there are")->type_name("NUMBER");
  options.have.add_to(command);
  options.working.add_to(command);
  options.common.add_to(command);
}

ExitCode run_pile(const PileOptions& options) {
  options.common.check_files(options.file);
  Yard yard = options.file.empty() ? options.common.yard_of_options() : as_of(options.common.yard(options.file), options.common.today());
  options.have.apply(yard);
  if (describe_a_pile(options)) yard.pile = described(options, yard.pile.value_or(PileDescription()));
  const Date today = options.common.today();
  const Show show = options.common.show(yard.units);
  Answer<PileFit> answer = pile_of(yard, recipe_in_pile(yard, today), today);
  if (options.working.asked && answer->pile) answer.working = working_of_pile(answer.result, options.working.units(options.common, show));
  options.common.print_answer([&] { return json_of_pile(answer, yard.tables.materials); },
                              [&] { return pile_page(answer, yard.tables.materials); }, show);
  const bool is_known = answer->pile || answer->mix;
  return is_known && answer->fits.value_or(true) ? done : no_answer;
}

}  // namespace

void add_pile_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<PileOptions>();
  CLI::App* command = program.add_subcommand("pile", "what a bin or pile holds, whether it all fits and heats");
  add_options(*command, *options);
  command->footer(
      "Examples:\n  heapwright pile examples/quarter-acre.toml\n  heapwright pile --shape bin --length \"4 ft\" --width \"4 ft\" "
      "--height \"4 ft\" \\\n    --have \"leaves=20 bags\"");
  command->callback([options, &chosen] { chosen = [options] { return run_pile(*options); }; });
}

}  // namespace heapwright::cli
