#include "heapwright/roster/assumed.hpp"

#include <fmt/format.h>

#include "heapwright/guide/plain.hpp"

namespace heapwright {
namespace {

constexpr const char* in_the_base = "Then it is as in the base file.";

}  // namespace

std::string_view why_word(WhyAssumed why) {
  switch (why) {
    case WhyAssumed::not_known: return "not-known";
    case WhyAssumed::taken_as: return "taken-as";
    case WhyAssumed::passed_over: return "passed-over";
    case WhyAssumed::numbered_by_row: return "numbered-by-row";
  }
  return {};
}

std::vector<AssumedAnswer> assumed_of(const Household& household) {
  std::vector<AssumedAnswer> all;
  if (household.numbered_by_row) all.push_back({"household", WhyAssumed::numbered_by_row, {}, std::to_string(household.number)});
  for (const RosterAnswer& answer : household.answers) {
    const Question& question = *answer.question;
    if (answer.is_unknown()) {
      all.push_back({question.id, WhyAssumed::not_known, answer.typed, answer.is_in_base ? in_the_base : question.not_known});
    } else if (answer.is_passed_over() && !is_do_not_know(plain_answer(answer.typed))) {
      all.push_back({question.id, WhyAssumed::passed_over, answer.typed, {}});
    } else if (answer.reply && !answer.reply->taken_as.empty()) {
      all.push_back({question.id, WhyAssumed::taken_as, answer.typed, understood(question, *answer.reply)});
    }
  }
  return all;
}

std::string in_words(const AssumedAnswer& assumed) {
  switch (assumed.why) {
    case WhyAssumed::not_known: return fmt::format("{}: don't know. {}", assumed.column, assumed.taken);
    case WhyAssumed::taken_as: return fmt::format("{}: \"{}\" is taken as {}.", assumed.column, assumed.typed, assumed.taken);
    case WhyAssumed::passed_over:
      return fmt::format("{}: \"{}\" is passed over: it is not asked after the other answers.", assumed.column, assumed.typed);
    case WhyAssumed::numbered_by_row: return fmt::format("No number is given; it is that of its row, {}.", assumed.taken);
  }
  return {};
}

}  // namespace heapwright
