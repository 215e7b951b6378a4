#include <algorithm>
#include <cctype>
#include <iostream>
#include <memory>
#include <unistd.h>

#include "command.hpp"
#include "heapwright/guide/interview.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/turn.hpp"
#include "heapwright/guide/yard_text.hpp"
#include "heapwright/input/printable.hpp"
#include "heapwright/plan/plan.hpp"

namespace heapwright::cli {
namespace {

struct NewOptions {
  CommonOptions common;
  std::string file = "my-yard.toml";
  bool ask = false;
  bool blank = false;
};

constexpr const char* welcome =
    "A few questions about your yard. Enter takes what stands in [brackets].\n"
    "? is \"don't know\", back goes one step back, quit stops and writes nothing.\n";

void say(const std::string& text) { std::cerr << printable(text) << std::flush; }

/// @param usual what Enter takes
void put(const Question& question, const std::string& usual, std::size_t number) {
  say("\n" + wrap(std::to_string(number) + ". " + question.ask, 3) + wrap("   " + question.example, 3));
  say("   [" + (usual == "?" ? "don't know" : usual) + "] > ");
}

/// The answer as it was understood; where it was "don't know", what is done instead.
void say_taken(const Question& question, const Reply& answer) {
  if (answer.is.count("unknown") != 0) {
    say(wrap("   " + question.not_known, 3));
    return;
  }
  const bool takes_something = !answer.texts.empty() || !answer.things.empty() || !answer.taken_as.empty();
  if (question.kind != AnswerKind::yes_no && takes_something) say(wrap("   Taken: " + understood(question, answer) + ".", 3));
}

/// What the question wants, to somebody who asks.
void explain(const Question& question) {
  say(wrap("   One of these is an answer: " + question.example + ".", 3));
  say(wrap("   ? is \"don't know\". " + question.not_known, 3));
  say(wrap("   back goes one step back, start over to the first question, quit stops and writes nothing.", 3));
}

/// Does what somebody wants who does not answer. @throws TextError where the person stops
void take(Turn turn, const Question& question, Interview& interview) {
  if (turn == Turn::quit) throw TextError("stopped: nothing is written", "");
  if (turn == Turn::explain) explain(question);
  if (turn == Turn::back && !interview.back()) say("   This is the first question.\n");
  while (turn == Turn::start_over && interview.back()) {
  }
}

void refuse(const Error& error) {
  const std::string what = error.what();
  const bool ended = what.ends_with('.') || what.ends_with('?') || what.ends_with('!');
  say(wrap("   " + what + (ended ? "" : "."), 3) + wrap("   " + error.hint(), 3));
}

/// A line as it was typed, up to its end; an input that ends within a line, or before it, is no answer.
std::string read_line() {
  constexpr std::size_t longest_line = 10'000;  // bytes, judged: a device without end has no lines
  std::string said;
  char c = '\0';
  while (std::cin.get(c) && c != '\n') {
    said += c;
    if (said.size() > longest_line) {
      say("\n");
      throw TextError("a line has more than 10000 bytes, which is no answer: nothing is written", "answer in a few words");
    }
  }
  if (!std::cin) {
    say("\n");
    throw TextError("the input ended before the last question: nothing is written", "answer every question; Enter takes the default");
  }
  if (said.ends_with('\r')) said.pop_back();
  if (!isatty(STDIN_FILENO)) say(said + "\n");  // so that a recording reads like a terminal
  return said;
}

/// Whether it is an answer, which is taken; else says why not.
bool answers(Interview& interview, const Question& question, const std::string& said) {
  try {
    interview.answer(said);
    say_taken(question, interview.answers().at(question.id));
    return true;
  } catch (const Error& error) {
    refuse(error);
    return false;
  }
}

/// Asks until all is answered. @throws TextError where the person stops, the input ends, or nothing but nonsense comes
Replies ask(const Tables& tables, Date today) {
  constexpr int most_refused = 20;
  Interview interview(tables, today);
  say(welcome);
  int refused = 0;
  while (const Question* due = interview.due()) {
    const Question question = *due;
    put(question, interview.usual(), interview.number());
    const std::string said = read_line();
    const Turn turn = turn_of(plain_answer(said));
    if (turn != Turn::answer) {
      take(turn, question, interview);
      ++refused;  // a pipe may ask for help without end
    } else if (answers(interview, question, said)) {
      refused = 0;
    } else {
      ++refused;
    }
    if (refused == most_refused) throw TextError("twenty answers in a row could not be read: nothing is written", "");
  }
  return interview.answers();
}

/// All that can go wrong with the files, before anything is asked.
void check(const NewOptions& options) {
  const std::string& file = options.file;
  if (file.empty()) throw TextError("the yard file has no name", "write heapwright new my-yard.toml");
  options.common.check_files({}, {}, {{"the yard file", file}});
  if (!options.ask && !options.blank && !isatty(STDIN_FILENO))
    throw TextError("new asks questions, and there is no terminal to ask on",
                    "add --ask to answer through a pipe, or --blank for a file to fill in");
}

/// A word as a shell takes it.
std::string for_shell(const std::string& word) {
  const auto plain = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) != 0 || std::string_view("._-/+:").find(c) != std::string_view::npos;
  };
  if (!word.empty() && std::all_of(word.begin(), word.end(), plain)) return word;
  std::string quoted = "'";
  for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return quoted + "'";
}

std::string command_again(const NewOptions& options) {
  const std::string materials = options.common.materials_file.empty() ? "" : " --materials " + for_shell(options.common.materials_file);
  const std::string base = options.common.base.empty() ? "" : " --base " + for_shell(options.common.base);
  const bool looks_like_an_option = options.file.starts_with('-');
  return "heapwright plan " + for_shell((looks_like_an_option ? "./" : "") + options.file) + materials + base;
}

ExitCode run_new(const NewOptions& options) {
  check(options);
  const Tables tables = options.common.tables();
  const Date today = options.common.today();
  const std::string text = options.blank ? starter_yard_text() : yard_text(ask(tables, today), today);
  Yard yard = read_yard_text(text, options.file, tables, options.common.base);
  yard.units = options.common.shown_units(yard.units);
  const Answer<Plan> plan = make_plan(yard, today);
  write_whole("", options.file, text, options.common.force);
  say("\nWritten to " + options.file + ". To see this again:\n  " + command_again(options) + "\n\n");
  return print_plan(options.common, plan, yard);
}

}  // namespace

void add_new_command(CLI::App& program, ChosenCommand& chosen) {
  auto options = std::make_shared<NewOptions>();
  CLI::App* command = program.add_subcommand("new", "make a yard file by answering questions, and see its plan");
  command->add_option("file", options->file, "the yard file to write, my-yard.toml where none is named")->type_name(takes::toml);
  command->add_flag("--ask", options->ask, "ask even where there is no terminal, as through a pipe");
  command->add_flag("--blank", options->blank, "ask nothing: write a file to fill in, with comments");
  options->common.add_to(*command);
  command->footer("Examples:\n  heapwright new my-yard.toml\n  heapwright new my-yard.toml --blank");
  command->callback([options, &chosen] { chosen = [options] { return run_new(*options); }; });
}

}  // namespace heapwright::cli
