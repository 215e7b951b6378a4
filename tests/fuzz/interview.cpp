/// The guided start: an answer a line, and the yard file that they come to.

#include "heapwright/guide/interview.hpp"

#include "checks.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/turn.hpp"
#include "heapwright/guide/yard_text.hpp"
#include "heapwright/yard/yard.hpp"
#include "targets.hpp"

namespace heapwright::fuzz {
namespace {

void take(Interview& interview, const std::string& said) {
  switch (turn_of(plain_answer(said))) {
    case Turn::back: interview.back(); return;
    case Turn::start_over:
      while (interview.back()) {
      }
      return;
    case Turn::quit:
    case Turn::explain: return;
    case Turn::answer: break;
  }
  const Question question = *interview.due();
  ends_well([&] {
    interview.answer(said);
    check_output(understood(question, interview.answers().at(question.id)), said);
  });
}

}  // namespace

void be_interviewed(std::string_view text) {
  Interview interview(tables(), today);
  for (std::string_view rest = text; interview.due() != nullptr && !rest.empty();) {
    const std::size_t end = std::min(rest.find('\n'), rest.size());
    take(interview, std::string(rest.substr(0, end)));
    rest.remove_prefix(std::min(end + 1, rest.size()));
  }
  while (interview.due() != nullptr) interview.answer("");
  const std::string yard = yard_text(interview.answers(), today);
  must_end_well([&] { read_yard_text(yard, "my-yard.toml", tables()); });
  count_answered();
}

}  // namespace heapwright::fuzz
