#include <memory>

#include "command.hpp"
#include "heapwright/maturity/working.hpp"
#include "heapwright/page/pages.hpp"
#include "heapwright/report/json.hpp"

namespace heapwright::cli {
namespace {

struct MaturityOptions {
  CommonOptions common;
  std::string file;
  std::vector<std::string> tests;
  std::vector<std::string> checks;
  WorkingOption working;
};

/// "self-heating=12 degC" as its two sides. @throws TextError
std::pair<std::string_view, std::string_view> name_and_value(std::string_view text, const std::string& example) {
  const std::size_t equals = text.find('=');
  if (equals == std::string_view::npos) throw TextError("\"" + std::string(text) + "\" has no \"=\"", "write " + example);
  return {text.substr(0, equals), text.substr(equals + 1)};
}

LineOfReport read_test_option(const std::string& text, const Tables& tables) {
  return read_option("--test", text, [&](std::string_view words) {
    const auto [test, value] = name_and_value(words, "--test \"self-heating=12 degC\"");
    return line_of_report(named_line(*tables.criteria, *tables.report_lines, test), *tables.report_lines, value);
  });
}

HouseholdCheck read_check_option(const std::string& text, const Criteria& criteria) {
  return read_option("--check", text, [&](std::string_view words) {
    const auto [check, result] = name_and_value(words, "--check no-reheat=passed");
    return read_household_check(criteria, check, result);
  });
}

ExitCode run_maturity(const MaturityOptions& options) {
  options.common.check_files(options.file);
  Yard yard = options.file.empty() ? options.common.yard_of_options() : options.common.yard(options.file);
  for (const std::string& text : options.tests) keep(yard.observations, read_test_option(text, yard.tables));
  for (const std::string& text : options.checks) yard.observations.checks.push_back(read_check_option(text, *yard.tables.criteria));
  Answer<YardCompost> answer = maturity_of(yard, options.common.today());
  if (options.working.asked) answer.working = working_of_rating(answer->known, yard.tables.materials);
  options.common.print_answer([&] { return json_of_maturity(answer, yard.tables.materials); },
                              [&] { return maturity_page(answer, yard.tables.materials); }, options.common.show(yard.units));
  return answer->known.rating.rating ? done : no_answer;
}

}  // namespace

void add_maturity_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<MaturityOptions>();
  CLI::App* command = program.add_subcommand("maturity", "whether compost is finished and fit for a lawn");
  command->add_option("file", options->file, "a yard file, with [[maturity.test]] and [[maturity.check]]")->type_name(takes::toml);
  command->add_option("--test", options->tests, "\"self-heating=12 degC\", \"lead=14 mg/kg\"; once for each")
      ->take_all()
      ->allow_extra_args(false);
  command->add_option("--check", options->checks, "no-reheat, sealed-bag, seeds or looks: no-reheat=passed")
      ->take_all()
      ->allow_extra_args(false);
  options->working.add_to(*command);
  options->common.add_to(*command);
  command->footer([] {
    const Criteria criteria = built_in_criteria();
    return listed("Tests:", criteria.tests) + listed("Checks:", criteria.checks);
  });
  command->footer(
      "Examples:\n  heapwright maturity my-yard.toml\n  heapwright maturity --check no-reheat=passed --check sealed-bag=failed\n"
      "  heapwright maturity --test \"self-heating=12 degC\" --test \"emergence=95 %\"");
  command->callback([options, &chosen] { chosen = [options] { return run_maturity(*options); }; });
}

}  // namespace heapwright::cli
