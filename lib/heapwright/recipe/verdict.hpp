#pragma once
/// What a recipe comes to, for the words that are made of it.

#include <optional>
#include <vector>

#include "heapwright/recipe/recipe.hpp"

namespace heapwright {

inline constexpr double as_good = 1.1;  ///< as inside the windows: a C:N of 36 (judged)

/// Whether it is a pile to build, off its windows by more than anyone can tell, or no pile.
enum class RecipeVerdict {
  no_pile,       ///< nothing, or an addition alone, or limits that clash
  on_target,     ///< inside its windows
  nearly_right,  ///< off them by no more than `hardly_off`, or acceptable
  far_off,       ///< no pile to build as it is
  too_little,    ///< of the size that was asked for
  parts,         ///< a proportion, since nobody said how much there is
};
RecipeVerdict verdict_of(const Recipe& recipe);

/// Why something holds a recipe back, in the light of what is left and of all that is on hand.
enum class HeldBackReason {
  balance,  ///< all of it together would be too brown, though greens are left
  too_few_greens,
  too_few_browns,
  too_wet,                ///< all of it together
  wet_already,            ///< what goes in is as wet as it may be
  too_dry_for_its_water,  ///< all of it together would want more water than is allowed
  packs_down,
  largest_share,
  no_more_of_it,
  none_of_it_today,
  as_big_as_asked,
  room_is_full,
  no_more_water,
};
HeldBackReason reason_of(const HeldBack& held, const Recipe& recipe);
/// Off the windows for nothing but its size: too small for what must go in.
bool is_too_small(const Recipe& recipe);

/// Everything on hand together, where that is another pile than the recipe's.
enum class EverythingVerdict {
  same,           ///< as the recipe, or nothing to be said of it
  overfills,      ///< more than the room there is
  may_all_go_in,  ///< about in balance
  off,            ///< off its windows
};
EverythingVerdict everything_verdict(const Recipe& recipe);

/// The ways that are worth saying: none where the pile is good enough without, or where what they let go in would not fit. Of a pile that
/// is far off, where much on hand hardly rots, the ways that count what rots.
std::vector<Help> ways_to_mend(const Recipe& recipe);
/// Whether that is so: the pile is far off, and counting what rots there are ways.
bool is_mended_by_what_rots(const Recipe& recipe);

/// How many greens are in a pile whose nitrogen is mostly bound, as in old compost: what rots in it is far too brown.
enum class GreensIn { none, too_few };
/// Nothing where they are enough, or the pile is far off anyway.
std::optional<GreensIn> greens_lacking(const Recipe& recipe);
/// Whether all of it, with the first way, wants more room than there is.
bool mended_overfills(const Recipe& recipe);

/// What a lone pile of one kind is, where nothing is mixed in.
enum class AloneIs { wet_or_green, brown, otherwise_off };
AloneIs alone_is(const Recipe& recipe);

/// Whether it is wetted, and how.
enum class Watering {
  so_much,      ///< the recipe's water
  none_wanted,  ///< as the person asked
  wet_enough,
  stays_too_dry,  ///< for want of water
  a_little,       ///< nobody said how much
};
Watering watering_of(const Recipe& recipe);

/// The most that a pile may fill, where there is a limit.
std::optional<Volume> room_for(const Recipe& recipe);
/// Whether the pile as it is said to be built is more than the room there is.
bool overfills(const Recipe& recipe);
/// Whether there would be more to put in, were there room.
bool room_sets_size(const Recipe& recipe);
/// Whether something bought comes by weight: nobody knows its bags.
bool is_bought_by_weight(const Recipe& recipe);

/// What is left of a feedstock, and what becomes of it.
struct Remainder {
  RecipeAmount amount;
  Volume volume;
  std::optional<ContainerCount> containers;  ///< so that what goes in and what stays add up as they are shown
  std::optional<WhyLeft> why;
};
std::vector<Remainder> remainders_of(const Recipe& recipe);
/// All that is on hand, of what there is only so much of.
std::vector<RecipeAmount> all_there_is(const Recipe& recipe);
/// What there is as much of as is wanted, and none is.
std::vector<RecipeAmount> not_needed(const Recipe& recipe);

/// Whether a basic of the trade applies to it.
bool calls_for(const Recipe& recipe, Basic basic);

/// A pile in layers: browns at the bottom, then greens and browns in turn, browns on top.
struct Layering {
  int layers = 1;                    ///< of greens; one more of browns
  std::optional<int> at_the_bottom;  ///< so many containers of them, where it is one kind, counted
  std::vector<RecipeAmount> browns;  ///< in all
  std::vector<RecipeAmount> greens;  ///< in all, supplements and minerals with them
};
/// A layer of greens with the browns over it is about a foot of loose stuff on a pile a yard square (judged): from one layer to five.
/// Nothing where there are only browns, or none.
std::optional<Layering> layering_of(const Recipe& recipe);

}  // namespace heapwright
