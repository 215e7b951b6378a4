#include "run.hpp"

#include <algorithm>
#include <csignal>
#include <fcntl.h>
#include <iostream>
#include <malloc.h>
#include <new>
#include <sstream>
#include <unistd.h>

#include "command.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/linear_program/linear_program.hpp"
#include "heapwright/units/nearest.hpp"
#include "scratch_file.hpp"

namespace heapwright::cli {
namespace {

constexpr const char* first_lines =
    "What to do with leaves, clippings and kitchen scraps.\n\n"
    "How much of each goes into the pile, and how much water?\n"
    "  heapwright recipe --have \"leaves=20 bags\" --have \"kitchen scraps=3 buckets\"\n\n"
    "How much compost does a lawn take?\n"
    "  heapwright topdress --area \"5000 ft2\" --depth \"1/4 in\"\n\n"
    "How far do two cubic yards of compost go?\n"
    "  heapwright topdress --have \"2 yd3\"\n\n"
    "Or be asked about your own yard, a dozen plain questions, and get the plan:\n"
    "  heapwright new my-yard.toml\n\n"
    "`heapwright --help` lists all commands.\n";

void tell(const std::string& message, const std::string& hint) {
  std::cerr << printable("heapwright: " + message + "\n");
  if (!hint.empty()) std::cerr << printable("    " + hint + "\n");
}

/// A word that is no command, or an option that is none, with the nearest that is.
int refuse(const CLI::App& program, const CLI::ParseError& error) {
  std::string hint = "`heapwright --help` lists the commands and options";
  const bool lacks_file = std::string_view(error.what()) == "file is required";
  if (lacks_file) hint = "name a yard file; `heapwright new my-yard.toml` asks a dozen questions and writes one";
  const CLI::App* at = &program;
  std::vector<std::string> known;
  for (const CLI::App* command : program.get_subcommands()) at = command;
  for (const CLI::App* command : at->get_subcommands([](const CLI::App*) { return true; })) known.push_back(command->get_name());
  for (const CLI::Option* option : at->get_options()) known.push_back(option->get_name());
  for (const std::string& word : at->remaining()) {
    if (const auto near = nearest(word, known)) hint = "did you mean " + *near + "?";
  }
  tell(error.what(), hint);
  return bad_input;
}

/// What is printed of the program itself: --help, --version.
ExitCode print_about(const CLI::App& program, const CLI::Success& asked) {
  std::ostringstream text;
  program.exit(asked, text);
  to_standard_output(text.str());
  return done;
}

ExitCode print_first_lines() {
  to_standard_output(first_lines);
  return done;
}

/// Word processors and telephones make one long dash of two, and some people write one.
void refuse_other_dashes(const std::string& word) {
  const auto is_letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  for (const std::string_view dash : {"—", "–", "−"}) {
    if (word.starts_with(dash))
      throw TextError("\"" + word + "\" begins with a long dash", "write two short ones: --" + word.substr(dash.size()));
  }
  const bool single = word.size() > 2 && word[0] == '-' && is_letter(word[1]) && is_letter(word[2]);
  if (single) throw TextError("\"" + word + "\" begins with one dash", "write two: -" + word);
}

/// The words of the command line; "help" and "help recipe" ask as --help does.
std::vector<std::string> words_of_line(int argc, char** argv) {
  std::vector<std::string> words(argv + std::min(argc, 1), argv + argc);
  for (auto word = words.begin(); word != words.end() && *word != "--"; ++word) refuse_other_dashes(*word);
  if (!words.empty() && words.front() == "help") {
    words.erase(words.begin());
    words.emplace_back("--help");
  }
  return words;
}

ExitCode run_what_is_asked(CLI::App& program, const ChosenCommand& chosen, std::vector<std::string> words) {
  try {
    std::reverse(words.begin(), words.end());  // as CLI::App wants them
    program.parse(std::move(words));
  } catch (const CLI::Success& asked) {
    return print_about(program, asked);
  }
  return chosen();
}

/// Standard streams that are closed are opened the wrong way round: to use one fails as it did, and no file that is opened is taken for it.
void hold_standard_streams() {
  for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (fcntl(stream, F_GETFD) < 0) open("/dev/null", stream == STDIN_FILENO ? O_WRONLY : O_RDONLY);  // takes the lowest that is free
  }
}

/// What is freed stays with the program: given back to the system after each of the solver's programmes and asked for again, it was half of
/// the time of a recipe.
void keep_freed_memory() {
  constexpr int megabyte = 1 << 20;
  mallopt(M_TRIM_THRESHOLD, 16 * megabyte);
  mallopt(M_MMAP_THRESHOLD, 4 * megabyte);
  mallopt(M_TOP_PAD, megabyte);
}

void prepare_for_faults() {
  hold_standard_streams();
  std::signal(SIGXFSZ, SIG_IGN);  // a file that grows past its limit is told of as a full disk is
  remove_scratch_files_at_signals();
}

}  // namespace

int run(int argc, char** argv) {
  prepare_for_faults();
  keep_freed_memory();
  ChosenCommand chosen = print_first_lines;
  CLI::App program;
  add_everything(program, chosen);
  try {
    return run_what_is_asked(program, chosen, words_of_line(argc, argv));
  } catch (const CLI::ParseError& error) {
    return refuse(program, error);
  } catch (const InputError& error) {
    std::cerr << printable(error.what());
    return bad_input;
  } catch (const SolverFailure& error) {
    tell(std::string(error.what()) + ". This is a fault of heapwright, not of your file", "please report it with the file");
    return our_fault;
  } catch (const Error& error) {
    tell(error.what(), error.hint());
    return bad_input;
  } catch (const std::bad_alloc&) {
    tell("there is not enough memory", "close other programs, or leave out what is not needed of the file");
    return bad_input;
  } catch (const std::exception& error) {
    tell(std::string(error.what()) + ". This is a fault of heapwright", "please report it with the command");
    return our_fault;
  }
}

}  // namespace heapwright::cli
