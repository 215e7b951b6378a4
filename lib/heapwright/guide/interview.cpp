#include "heapwright/guide/interview.hpp"

#include <algorithm>

namespace heapwright {

Interview::Interview(std::vector<Question> questions, const Materials& materials, Date today)
    : questions_(std::move(questions)), materials_(materials), today_(today) {
  go_on();
}

bool Interview::is_asked(const Question& question) const {
  if (question.only_after.empty()) return true;
  const auto before = answers_.find(question.only_after);
  if (before == answers_.end()) return false;
  return std::any_of(question.only_where.begin(), question.only_where.end(),
                     [&](const std::string& what) { return before->second.is.count(what) != 0; });
}

void Interview::go_on() {
  while (at_ < questions_.size() && !is_asked(questions_[at_])) ++at_;
}

const Question* Interview::due() const { return at_ < questions_.size() ? &questions_[at_] : nullptr; }

void Interview::answer(std::string_view said) {
  const Question& question = questions_.at(at_);
  answers_[question.id] = read_reply(question, said, materials_, today_);
  asked_.push_back(at_++);
  go_on();
}

bool Interview::back() {
  if (asked_.empty()) return false;
  at_ = asked_.back();
  asked_.pop_back();
  answers_.erase(questions_[at_].id);
  return true;
}

}  // namespace heapwright
