#pragma once
/// What the commands take, as their help says it: for man pages and completions.

#include <string>
#include <vector>

namespace heapwright::cli {

/// An option, or an argument without dashes.
struct DescribedOption {
  std::string name;                  ///< "--units"; of an argument "file"
  std::string short_name{};          ///< "-h"
  std::string takes{};               ///< "TEXT", "TOML"; of a flag nothing
  std::vector<std::string> words{};  ///< all that it takes, where they are few
  std::string says;                  ///< what it is for
  bool required = false;
  bool repeats = false;
  std::vector<std::string> excludes{};  ///< options that it does not go with
};

struct DescribedCommand {
  std::string name;  ///< "plan"; of the program itself "heapwright"
  std::string says;
  std::vector<DescribedOption> arguments;
  std::vector<DescribedOption> options;
  std::vector<std::string> notes;     ///< paragraphs below its options
  std::vector<std::string> examples;  ///< lines
};

struct DescribedProgram {
  DescribedCommand itself;
  std::vector<DescribedCommand> commands;
};

DescribedProgram described_program();

}  // namespace heapwright::cli
