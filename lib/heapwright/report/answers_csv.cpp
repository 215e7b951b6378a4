#include "heapwright/report/answers_csv.hpp"

#include "heapwright/report/csv_parts.hpp"
#include "heapwright/roster/assumed.hpp"

namespace heapwright {
namespace {

std::string headings_of_answers(const std::vector<Question>& questions, bool with_names) {
  std::string line = with_names ? "household,name" : "household";
  for (const Question& question : questions) line += "," + question.id + "," + question.id + " as understood";
  return line + ",assumed\n";
}

std::string answers_row(const Household& household, bool with_names) {
  std::string line = std::to_string(household.number);
  if (with_names) line += "," + csv_cell(household.name);
  for (const RosterAnswer& answer : household.answers)
    line += "," + csv_cell(answer.typed) + "," + (answer.reply ? csv_cell(understood(*answer.question, *answer.reply)) : "");
  std::string assumed;
  for (const AssumedAnswer& one : assumed_of(household)) assumed += (assumed.empty() ? "" : " ") + in_words(one);
  return line + "," + csv_cell(assumed) + "\n";
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
