#pragma once
/// What was assumed of a household where its row does not say it, or not as it is taken.

#include <string>
#include <vector>

#include "heapwright/roster/roster.hpp"

namespace heapwright {

/// Why an answer was not taken as typed.
enum class WhyAssumed {
  not_known,     ///< "don't know", a blank field, or no such column
  taken_as,      ///< something was said, and taken for something more
  passed_over,   ///< an answer to what is not asked of who answered so before
  not_numbered,  ///< what stands in the column of numbers is none
};
/// "not-known", for other programs.
std::string_view why_word(WhyAssumed why);

/// One answer of a household.
struct AssumedAnswer {
  std::string column;
  WhyAssumed why = WhyAssumed::not_known;
  std::string typed;
  std::string taken;  ///< what is done where nothing is known, or what it was taken for; empty where it is passed over
};

/// In the order of the columns.
std::vector<AssumedAnswer> assumed_of(const Household& household);

/// "trees: don't know. Then we take one tree."
std::string in_words(const AssumedAnswer& assumed);

}  // namespace heapwright
