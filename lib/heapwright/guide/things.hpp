#pragma once
/// What somebody has, in the words that they say it in.

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/error.hpp"
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

/// Several things in one text, where one is wanted.
class SeveralThings : public TextError {
 public:
  explicit SeveralThings(std::vector<std::string> each);
  /// Each by itself: "6 bags of leaves".
  const std::vector<std::string>& each() const { return each_; }

 private:
  std::vector<std::string> each_;
};

/// An amount of bags whose size is said, as what they hold in all: "40 ft3" of "20 bags of 2 ft3", "20 2 ft3 bags" and "20 bags, 2 ft3
/// each". Other texts as they are.
std::string sized_bags(const std::string& plain);

/// Where a text is an amount and a thing, the amount: "10 bags" of "10 bags oak leaves"; nothing for other texts.
/// @param name becomes the thing
std::optional<std::string> amount_beside_name(const std::string& plain, const Materials& materials, std::string& name);

/// An amount in plain words: "20 bags", or "20 to 25 bags" of somebody who hesitates between two. A bare number has the unit given.
std::string plain_amount(const std::string& plain, const std::string& bare);

/// @throws TextError for so much as no yard has, a slip of the pen: more than 5000 m³ or 1000 t, judged
void check_plausible(const Amount& amount, const std::string& said);

/// "20 bags of leaves", "20 bags leaves", "leaves 20 bags", "leaves: 20 bags", "leaves=20 bags", "leaves, 20 bags"; without an amount,
/// "leaves", as much as wanted. @throws TextError, also for what stays out of a pile; SeveralThings
Supply read_said_supply(std::string_view said, const Materials& materials);

/// A supply, and its amount as it was said: "2 buckets".
struct CountedSupply {
  Supply supply;
  std::string amount;
};
/// The same with an amount. @param plain in its plain form (plain_answer()), not empty. @throws TextError, also where no amount is said
CountedSupply counted_supply(const std::string& plain, const Materials& materials);

/// "water", "rain water": what is poured on, by a name that means nothing else.
bool is_called_water(const std::string& plain);
/// Whether a text is an amount of something: "2 buckets", "40 lb".
bool says_how_much(const std::string& said, const Materials& materials);

/// Gives each thing of a list to a reader: "2 buckets of coffee grounds, a bale of straw; 1 gal water" are three. A TextError of one of
/// several names the others, as they may be typed again.
void read_each_thing(const std::string& plain, const Materials& materials, const std::function<void(const std::string&)>& read);

/// Things and their amounts: "2 buckets of coffee grounds, a bale of straw". @throws TextError
std::vector<Thing> read_things(const std::string& plain, const Materials& materials);

}  // namespace heapwright
