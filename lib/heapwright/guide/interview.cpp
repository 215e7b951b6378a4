#include "heapwright/guide/interview.hpp"

#include <algorithm>

namespace heapwright {

Interview::Interview(Tables tables, Date today) : tables_(std::move(tables)), today_(today) { go_on(); }

bool Interview::is_asked(const Question& question) const {
  if (question.only_after.empty()) return true;
  const auto before = answers_.find(question.only_after);
  if (before == answers_.end()) return false;
  return std::any_of(question.only_where.begin(), question.only_where.end(),
                     [&](const std::string& what) { return before->second.is.count(what) != 0; });
}

void Interview::go_on() {
  const std::vector<Question>& questions = *tables_.questions;
  while (at_ < questions.size() && !is_asked(questions[at_])) ++at_;
}

const Question* Interview::due() const { return at_ < tables_.questions->size() ? &tables_.questions->at(at_) : nullptr; }

std::string Interview::usual() const {
  const Question* question = due();
  if (question == nullptr) return {};
  const auto before = said_.find(question->id);
  return before == said_.end() ? question->usual : before->second;
}

void Interview::answer(std::string_view said) {
  const Question& question = tables_.questions->at(at_);
  const bool is_empty = said.find_first_not_of(" \t\r") == std::string_view::npos;
  const std::string meant = is_empty ? usual() : std::string(said);
  answers_[question.id] = read_reply(question, meant, tables_, today_);
  said_[question.id] = meant;
  asked_.push_back(at_++);
  go_on();
}

bool Interview::back() {
  if (asked_.empty()) return false;
  at_ = asked_.back();
  asked_.pop_back();
  answers_.erase(tables_.questions->at(at_).id);
  return true;
}

}  // namespace heapwright
