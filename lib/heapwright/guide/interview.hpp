#pragma once
/// A yard by asking: about ten plain questions, one after the other, with a step back.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/materials.hpp"

namespace heapwright {

/// How the words of an answer are read.
enum class AnswerKind {
  amount,    ///< containers, a volume or a weight: "12 leaf-bag"
  count,     ///< of people, trees
  yes_no,    ///< "yes", "no"
  area,      ///< "5000 ft2", "60 ft by 30 ft"
  size,      ///< of a bin: one, two or three lengths
  date,      ///< 2026-11-07, "today"
  interval,  ///< "14 days", "never"
  climate,   ///< two temperatures, or the name of a winter
  things,    ///< "2 buckets of coffee grounds, 1 bale of straw", or nothing
};

/// A row of questions.toml.
struct Question {
  std::string id;
  std::string ask;
  std::string example;
  AnswerKind kind = AnswerKind::amount;
  std::string bare;         ///< the unit of a bare number: the question names it
  std::string usual;        ///< what Enter takes
  std::string not_known;    ///< what is done where the answer is "don't know"
  std::string only_after;   ///< asked only where the answer to this question
  std::vector<std::string> only_where;  ///<   is one of these: "some", "none", "unknown", "herbicide"
};

/// The table of questions, in their order.
std::vector<Question> questions();

/// A thing that an answer lists.
struct Thing {
  std::string feedstock;  ///< its id
  std::string packing;    ///< empty where none was named
  std::string amount;
  bool herbicide = false;  ///< of a kind that can carry a weedkiller on
};

/// An answer as it was understood, in the words that the yard file will have.
struct Answer {
  std::vector<std::string> texts;  ///< one; three of a size; two temperatures of a climate; none where unknown
  std::set<std::string> is;        ///< "some", "none", "unknown"; "herbicide" where a thing can carry a weedkiller on
  std::vector<Thing> things;
};

using Answers = std::map<std::string, Answer>;

/// Reads what somebody said to a question. @throws TextError with what would be right
Answer read_answer(const Question& question, std::string_view said, const Materials& materials, Date today);

class Interview {
 public:
  Interview(std::vector<Question> questions, const Materials& materials, Date today);

  /// The question that is due; nothing when all are answered.
  const Question* due() const;
  /// Which one it is of those asked, from 1.
  std::size_t number() const { return asked_.size() + 1; }
  /// Takes an answer and goes on. @throws TextError, and the question stays due
  void answer(std::string_view said);
  /// One step back; false at the first question.
  bool back();
  const Answers& answers() const { return answers_; }

 private:
  bool is_asked(const Question& question) const;
  void go_on();

  std::vector<Question> questions_;
  const Materials& materials_;
  Date today_;
  std::size_t at_ = 0;
  std::vector<std::size_t> asked_;
  Answers answers_;
};

}  // namespace heapwright
