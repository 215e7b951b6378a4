/// The fuzzer's way in: --target=NAME chooses what is fuzzed.

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <functional>
#include <random>

#include "checks.hpp"
#include "targets.hpp"

namespace {

using heapwright::fuzz::Target;
const Target* target = nullptr;

/// Some of the inputs that were answered, for most changes make an input that is refused.
std::vector<std::string> answered_inputs;

void keep_answered(std::string_view input) {
  constexpr std::size_t most_kept = 500;
  if (answered_inputs.size() < most_kept) {
    answered_inputs.emplace_back(input);
  } else {
    answered_inputs.at(static_cast<std::size_t>(heapwright::fuzz::answered_so_far()) % most_kept) = input;
  }
}

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
void change_number(std::string& line, std::minstd_rand& random) {
  constexpr std::array<const char*, 24> numbers{"0",      "1",    "2",     "7",       "13",    "40",    "99",   "100",
                                                "365",    "1000", "36525", "1e6",     "0.1",   "0.5",   "1e-6", "1e-12",
                                                "1e-300", "1e11", "1e12",  "9999999", "1.0e7", "10001", "1/3",  "2147483648"};
  const auto [begin, length] = number_in(line, line.empty() ? 0 : random() % line.size());
  if (length > 0) line.replace(begin, length, numbers.at(random() % numbers.size()));
}

std::string_view key_of(std::string_view line) { return line.substr(0, std::min(line.find('='), line.size())); }

/// Puts another line of the same key in the place of one; false where there is none.
bool take_line(std::string& line, const Lines& others, std::size_t first) {
  for (std::size_t i = 0; i < others.size(); ++i) {
    const std::string& other = others[(first + i) % others.size()];
    if (other == line || key_of(other) != key_of(line)) continue;
    line = other;
    return true;
  }
  return false;
}

/// The value of another line of the same key, where there is one, else of any line.
void change_value(Lines& lines, std::size_t at, std::size_t other) {
  if (take_line(lines[at], lines, other)) return;
  const std::string_view value = std::string_view(lines[other]).substr(key_of(lines[other]).size());
  lines[at] = std::string(key_of(lines[at])) + std::string(value);
}

void change_lines(Lines& lines, std::minstd_rand& random) {
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

/// An input that was answered, with a line of another one or another number: it may well be answered too.
std::string changed_answered(std::minstd_rand& random) {
  const auto any = [&] { return lines_of(answered_inputs[random() % answered_inputs.size()]); };
  Lines lines = any();
  if (lines.empty()) return {};
  std::string& line = lines[random() % lines.size()];
  if (random() % 2 == 0 || !take_line(line, any(), random())) change_number(line, random);
  return text_of_lines(lines);
}

std::string changed(std::string_view input, std::minstd_rand& random) {
  if (!answered_inputs.empty() && random() % 2 == 0) return changed_answered(random);
  Lines lines = lines_of(input);
  for (unsigned long changes = 1 + random() % 3; changes > 0 && !lines.empty(); --changes) change_lines(lines, random);
  return text_of_lines(lines);
}

}  // namespace

bool heapwright::fuzz::in_every_form(std::string_view input) {
#if __has_feature(address_sanitizer)
  return !input.empty();
#else
  return std::hash<std::string_view>()(input) % 8 == 0;
#endif
}

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
  std::minstd_rand random(seed);
  if (!target->by_lines || size == 0 || random() % 5 == 0) return LLVMFuzzerMutate(data, size, most);
  const std::string text = changed(std::string_view(reinterpret_cast<const char*>(data), size), random);
  const std::size_t length = std::min(text.size(), most);
  std::memcpy(data, text.data(), length);
  return length;
}

int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view input(reinterpret_cast<const char*>(data), size);
  const long before = heapwright::fuzz::answered_so_far();
  target->run(input);
  if (heapwright::fuzz::answered_so_far() > before) keep_answered(input);
  return 0;
}
}
