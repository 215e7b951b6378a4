#include <fmt/format.h>

#include "texts.hpp"

namespace heapwright::cli {
namespace {

constexpr const char* head_of_fish = R"(# Completion of heapwright for fish, written when it was built, of its own help.

function __heapwright_paths --argument-names ending
    set -l begun (commandline -ct | string replace -r -- '^--[^=]*=' '')
    complete -C "'' $begun" | string match -r -- ".*(?:/|$ending)(?:\t.*)?\$"
end

complete -c heapwright -f
)";

std::string quoted_for_fish(const std::string& text) {
  return "'" + with_in_place_of(with_in_place_of(text, '\\', "\\\\"), '\'', "\\'") + "'";
}

/// What fish is to offer for something that is taken.
std::string offered_by_fish(const DescribedOption& option) {
  if (!option.words.empty()) return " -a " + quoted_for_fish(joined(option.words, " "));
  if (option.takes == "TOML") return " -a '(__heapwright_paths \\.toml)'";
  if (option.takes == "CSV") return " -a '(__heapwright_paths \\.csv)'";
  if (option.takes == "FILE") return " -F";
  if (option.takes == "FOLDER") return " -a '(__heapwright_paths /)'";
  return "";
}

std::string option_for_fish(const std::string& where, const DescribedOption& option) {
  const std::string short_name = option.short_name.empty() ? "" : " -s " + option.short_name.substr(1);
  const std::string taken = option.takes.empty() ? "" : (option.takes == "FILE" ? " -r" : " -x") + offered_by_fish(option);
  return fmt::format("complete -c heapwright -n '{}'{} -l {}{} -d {}\n", where, short_name, option.name.substr(2), taken,
                     quoted_for_fish(option.says));
}

}  // namespace

std::string fish_completion(const DescribedProgram& program) {
  const std::string no_command = "__fish_use_subcommand";
  std::string text = head_of_fish;
  for (const DescribedOption& option : program.itself.options) text += option_for_fish(no_command, option);
  for (const DescribedCommand& command : program.commands) {
    const std::string in_command = "__fish_seen_subcommand_from " + command.name;
    text += fmt::format("\ncomplete -c heapwright -n {} -a {} -d {}\n", no_command, command.name, quoted_for_fish(command.says));
    for (const DescribedOption& option : command.options) text += option_for_fish(in_command, option);
    for (const DescribedOption& argument : command.arguments) {
      const std::string offered = offered_by_fish(argument);
      if (!offered.empty()) text += fmt::format("complete -c heapwright -n '{}'{}\n", in_command, offered);
    }
  }
  return text;
}

}  // namespace heapwright::cli
