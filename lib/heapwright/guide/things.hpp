#pragma once
/// What somebody has, in the words that they say it in.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/mix/supply.hpp"

namespace heapwright {

/// A thing that an answer lists.
struct Thing {
  std::string feedstock;  ///< its id
  std::string name;
  std::string packing;  ///< empty where none was named
  std::string amount;
  bool herbicide = false;  ///< of a kind that can carry a weedkiller on
};

/// An amount in plain words: "20 bags", or "20 to 25 bags" of somebody who hesitates between two. A bare number has the unit given.
std::string plain_amount(const std::string& plain, const std::string& bare);

/// @throws TextError for so much as no yard has, a slip of the pen: more than 5000 m³ or 1000 t, judged
void check_plausible(const Amount& amount, const std::string& said);

/// "20 bags of leaves", "20 bags leaves", "leaves 20 bags", "leaves: 20 bags", "leaves=20 bags", "leaves, 20 bags"; without an amount,
/// "leaves", as much as wanted. @throws TextError, also for what stays out of a pile
Supply read_said_supply(std::string_view said, const Materials& materials);

/// Things and their amounts: "2 buckets of coffee grounds, a bale of straw". @throws TextError
std::vector<Thing> read_things(const std::string& plain, const Materials& materials);

}  // namespace heapwright
