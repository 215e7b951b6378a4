#include <fmt/format.h>

#include "texts.hpp"

namespace heapwright::cli {
namespace {

constexpr const char* head_of_bash = R"(# Completion of heapwright for bash, written when it was built, of its own help.

_heapwright_paths() {  # ENDING
  compopt -o filenames
  mapfile -t COMPREPLY < <({ compgen -f -X "!*$1" -- "$word"; compgen -d -- "$word"; } | sort -u)
}

_heapwright() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} command=${COMP_WORDS[1]}
  local options arguments=TEXT takes=
  COMPREPLY=()
  # --units=us comes as three words
  if [ "$word" = = ]; then
    word=
  elif [ "$before" = = ]; then
    before=${COMP_WORDS[COMP_CWORD - 2]}
  fi
  if [ "$COMP_CWORD" = 1 ]; then command=; fi
  case $command in
)";

constexpr const char* tail_of_bash = R"(  esac
  if [ -z "$takes" ]; then
    case $word in
      -*) takes=options ;;
      *) takes=$arguments ;;
    esac
    if [ -z "$word" ] && [ "$takes" = TEXT ]; then takes=options; fi
  fi
  case $takes in
    TEXT | NUMBER) ;;
    TOML) _heapwright_paths .toml ;;
    CSV) _heapwright_paths .csv ;;
    FILE) _heapwright_paths '' ;;
    FOLDER) _heapwright_paths / ;;
    options) mapfile -t COMPREPLY < <(compgen -W "$options" -- "$word") ;;
    *) mapfile -t COMPREPLY < <(compgen -W "$takes" -- "$word") ;;
  esac
}

complete -F _heapwright heapwright
)";

std::string names_for_bash(const std::vector<DescribedOption>& options) {
  std::vector<std::string> names;
  for (const DescribedOption& option : options) names.push_back(option.name);
  return joined(names, " ");
}

std::string case_of_command(const DescribedCommand& command) {
  std::string text = fmt::format("    {})\n      options='{}'\n", command.name, names_for_bash(command.options));
  if (!command.arguments.empty()) text += fmt::format("      arguments={}\n", command.arguments.front().takes);
  text += "      case $before in\n";
  for (const DescribedOption& option : command.options) {
    if (option.takes.empty()) continue;
    text += fmt::format("        {}) takes='{}' ;;\n", option.name, option.words.empty() ? option.takes : joined(option.words, " "));
  }
  return text + "      esac\n      ;;\n";
}

}  // namespace

std::string bash_completion(const DescribedProgram& program) {
  std::vector<std::string> names;
  std::string cases;
  for (const DescribedCommand& command : program.commands) {
    names.push_back(command.name);
    cases += case_of_command(command);
  }
  const std::string first = fmt::format("    '')\n      options='{}'\n      arguments='{}'\n      ;;\n",
                                        names_for_bash(program.itself.options), joined(names, " "));
  return head_of_bash + first + cases + tail_of_bash;
}

}  // namespace heapwright::cli
