/// Gives a target the inputs of folders and files, once each: those that were found, and the seeds. For builds without a fuzzer.

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "checks.hpp"
#include "targets.hpp"

bool heapwright::fuzz::in_every_form(std::string_view) { return true; }

namespace {

void run(const heapwright::fuzz::Target& target, const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  const std::string text((std::istreambuf_iterator<char>(stream)), std::istreambuf_iterator<char>());
  std::fprintf(stderr, "%s\n", path.c_str());  // the last one told is the one that ends the process
  target.run(text);
}

}  // namespace

int main(int count, char** arguments) {
  const heapwright::fuzz::Target* target = count > 1 ? heapwright::fuzz::target_named(arguments[1]) : nullptr;
  if (target == nullptr) {
    std::fprintf(stderr, "name a target, then folders and files\n");
    return 2;
  }
  int inputs = 0;
  for (int i = 2; i < count; ++i) {
    if (!std::filesystem::is_directory(arguments[i])) {
      run(*target, arguments[i]);
      ++inputs;
      continue;
    }
    for (const auto& entry : std::filesystem::directory_iterator(arguments[i])) {
      run(*target, entry.path());
      ++inputs;
    }
  }
  std::printf("%s: %d inputs\n", arguments[1], inputs);
  return inputs > 0 ? 0 : 1;
}
