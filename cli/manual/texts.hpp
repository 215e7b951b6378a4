#pragma once
/// Man pages and completions, made of what is described.

#include <string>

#include "described.hpp"

namespace heapwright::cli {

/// What a man page tells beside its command.
struct Edition {
  std::string version;
  std::string date;      ///< of the version, 2026-11-30
  std::string examples;  ///< the folder of example yards, as installed
  std::string schemas;   ///< the folder of JSON schemas
};

/// heapwright(1).
std::string man_page_of_program(const DescribedProgram& program, const Edition& edition);
/// heapwright-plan(1).
std::string man_page_of_command(const DescribedCommand& command, const DescribedProgram& program, const Edition& edition);

std::string bash_completion(const DescribedProgram& program);
std::string zsh_completion(const DescribedProgram& program);
std::string fish_completion(const DescribedProgram& program);

/// A text with something else wherever a character stands.
std::string with_in_place_of(const std::string& text, char of, const std::string& with);
std::string joined(const std::vector<std::string>& texts, const std::string& between);

}  // namespace heapwright::cli
