/// The fuzzer's way in: --target=NAME chooses what is fuzzed.

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <random>

#include "targets.hpp"

namespace {

using heapwright::fuzz::Target;
const Target* target = nullptr;

using Lines = std::vector<std::string>;

Lines lines_of(std::string_view text) {
  Lines lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return lines;
}

std::string text_of_lines(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

/// Where a number stands in a line; its length is 0 where there is none.
std::pair<std::size_t, std::size_t> number_in(const std::string& line, std::size_t from) {
  const std::size_t begin = line.find_first_of("0123456789", from);
  if (begin == std::string::npos) return {0, 0};
  const std::size_t end = std::min(line.find_first_not_of("0123456789./", begin), line.size());
  return {begin, end - begin};
}

/// Another number in the place of one: small, large, none, at the bounds.
void change_number(std::string& line, std::mt19937& random) {
  constexpr std::array<const char*, 24> numbers{"0",      "1",    "2",     "7",       "13",    "40",    "99",   "100",
                                                "365",    "1000", "36525", "1e6",     "0.1",   "0.5",   "1e-6", "1e-12",
                                                "1e-300", "1e11", "1e12",  "9999999", "1.0e7", "10001", "1/3",  "2147483648"};
  const auto [begin, length] = number_in(line, line.empty() ? 0 : random() % line.size());
  if (length > 0) line.replace(begin, length, numbers.at(random() % numbers.size()));
}

std::string_view key_of(std::string_view line) { return line.substr(0, std::min(line.find('='), line.size())); }

/// The value of another line of the same key, where there is one, else of any line.
void change_value(Lines& lines, std::size_t at, std::size_t other) {
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::size_t candidate = (other + i) % lines.size();
    if (candidate == at || key_of(lines[candidate]) != key_of(lines[at])) continue;
    lines[at] = lines[candidate];
    return;
  }
  const std::string_view value = std::string_view(lines[other]).substr(key_of(lines[other]).size());
  lines[at] = std::string(key_of(lines[at])) + std::string(value);
}

void change_lines(Lines& lines, std::mt19937& random) {
  const auto any = [&] { return random() % lines.size(); };
  const std::size_t at = any();
  const std::size_t to = any();
  const auto place = [&](std::size_t line) { return lines.begin() + static_cast<std::ptrdiff_t>(line); };
  switch (random() % 8) {
    case 0: lines.erase(place(at)); return;
    case 1: std::swap(lines[at], lines[to]); return;
    case 2: lines.insert(place(at), lines[to]); return;
    case 3: {  // a block of lines once more
      const Lines block(place(std::min(at, to)), place(std::max(at, to)));
      lines.insert(lines.end(), block.begin(), block.end());
      return;
    }
    case 4: change_value(lines, at, to); return;
    default: change_number(lines[at], random); return;
  }
}

}  // namespace

extern "C" {

std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t most);

int LLVMFuzzerInitialize(int* count, char*** arguments) {
  constexpr std::string_view option = "--target=";
  for (int i = 1; i < *count; ++i) {
    const std::string_view argument = (*arguments)[i];
    if (argument.starts_with(option)) target = heapwright::fuzz::target_named(argument.substr(option.size()));
  }
  const bool asks_for_longest =
      std::any_of(*arguments, *arguments + *count, [](const char* one) { return std::string_view(one) == "--longest"; });
  if (target != nullptr && asks_for_longest) {
    std::printf("%zu\n", target->longest);
    std::exit(0);
  }
  if (target != nullptr) return 0;
  std::fprintf(stderr, "name a target: --target=amounts\n");
  std::exit(2);
}

std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t most, unsigned seed) {
  std::mt19937 random(seed);
  if (!target->by_lines || size == 0 || random() % 5 == 0) return LLVMFuzzerMutate(data, size, most);
  Lines lines = lines_of(std::string_view(reinterpret_cast<const char*>(data), size));
  for (unsigned changes = 1 + random() % 3; changes > 0 && !lines.empty(); --changes) change_lines(lines, random);
  const std::string changed = text_of_lines(lines);
  const std::size_t length = std::min(changed.size(), most);
  std::memcpy(data, changed.data(), length);
  return length;
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  target->run(std::string_view(reinterpret_cast<const char*>(data), size));
  return 0;
}
}
