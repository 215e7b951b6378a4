#pragma once
/// A yard by asking: about ten plain questions, one after the other, with a step back.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/guide/reply.hpp"

namespace heapwright {

/// By the question's id.
using Replies = std::map<std::string, Reply>;

/// Questions in the order of their table; those that an answer makes needless are passed over.
class Interview {
 public:
  /// At the first question.
  Interview(Tables tables, Date today);

  /// The question that is due; nothing when all are answered.
  const Question* due() const;
  /// Which one it is of those asked, from 1.
  std::size_t number() const { return asked_.size() + 1; }
  /// What an empty answer to the question that is due means: what was answered before a step back, else the question's usual.
  std::string usual() const;
  /// Takes an answer and goes on. @throws TextError, and the question stays due
  void answer(std::string_view said);
  /// One step back; false at the first question.
  bool back();
  const Replies& answers() const { return answers_; }

 private:
  bool is_asked(const Question& question) const;
  void go_on();

  Tables tables_;
  Date today_;
  std::size_t at_ = 0;
  std::vector<std::size_t> asked_;
  Replies answers_;
  std::map<std::string, std::string> said_;  ///< by the question's id, of those gone back over too
};

}  // namespace heapwright
