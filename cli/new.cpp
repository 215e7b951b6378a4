#include <unistd.h>

#include <filesystem>
#include <iostream>
#include <memory>

#include "command.hpp"
#include "heapwright/guide/interview.hpp"
#include "heapwright/guide/yard_text.hpp"
#include "heapwright/plan/plan.hpp"
#include "heapwright/report/json.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright::cli {
namespace {

struct Options {
  CommonOptions common;
  std::string file;
  bool ask = false;
  bool blank = false;
};

constexpr const char* welcome =
    "A few questions about your yard. Enter takes what stands in [brackets].\n"
    "? is \"don't know\", back goes one step back, quit stops and writes nothing.\n";

void put(const Question& question, std::size_t number) {
  std::cerr << "\n" << wrap(std::to_string(number) + ". " + question.ask, 3) << wrap("   " + question.example, 3);
  std::cerr << "   [" << (question.usual == "?" ? "don't know" : question.usual) << "] > " << std::flush;
}

/// What is done where the answer was "don't know".
void say_not_known(const Question& question, const Answers& answers) {
  if (answers.at(question.id).is.count("unknown") != 0) std::cerr << wrap("   " + question.not_known, 3);
}

/// Asks until all is answered. @throws TextError where the person stops or the input ends
Answers ask(const Materials& materials) {
  Interview interview(questions(), materials, today());
  std::cerr << welcome;
  while (const Question* due = interview.due()) {
    const Question question = *due;
    put(question, interview.number());
    std::string said;
    if (!std::getline(std::cin, said)) {
      std::cerr << "\n";
      throw TextError("the input ended before the last question: nothing is written", "answer every question; Enter takes the default");
    }
    if (!isatty(STDIN_FILENO)) std::cerr << said << "\n";  // so that a recording reads like a terminal
    if (said == "quit") throw TextError("stopped: nothing is written", "");
    if (said == "back") {
      if (!interview.back()) std::cerr << "   This is the first question.\n";
      continue;
    }
    try {
      interview.answer(said);
      say_not_known(question, interview.answers());
    } catch (const Error& error) {
      std::cerr << wrap("   " + std::string(error.what()) + ".", 3) << wrap("   " + error.hint(), 3);
    }
  }
  return interview.answers();
}

void check(const Options& options) {
  std::error_code trouble;
  if (std::filesystem::exists(options.file, trouble) && !options.common.force)
    throw TextError(options.file + " exists already", "name another file, or add --force");
  const std::filesystem::path folder = std::filesystem::absolute(options.file, trouble).parent_path();
  if (!std::filesystem::is_directory(folder, trouble))
    throw TextError(options.file + ": there is no folder " + folder.string(), "make it first, or name another file");
  if (!options.ask && !options.blank && !isatty(STDIN_FILENO))
    throw TextError("new asks questions, and there is no terminal to ask on",
                    "add --ask to answer through a pipe, or --blank for a file to fill in");
}

}  // namespace

void add_new_command(CLI::App& program, int& exit_code) {
  auto options = std::make_shared<Options>();
  CLI::App* command = program.add_subcommand("new", "make a yard file by answering questions, and see its plan");
  command->add_option("file", options->file, "the yard file to write")->required();
  command->add_flag("--ask", options->ask, "ask even where there is no terminal, as through a pipe");
  command->add_flag("--blank", options->blank, "ask nothing: write a file to fill in, with a comment at each key");
  options->common.add_to(*command);
  command->footer("Examples:\n  heapwright new my-yard.toml\n  heapwright new my-yard.toml --blank");
  command->callback([options, &exit_code] {
    check(*options);
    const Materials materials = options->common.materials();
    const std::string text = options->blank ? starter_yard_text() : yard_text(ask(materials));
    const Yard yard = read_yard_text(text, options->file, materials);
    const Plan plan = make_plan(yard, today());
    write_whole(options->file, text, options->common.force);
    std::cerr << "\nWritten to " << options->file << ". `heapwright plan " << options->file << "` shows this again.\n\n";
    options->common.print(options->common.json ? json_of_plan(plan, yard.materials)
                                               : text_of_plan(plan, yard.materials, options->common.show(yard.units)));
    exit_code = plan.recipe.mix || plan.topdressing ? done : no_answer;
  });
}

}  // namespace heapwright::cli
