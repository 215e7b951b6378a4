#include "heapwright/report/answers_csv.hpp"

#include "heapwright/roster/assumed.hpp"

namespace heapwright {
namespace {

/// Spreadsheets run what begins so, also behind spaces: OWASP's list of signs for CSV.
bool looks_like_a_formula(const std::string& text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (text.starts_with('\t') || text.starts_with('\r')) return true;
  if (first == std::string::npos) return false;
  const std::string_view begins = std::string_view(text).substr(first);
  if (std::string_view("=+-@|%").find(begins.front()) != std::string_view::npos) return true;
  for (const std::string_view wide : {"\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"}) {  // the same signs, full width
    if (begins.starts_with(wide)) return true;
  }
  return false;
}

std::string harmless_cell(const std::string& text) {
  const std::string safe = looks_like_a_formula(text) ? "'" + text : text;
  if (safe.find_first_of(",;\"\n\r\t") == std::string::npos) return safe;
  std::string quoted = "\"";
  for (const char letter : safe) quoted += letter == '"' ? "\"\"" : std::string(1, letter);
  return quoted + "\"";
}

std::string headings_of_answers(const std::vector<Question>& questions, bool with_names) {
  std::string line = with_names ? "household,name" : "household";
  for (const Question& question : questions) line += "," + question.id + "," + question.id + " as understood";
  return line + ",assumed\n";
}

std::string answers_row(const Household& household, bool with_names) {
  std::string line = std::to_string(household.number);
  if (with_names) line += "," + harmless_cell(household.name);
  for (const RosterAnswer& answer : household.answers)
    line += "," + harmless_cell(answer.typed) + "," + (answer.reply ? harmless_cell(understood(*answer.question, *answer.reply)) : "");
  std::string assumed;
  for (const AssumedAnswer& one : assumed_of(household)) assumed += (assumed.empty() ? "" : " ") + in_words(one);
  return line + "," + harmless_cell(assumed) + "\n";
}

}  // namespace

std::string csv_of_answers(const Roster& roster, const std::vector<Question>& questions, bool with_names) {
  std::string text = headings_of_answers(questions, with_names);
  for (const Household& household : roster.households) text += answers_row(household, with_names);
  return text;
}

bool are_answers_of_ours(std::string_view text, const std::vector<Question>& questions) {
  return text.starts_with(headings_of_answers(questions, true)) || text.starts_with(headings_of_answers(questions, false));
}

}  // namespace heapwright
