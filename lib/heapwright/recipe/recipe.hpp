#pragma once
/// How much of what goes into the pile.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/mix/answer.hpp"
#include "heapwright/mix/batch.hpp"
#include "heapwright/mix/mix.hpp"
#include "heapwright/mix/pair.hpp"
#include "heapwright/mix/supply.hpp"
#include "heapwright/mix/targets.hpp"
#include "heapwright/recipe/bags_to_a_catcher.hpp"
#include "heapwright/recipe/options.hpp"

namespace heapwright {

/// A supply as a recipe sees it.
struct RecipeSupply {
  Ingredient ingredient;  ///< its mass is not used
  FeedstockClass feedstock_class = FeedstockClass::keeper;
  std::optional<Mass> available;             ///< nothing: as much as wanted
  std::optional<ContainerCount> counted_in;  ///< the container that the person counts it, or buys it, in; else its usual one
  Mass counted_mass;                         ///< of those containers, or of what was weighed
  bool out_of_season = false;                ///< no more of it can be had that day, nor dried in the sun
  bool hardly_rots = false;                  ///< and is no way to help: known where what rots is counted
  bool counted_by_mass = false;              ///< the person gave pounds or kilograms
  bool in_usual_container = false;           ///< the person named no container
  std::optional<BulkDensity> in_a_bucket;    ///< where it lies otherwise than in the pile
  std::optional<Containerful> full;          ///< what is put in at once where no week's load is known
  Use use = Use::up_to;
  bool bought = false;
  std::optional<Mass> load;       ///< of what comes fresh: what each week of its season brings
  std::optional<Duration> keeps;  ///< of what comes fresh
  PricePerMass price;
  std::optional<ShareOfLooseVolume> most_of_volume;

  /// README, kinds of supply.
  bool is_fixed() const;
  bool is_raised() const;
};

/// What is to be solved: README.md beside this file.
struct RecipeQuestion {
  std::vector<RecipeSupply> supplies;
  Targets targets;
  RecipeOptions options;
};

/// What came of a question: README.md has when each is given.
enum class RecipeStatus { on_target, nearest, not_enough, limits_clash, no_size, nothing_on_hand };
/// What may bind.
enum class Limit { carbon_to_nitrogen, moisture, air_space, share, amount, capacity, water };

/// "on-target" and "air_space", for other programs.
std::string_view status_word(RecipeStatus status);
std::string_view limit_word(Limit limit);

/// So much of a supply, and what that leaves.
struct RecipeAmount {
  std::string id;
  std::string name;
  int supply = 0;  ///< its number in the yard; 0: none of a yard's
  FeedstockClass feedstock_class = FeedstockClass::keeper;
  Mass mass;
  Volume volume;  ///< loose
  std::optional<ContainerCount> containers;
  std::optional<Volume> left_over;  ///< of what is on hand
  std::optional<Mass> mass_left;    ///< the same
  std::optional<ContainerCount> containers_left;
  bool counted_by_mass = false;
  bool bought = false;
  std::optional<Duration> keeps;  ///< of what comes fresh
};

/// A blend with its distance from the aim: 0 on the aims, 1 on a window's edge, beyond 1 outside.
struct EverythingIn {
  Mix mix;
  double distance_from_aim = 0.0;
  WaterMass water_to_add;
};

/// A recipe in amounts that a person can measure (whole.hpp).
struct WholeContainers {
  Mix mix;
  double distance_from_aim = 0.0;
  bool inside = false;                ///< the windows, the capacity and the shares
  std::vector<RecipeAmount> amounts;  ///< in the order of the supplies
  WaterMass water_to_add;
  Cost cost;
};

/// Equal volumes of some feedstocks, so many parts of each (proportion.hpp).
struct Part {
  std::size_t supply;  ///< its place in the question
  std::string id;
  std::string name;
  int parts;
};
struct Proportion {
  std::vector<Part> parts;
  Container container;  ///< a common one; the mix is of one of it for each part
  Mix mix;
  WaterMass water_to_add;  ///< to that mix
  double distance_from_aim = 0.0;
};

/// What to put with a load of greens each time they come: a week's where that is known, else one container.
struct Card {
  std::size_t supply = 0;  ///< the place of the greens in the question
  RecipeAmount greens;
  std::vector<RecipeAmount> browns;
  WaterMass water_to_add;
  std::optional<Season> season{};  ///< of the greens; nothing where they come all year
};

/// Something that would set a recipe right, or let all that is on hand be used (help.hpp).
struct Addition {
  RecipeAmount amount;         ///< the least that does
  RecipeAmount rounded;        ///< to whole and half containers, as far as that still does
  bool is_on_hand = false;     ///< more of what the person has already
  bool is_supplement = false;  ///< bought nitrogen
};
/// Clippings left to dry before they go in.
struct Wilting {
  std::string id;
  std::string name;
  MoistureWetBasis to;
  WaterMass water_lost;
};
struct Help {
  std::vector<Addition> additions;  ///< all of them together
  std::optional<Wilting> wilting;
  Mix mix;  ///< with it
  WaterMass water_to_add;
};

/// What keeps the recipe from using all that is on hand, or from its targets.
struct HeldBack {
  Limit limit;
  std::optional<std::string> feedstock;
  int supply = 0;  ///< of that, its number in the yard
};

/// A step of the calculation and its optimum, in SI; for checking it against another solver.
struct Stage {
  std::string stage;
  double optimum;
};

/// README, next dearer.
struct NextDearer {
  Cost cost;
  double distance_from_aim;
};

/// A supply that no pile gets, since it may carry a weedkiller on.
struct LeftOut {
  std::string id;
  std::string name;
  bool clippings = false;  ///< which may stay on the lawn
  bool manure = false;
  Treated treated = Treated::unknown;
};

/// A supply that comes in its season, of which nothing, or no more than a part of a year's, is on hand on the day.
struct NotToday {
  std::string id;
  std::string name;
  Duration keeps;
  std::optional<Season> season;  ///< nothing where it comes all year
  double share_on_hand = 0.0;    ///< of what a year brings
  bool bought = false;
};

/// What sets the size of a pile.
enum class SizeFrom {
  fill,      ///< the size that was asked for
  capacity,  ///< the limit that was given
  room,      ///< of the bins
  fixed,     ///< what must go in, all of it
  on_hand,   ///< what there is to use up, or to buy
  water,     ///< the limit of the water, where some is left of what there is to use up
  goal,      ///< a goal that may leave some of it
};
std::string_view size_word(SizeFrom from);
struct SizeSetBy {
  SizeFrom from = SizeFrom::on_hand;
  std::vector<std::size_t> used_up;  ///< of fixed and on_hand: the places of those in the amounts
};

/// Why more of a supply does not go in (why_left.hpp).
enum class WhyLeft {
  no_room,     ///< in the bin, or by the limit that was given
  big_enough,  ///< as big a pile as was asked for
  its_share,   ///< the largest that is allowed of it
  goal,        ///< the goal takes no more
  no_water,    ///< for so much
  too_brown,
  too_green,
  too_wet,
  enough,  ///< of a supplement or a mineral
};

/// What would help, counting of all that is on hand the carbon and nitrogen that rot in a season alone.
struct CountingWhatRots {
  std::vector<std::string> hardly_rots;  ///< names of what most of the rest is
  std::vector<Help> ways;                ///< any one of them; their mixes count so too
  std::vector<RecipeAmount> with_it;     ///< a good pile that has such things in it, where the recipe leaves them all out
};

/// The trade's basics that apply to a pile. Common practice, no source.
enum class Basic {
  shred_leaves,      ///< whole leaves go in
  layers_or_mixed,   ///< greens and browns, built in one day
  cover_scraps,      ///< with browns
  top_up,            ///< a bin as it sinks
  rotate_a_tumbler,  ///< which has no layers
};

/// The windows that a recipe was found within: wider ones where that makes a much larger pile of what there is.
enum class FoundWithin {
  targets,
  hardly_off,  ///< off those by no more than anyone can tell
  acceptable,  ///< acceptable_windows()
};
std::string_view windows_word(FoundWithin windows);

/// The carbon and nitrogen that a recipe balances: all of it, or what rots in a season, where that alone can be balanced.
enum class CarbonCounted { all, what_rots };
std::string_view counted_word(CarbonCounted counted);

/// The answer to a question.
struct Recipe {
  RecipeStatus status = RecipeStatus::nothing_on_hand;
  CarbonCounted carbon_counted = CarbonCounted::all;
  FoundWithin found_within = FoundWithin::targets;
  bool additions_only = false;  ///< there are amounts, but only of supplements and minerals
  double distance_from_aim = 0.0;
  std::optional<Volume> wanted;   ///< the fill; the room there is where nothing on hand gives a size
  std::optional<Volume> missing;  ///< of what is wanted
  std::optional<Volume> example;  ///< without a size: the amounts are for so much of each
  // The exact answer. What a person is to build, in whole containers, is as_built(): show that.
  std::optional<Mix> mix;  ///< with the water to add in it
  WaterMass water_to_add;
  std::vector<RecipeAmount> amounts;  ///< in the order of the supplies
  std::optional<EverythingIn> everything_in;
  std::vector<HeldBack> held_back_by;
  std::vector<Help> what_would_help;  ///< any one of them
  std::optional<WholeContainers> whole_containers;
  std::optional<Proportion> proportion;
  std::vector<Card> cards;
  std::optional<SizeSetBy> size_set_by;  ///< where there are amounts
  Cost cost;
  std::optional<NextDearer> next_dearer;
  std::vector<Stage> stages;
  std::optional<Pair> pair;                         ///< where there are just two main feedstocks
  std::optional<BagsToACatcher> bags_to_a_catcher;  ///< where these are leaves and clippings, as much as wanted of both

  /// Carried along for the report.
  Targets targets;
  RecipeOptions options;
  std::optional<Volume> room;  ///< of the bins
  std::vector<LeftOut> left_out;
  std::vector<NotToday> not_today;
  std::vector<Basic> basics;
  std::vector<WhyLeft> why_left;                       ///< of each amount, in their order
  std::optional<CountingWhatRots> counting_what_rots;  ///< where much on hand hardly rots
  Batch batch;                                         ///< what the mix was made of
};

/// Whether the amounts come to a pile of some size, and not to parts or an example.
inline bool has_size(const Recipe& recipe) { return recipe.mix && recipe.status != RecipeStatus::no_size; }

/// What a person is to build: in whole containers, where a size was given, else the exact amounts.
struct AsBuilt {
  Mix mix;  ///< with the water to add in it
  std::vector<RecipeAmount> amounts;
  WaterMass water_to_add;
  double distance_from_aim;
  Cost cost;
};
/// @param recipe one with a mix
AsBuilt as_built(const Recipe& recipe);

inline constexpr double on_the_edge = 1.0 + 1e-9;  ///< a window met to rounding is met
inline constexpr double hardly_off = 1.3;          ///< a C:N of 39, moisture of 61 %: off the windows by less than anyone can tell (judged)
inline constexpr double used_up = 0.999;           ///< of what there is: as good as all of it

/// Whether more than dust of something is left to keep.
bool is_left(const RecipeAmount& amount);

/// Whether an amount is more than dust: worth showing, warning of, buying.
bool goes_in(const RecipeAmount& amount, const Mix& mix);

/// What sets the size of a recipe with amounts, but for the room of bins, which the question knows as a capacity.
SizeSetBy size_set_by(const RecipeQuestion& question, const Recipe& recipe);

/// The question that supplies on a day pose; those that may carry a weedkiller are left out before.
/// @throws TextError for the first supply without a bulk density: it has no place in a pile
RecipeQuestion recipe_question(const std::vector<Supply>& supplies, const Targets& targets, const RecipeOptions& options, Date built,
                               const Materials& materials);

/// The recipe. The mathematics stands in README.md beside this file; each answer balances: the mix is computed afresh by mix_of() from the
/// amounts.
/// @throws SolverFailure where the linear programmes defeat the solver
Recipe solve(const RecipeQuestion& question);

/// The windows whose edges are at a distance t from the aim, from 0 to 2: those of the targets at 1 (README, the distance t).
Targets windows_at(const Targets& targets, double distance);

/// Distance of a mix from the aim, as README.md defines it, by its judged C:N (mix/character.hpp). Infinite for a mix without nitrogen.
double distance_from_aim(const Mix& mix, const Targets& targets);

/// Whether a mix is inside the acceptable windows (mix/targets.hpp).
inline bool is_acceptable(const Mix& mix, const Targets& targets) {
  return distance_from_aim(mix, acceptable_windows(targets)) <= on_the_edge;
}

}  // namespace heapwright
