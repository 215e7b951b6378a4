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
    case WhyAssumed::not_numbered: return "not-numbered";
  }
  return {};
}

std::vector<AssumedAnswer> assumed_of(const Household& household) {
  std::vector<AssumedAnswer> all;
  if (household.not_numbered)
    all.push_back({"household", WhyAssumed::not_numbered, *household.not_numbered, std::to_string(household.number)});
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
    case WhyAssumed::not_numbered:
      if (assumed.typed.empty()) return fmt::format("{}: no number is given. It has number {}.", assumed.column, assumed.taken);
      return fmt::format("{}: \"{}\" is no number from 1 to 999999. It has number {}.", assumed.column, assumed.typed, assumed.taken);
  }
  return {};
}

}  // namespace heapwright
