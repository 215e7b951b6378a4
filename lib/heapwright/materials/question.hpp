#pragma once
/// The table of questions.

#include <string>
#include <vector>

namespace heapwright {

/// How the words of an answer are read.
enum class AnswerKind {
  amount,    ///< containers, a volume or a weight: "12 leaf-bag"
  count,     ///< of people, trees
  yes_no,    ///< "yes", "no"
  area,      ///< "5000 ft2", "60 ft by 30 ft"
  size,      ///< of a bin: one, two or three lengths, or a volume
  date,      ///< 2026-11-07, "Nov 7", "today"
  interval,  ///< "14 days", "every two weeks", "never"
  climate,   ///< two temperatures, or the name of a winter
  things,    ///< "2 buckets of coffee grounds, 1 bale of straw", or nothing
};

/// A row of questions.toml.
struct Question {
  std::string id;
  std::string ask;
  std::string example;
  AnswerKind kind = AnswerKind::amount;
  std::string bare;                     ///< the unit of a bare number: the question names it
  std::string usual;                    ///< what Enter takes
  std::string not_known;                ///< what is done where the answer is "don't know"
  std::string only_after;               ///< asked only where the answer to this question
  std::vector<std::string> only_where;  ///<   is one of these: "some", "none", "unknown", "herbicide"
};

/// The table that comes with the program, in the order of asking.
std::vector<Question> built_in_questions();

}  // namespace heapwright
