/// Writes the man pages and the completions of heapwright into a folder.
/// usage: heapwright-manual FOLDER VERSION DATE EXAMPLES SCHEMAS

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "texts.hpp"

namespace heapwright::cli {

namespace {

void write(const std::filesystem::path& path, const std::string& text) {
  std::filesystem::create_directories(path.parent_path());
  std::ofstream file(path, std::ios::binary);
  if (!(file << text << std::flush)) throw std::runtime_error(path.string() + " cannot be written");
}

void write_all(const std::filesystem::path& folder, const Edition& edition) {
  const DescribedProgram program = described_program();
  const std::filesystem::path pages = folder / "man" / "man1";
  write(pages / "heapwright.1", man_page_of_program(program, edition));
  for (const DescribedCommand& command : program.commands)
    write(pages / ("heapwright-" + command.name + ".1"), man_page_of_command(command, program, edition));
  write(folder / "bash-completion" / "completions" / "heapwright", bash_completion(program));
  write(folder / "zsh" / "site-functions" / "_heapwright", zsh_completion(program));
  write(folder / "fish" / "vendor_completions.d" / "heapwright.fish", fish_completion(program));
}

}  // namespace
}  // namespace heapwright::cli

int main(int argc, char** argv) {
  if (argc != 6) {
    fmt::print(stderr, "usage: heapwright-manual FOLDER VERSION DATE EXAMPLES SCHEMAS\n");
    return 2;
  }
  try {
    heapwright::cli::write_all(argv[1], {argv[2], argv[3], argv[4], argv[5]});
  } catch (const std::exception& error) {
    fmt::print(stderr, "heapwright-manual: {}\n", error.what());
    return 1;
  }
  return 0;
}
