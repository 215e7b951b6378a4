#include "checks.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cstdio>
#include <cstdlib>
#include <sys/mman.h>
#include <unistd.h>

#include "heapwright/error.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/report/layout.hpp"

namespace heapwright::fuzz {
namespace {

long answered = 0;

[[noreturn]] void end_with(std::string_view what, std::string_view more = {}) {
  std::fprintf(stderr, "does not hold: %.*s\n%.*s\n", static_cast<int>(what.size()), what.data(), static_cast<int>(more.size()),
               more.data());
  std::abort();
}

bool is_letter(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || (static_cast<unsigned char>(c) & 0x80U) != 0; }

std::string in_small_letters(std::string_view text) {
  std::string small(text);
  std::transform(small.begin(), small.end(), small.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return small;
}

/// Whether a word stands in a text by itself.
bool has_word(std::string_view text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
    const bool begins = at == 0 || !is_letter(text[at - 1]);
    const bool ends = at + word.size() == text.size() || !is_letter(text[at + word.size()]);
    if (begins && ends) return true;
  }
  return false;
}

void check_error(const Error& error) {
  if (dynamic_cast<const NotFinite*>(&error) != nullptr) end_with("numbers are numbers", error.what());
  if (const auto* of_input = dynamic_cast<const InputError*>(&error)) {
    for (const Problem& problem : of_input->problems()) {
      require(!problem.what.empty(), "a problem says what is wrong");
      require(problem.where.line >= 0 && problem.where.column >= 0, "a problem stands somewhere");
      require(!describe(problem).empty(), "a problem can be described");
    }
  }
}

}  // namespace

const Tables& tables() {
  static const Tables once = built_in_tables();
  return once;
}

void require(bool holds, std::string_view what) {
  if (!holds) end_with(what);
}

bool ends_well(const std::function<void()>& work) {
  try {
    work();
    return true;
  } catch (const Error& error) {
    check_error(error);
    return false;
  }
}

void must_end_well(const std::function<void()>& work) {
  try {
    work();
  } catch (const Error& error) {
    end_with("what was accepted is answered", std::string(error.what()) + "\n" + error.hint());
  }
}

void count_answered() {
  if (answered++ == 0) std::atexit([] { std::fprintf(stderr, "stat::answered:                 %ld\n", answered); });
}

long answered_so_far() { return answered; }

void check_output(const std::string& output, std::string_view input) {
  const std::string shown = printable(output);
  require(shown == output || printable(shown) == shown, "what is printable stays as it is");
  for (const std::string_view word : {"nan", "inf"}) {
    if (has_word(output, word) && in_small_letters(input).find(word) == std::string::npos)
      end_with("no output holds a number that is none", output);
  }
}

void check_answer(const std::string& json, const Page& page, const Show& show, std::string_view input) {
  require(nlohmann::json::accept(json), "JSON is JSON");
  check_output(json, input);
  check_output(text_of(page, show, Screen{narrowest_screen, Depth::ground, true}), input);
  check_output(html_of(page, show), input);
}

FileOf::FileOf(std::string_view text) : descriptor_(memfd_create("input", 0)), path_("/proc/self/fd/" + std::to_string(descriptor_)) {
  if (write(descriptor_, text.data(), text.size()) != static_cast<ssize_t>(text.size())) std::abort();
}

FileOf::~FileOf() { close(descriptor_); }

}  // namespace heapwright::fuzz
