#pragma once
/// What somebody said to a question, read as it was meant.

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/guide/things.hpp"
#include "heapwright/materials/question.hpp"
#include "heapwright/tables/tables.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

/// An answer as it was understood, in the words that the yard file will have.
struct Reply {
  std::vector<std::string> texts;  ///< one; three sides of a bin, two of a round one; two temperatures of a climate; none where unknown
  std::set<std::string>
      is;  ///< "some", "none", "unknown"; "round", "volume" of a bin; "pile" of leaves; "herbicide" where a thing can carry a weedkiller on
  std::vector<Thing> things{};
  std::string taken_as{};  ///< where it was taken for something that was not said
};

/// Reads an answer; an empty one is the question's usual. @throws TextError with what would be right
Reply read_reply(const Question& question, std::string_view said, const Tables& tables, Date today);

/// An answer as it was understood, in words: "12 leaf-bag", "4 ft by 4 ft by 4 ft", "don't know", "no".
std::string understood(const Question& question, const Reply& reply);

}  // namespace heapwright
