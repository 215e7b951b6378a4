#include <algorithm>
#include <memory>

#include "command.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright::cli {
namespace {

struct MaterialsOptions {
  CommonOptions common;
  std::string id;
  bool sources = false;
  bool dies_at = false;
  std::string check;
};

/// A compost by its id, or by its name where no feedstock answers to it; else nothing.
const Compost* meant_compost(const Materials& materials, const std::string& name) {
  if (const Compost* compost = row_with_id(*materials.composts, name)) return compost;
  return feedstock_called(materials, name) == nullptr ? compost_called(materials, name) : nullptr;
}

std::string answer(const MaterialsOptions& options, const Materials& materials, const Show& show) {
  const bool json = options.common.json;
  if (options.sources) return json ? json_of_sources(materials) : text_of_sources(materials);
  if (options.id.empty()) return json ? json_of_feedstocks(materials) : text_of_feedstocks(materials, show);
  if (const Compost* compost = meant_compost(materials, options.id))
    return json ? json_of_compost(*compost, materials) : text_of_compost(*compost, materials, show);
  const Feedstock& feedstock = find_feedstock(materials, options.id);
  return json ? json_of_feedstock(feedstock, materials) : text_of_feedstock(feedstock, materials, show);
}

ExitCode check(const MaterialsOptions& options) {
  const std::vector<CheckedFeedstock> checked = check_materials_file(options.common.tables().materials, options.check);
  options.common.print(options.common.json ? json_of_check(checked) : text_of_check(checked));
  return std::any_of(checked.begin(), checked.end(), has_slip) ? no_answer : done;
}

ExitCode dies_at(const MaterialsOptions& options) {
  const Tables tables = options.common.tables();
  options.common.print_answer([&] { return json_of_dies_at(*tables.criteria, tables.materials); },
                              [&] { return dies_at_page(*tables.criteria, tables.materials); }, options.common.show());
  return done;
}

ExitCode run_materials(const MaterialsOptions& options) {
  if (!options.common.base.empty()) throw TextError("--base: the tables are shown without any yard", "leave the file out");
  options.common.check_files({}, {{"--check", options.check}});
  if (!options.common.html.empty() && (!options.check.empty() || !options.dies_at))
    throw TextError("--html: of the tables only --dies-at is a page", "leave it out, or write --output to have a file");
  if (!options.check.empty()) return check(options);
  if (options.dies_at) return dies_at(options);
  const Materials materials = options.common.tables().materials;
  options.common.print(answer(options, materials, options.common.show()));
  return done;
}

}  // namespace

void add_materials_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<MaterialsOptions>();
  CLI::App* command = program.add_subcommand("materials", "list the feedstocks, or show all figures of one");
  command->add_option("id", options->id, "a feedstock or compost, by id or everyday name");
  command->add_flag("--sources", options->sources, "list the publications, and how the figures used are known");
  command->add_flag("--dies-at", options->dies_at, "at what heat weed seeds and germs are said to die");
  command->add_option("--check", options->check, "check the feedstocks of a file for likely slips")->type_name(takes::toml);
  options->common.add_to(*command);
  command->get_option("--base")->group("");  // told of where somebody tries
  command->footer("Examples:\n  heapwright materials\n  heapwright materials leaves\n  heapwright materials --check lab-report.toml");
  command->callback([options, &chosen] { chosen = [options] { return run_materials(*options); }; });
}

}  // namespace heapwright::cli
