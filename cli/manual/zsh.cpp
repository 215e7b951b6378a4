#include <fmt/format.h>

#include "texts.hpp"

namespace heapwright::cli {
namespace {

/// In single quotes.
std::string quoted_for_zsh(const std::string& text) { return "'" + with_in_place_of(text, '\'', "'\\''") + "'"; }

/// What says something, where colons and brackets end it.
std::string plain_for_zsh(const std::string& text) {
  std::string safe = with_in_place_of(text, '\\', "\\\\");
  for (const char c : {':', '[', ']'}) safe = with_in_place_of(safe, c, std::string("\\") + c);
  return safe;
}

std::string action_of_zsh(const DescribedOption& option) {
  if (!option.words.empty()) return "(" + joined(option.words, " ") + ")";
  if (option.takes == "TOML") return "_files -g \"*.toml\"";
  if (option.takes == "CSV") return "_files -g \"*.csv\"";
  if (option.takes == "FILE") return "_files";
  if (option.takes == "FOLDER") return "_files -/";
  return " ";  // some text, of which nothing is known
}

std::string option_for_zsh(const DescribedOption& option) {
  std::string excluded = option.excludes.empty() ? "" : "(" + joined(option.excludes, " ") + ")";
  if (option.repeats) excluded = "*";
  const std::string says = "[" + plain_for_zsh(option.says) + "]";
  if (option.takes.empty()) {
    std::string one = quoted_for_zsh(excluded + option.name + says);
    if (!option.short_name.empty()) one += " " + quoted_for_zsh(option.short_name + says);
    return one;
  }
  return quoted_for_zsh(fmt::format("{}{}={}:{}:{}", excluded, option.name, says, option.takes, action_of_zsh(option)));
}

std::string argument_for_zsh(const DescribedOption& argument) {
  const std::string place = argument.repeats ? "*" : argument.required ? "" : ":";
  return quoted_for_zsh(fmt::format("{}:{}:{}", place, plain_for_zsh(argument.name), action_of_zsh(argument)));
}

std::string arguments_for_zsh(const DescribedCommand& command) {
  std::vector<std::string> specs;
  for (const DescribedOption& option : command.options) specs.push_back(option_for_zsh(option));
  for (const DescribedOption& argument : command.arguments) specs.push_back(argument_for_zsh(argument));
  return joined(specs, " \\\n            ");
}

}  // namespace

std::string zsh_completion(const DescribedProgram& program) {
  std::string names;
  std::string cases;
  for (const DescribedCommand& command : program.commands) {
    names += "        " + quoted_for_zsh(command.name + ":" + with_in_place_of(command.says, ':', "\\:")) + "\n";
    cases += "        " + command.name + ")\n          _arguments \\\n            " + arguments_for_zsh(command) + "\n          ;;\n";
  }
  std::vector<std::string> own;
  for (const DescribedOption& option : program.itself.options) own.push_back(option_for_zsh(option));
  return "#compdef heapwright\n# Completion of heapwright for zsh, written when it was built, of its own help.\n\n"
         "_heapwright() {\n  local curcontext=$curcontext state line\n  typeset -A opt_args\n  _arguments -C \\\n    " +
         joined(own, " \\\n    ") + " \\\n    '1:command:->command' \\\n    '*::argument:->argument' && return\n" +
         "  case $state in\n    command)\n      local -a commands=(\n" + names +
         "      )\n      _describe -t commands command commands\n      ;;\n    argument)\n      case $words[1] in\n" + cases +
         "      esac\n      ;;\n  esac\n}\n\n_heapwright \"$@\"\n";
}

}  // namespace heapwright::cli
