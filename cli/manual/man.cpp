#include <fmt/format.h>

#include <cctype>

#include "heapwright/report/show.hpp"
#include "texts.hpp"

namespace heapwright::cli {
namespace {

/// A text as roff takes it for itself: dashes and quotes as they are typed.
std::string roff(const std::string& text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '\\': safe += "\\e"; break;
      case '-': safe += "\\-"; break;
      case '\'': safe += "\\(aq"; break;
      case '`': safe += "\\(ga"; break;
      case '^': safe += "\\(ha"; break;
      case '~': safe += "\\(ti"; break;
      default: safe += c;
    }
  }
  return safe;
}

/// In lines of which none is a command.
std::string paragraph(const std::string& text) {
  std::string lines = wrap(text);
  if (lines.starts_with('.')) lines.insert(0, "\\&");
  for (std::size_t at = lines.find("\n."); at != std::string::npos; at = lines.find("\n.", at)) lines.insert(at + 1, "\\&");
  return lines;
}

std::string bold(const std::string& text) { return "\\fB" + roff(text) + "\\fR"; }
std::string slanted(const std::string& text) { return "\\fI" + roff(text) + "\\fR"; }

std::string heading(const std::string& name) { return ".SH " + name + "\n"; }

/// A line for itself with what it means below.
std::string meaning(const std::string& term, const std::string& says) { return ".TP\n" + term + "\n" + paragraph(says); }

/// "the whole job" as "The whole job."
std::string sentence(std::string text) {
  text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text.ends_with('.') ? text : text + ".";
}

std::string placeholder(const DescribedOption& option) {
  if (option.words.empty()) return slanted(option.takes);
  std::vector<std::string> words;
  for (const std::string& word : option.words) words.push_back(bold(word));
  return joined(words, "|");
}

std::string term_of(const DescribedOption& option) {
  if (!option.name.starts_with("--")) return slanted(option.name);
  const std::string name = (option.short_name.empty() ? "" : bold(option.short_name) + ", ") + bold(option.name);
  return option.takes.empty() ? name : name + " " + placeholder(option);
}

std::string says_of(const DescribedOption& option) {
  std::vector<std::string> others;
  for (const std::string& other : option.excludes) others.push_back(bold(other));
  return roff(option.says) + (others.empty() ? "" : ". Not together with " + joined(others, ", ") + ".");
}

std::string options_section(const DescribedCommand& command) {
  std::string text = heading("OPTIONS");
  for (const DescribedOption& option : command.options) text += meaning(term_of(option), says_of(option));
  return text;
}

/// With example yards where they are installed.
std::string examples_section(const DescribedCommand& command, const Edition& edition) {
  constexpr std::string_view in_sources = " examples/";
  if (command.examples.empty()) return "";
  std::string text = heading("EXAMPLES") + ".nf\n";
  for (std::string line : command.examples) {
    for (std::size_t at = line.find(in_sources); at != std::string::npos; at = line.find(in_sources, at + 1))
      line.replace(at, in_sources.size(), " " + edition.examples + "/");
    text += roff(line) + "\n";
  }
  return text + ".fi\n";
}

std::string exit_section() {
  return heading("EXIT STATUS") + meaning("0", "done") +
         meaning("1", "nothing meets what was asked for, or something in it has to be looked at; the nearest answer is printed") +
         meaning("2", "an option or a file is wrong; the message says where, and what would be right") +
         meaning("3", "a fault of heapwright itself, which please report");
}

std::string files_section(const Edition& edition) {
  return heading("FILES") +
         meaning(slanted("my-yard.toml"), "a yard file: what is on hand, the pile, the lawn. To begin, " +
                                              bold("heapwright new my-yard.toml") +
                                              " asks a dozen questions and writes it; README.md beside the examples has all its keys") +
         meaning(slanted(edition.examples), "example yards to try and to change") +
         meaning(slanted(edition.schemas), "what " + bold("--json") + " prints, as JSON Schema 2020\\-12");
}

std::string reference(const std::string& command) { return "\\fBheapwright" + (command.empty() ? "" : "\\-" + command) + "\\fR(1)"; }

std::string title(const std::string& name, const Edition& edition) {
  std::string capitals;
  for (const char c : name) capitals += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  return fmt::format(".TH {} 1 \"{}\" \"heapwright {}\" \"Composting\"\n", roff(capitals), edition.date, roff(edition.version)) +
         ".\\\" Written when heapwright was built, of its own help.\n"
         ".nh\n.ad l\n";  // names are not to be broken
}

std::string synopsis(const DescribedCommand& command) {
  std::string line = bold("heapwright " + command.name) + " [" + slanted("OPTIONS") + "]";
  for (const DescribedOption& argument : command.arguments) {
    const std::string name = slanted(argument.name) + (argument.repeats ? "..." : "");
    line += argument.required ? " " + name : " [" + name + "]";
  }
  return heading("SYNOPSIS") + line + "\n";
}

std::string description(const DescribedCommand& command) {
  std::string text = heading("DESCRIPTION") + paragraph(roff(sentence(command.says)));
  for (const DescribedOption& argument : command.arguments) text += meaning(term_of(argument), says_of(argument));
  for (const std::string& note : command.notes) text += ".PP\n" + paragraph(roff(note));
  return text;
}

}  // namespace

std::string man_page_of_program(const DescribedProgram& program, const Edition& edition) {
  const DescribedCommand& itself = program.itself;
  std::string commands = heading("COMMANDS");
  std::vector<std::string> others;
  for (const DescribedCommand& command : program.commands) {
    commands += meaning(reference(command.name), roff(command.says));
    others.push_back(reference(command.name));
  }
  return title(itself.name, edition) + heading("NAME") + "heapwright \\- compost pile mix and maturity calculator\n" + heading("SYNOPSIS") +
         bold("heapwright") + " " + slanted("COMMAND") + " [" + slanted("OPTIONS") + "] [" + slanted("ARGUMENTS") + "]\n" +
         heading("DESCRIPTION") + paragraph(roff(sentence(itself.says))) + commands + options_section(itself) + files_section(edition) +
         exit_section() + examples_section(itself, edition) + heading("SEE ALSO") + joined(others, ",\n") + "\n";
}

std::string man_page_of_command(const DescribedCommand& command, const DescribedProgram& program, const Edition& edition) {
  std::vector<std::string> others{reference("")};
  for (const DescribedCommand& other : program.commands) {
    if (other.name != command.name) others.push_back(reference(other.name));
  }
  const std::string name = "heapwright-" + command.name;
  return title(name, edition) + heading("NAME") + paragraph(roff(name) + " \\- " + roff(command.says)) + synopsis(command) +
         description(command) + options_section(command) + files_section(edition) + exit_section() + examples_section(command, edition) +
         heading("SEE ALSO") + joined(others, ",\n") + "\n";
}

}  // namespace heapwright::cli
