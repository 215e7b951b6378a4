#include "described.hpp"

#include <sstream>

#include "../command.hpp"

namespace heapwright::cli {
namespace {

/// "TEXT:{us,si,both}": CLI11 tells the words with the name of the type.
std::vector<std::string> words_in(const std::string& type) {
  const std::size_t open = type.find(":{");
  const std::size_t close = type.find('}');
  std::vector<std::string> words;
  if (open == std::string::npos || close == std::string::npos) return words;
  std::istringstream list(type.substr(open + 2, close - open - 2));
  for (std::string word; std::getline(list, word, ',');) words.push_back(word);
  return words;
}

DescribedOption described(const CLI::Option& option) {
  DescribedOption one;
  one.name = option.nonpositional() ? "--" + option.get_lnames().at(0) : option.get_name(true);
  if (!option.get_snames().empty()) one.short_name = "-" + option.get_snames().front();
  const std::string type = option.get_type_name();
  const bool is_flag = option.get_items_expected_max() == 0;
  if (!is_flag) one.takes = type.substr(0, type.find(':'));
  one.words = words_in(type);
  one.says = option.get_description();
  one.required = option.get_required();
  one.repeats = option.get_items_expected_max() > 1;
  for (const CLI::Option* other : option.get_excludes()) one.excludes.push_back("--" + other->get_lnames().at(0));
  return one;
}

/// Lines of the end of a help: paragraphs whose further lines are indented, then examples.
void add_end(const std::string& text, DescribedCommand& command) {
  std::istringstream lines(text);
  bool in_examples = false;
  for (std::string line; std::getline(lines, line);) {
    if (line == "Example:" || line == "Examples:") {
      in_examples = true;
    } else if (line.empty()) {
      continue;
    } else if (in_examples) {
      command.examples.push_back(line.substr(line.find_first_not_of(' ') - (line.starts_with("    ") ? 2 : 0)));
    } else if (line.starts_with(' ') && !command.notes.empty()) {
      command.notes.back() += line.substr(line.find_first_not_of(' ') - 1);
    } else {
      command.notes.push_back(line);
    }
  }
}

DescribedCommand described(const CLI::App& app) {
  DescribedCommand command{app.get_name(), app.get_description(), {}, {}, {}, {}};
  for (const CLI::Option* option : app.get_options()) {
    const bool is_hidden = option->get_group().empty();
    if (!is_hidden) (option->nonpositional() ? command.options : command.arguments).push_back(described(*option));
  }
  add_end(app.get_footer(), command);
  return command;
}

}  // namespace

DescribedProgram described_program() {
  CLI::App app;
  ChosenCommand chosen;
  add_everything(app, chosen);
  DescribedProgram program{described(app), {}};
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) program.commands.push_back(described(*command));
  return program;
}

}  // namespace heapwright::cli
