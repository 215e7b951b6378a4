#pragma once
/// How much of what goes into the heap.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/mix/assume.hpp"
#include "heapwright/mix/batch.hpp"
#include "heapwright/mix/mix.hpp"
#include "heapwright/mix/pair.hpp"
#include "heapwright/mix/supply.hpp"
#include "heapwright/mix/targets.hpp"
#include "heapwright/recipe/wishes.hpp"
#include "heapwright/working/step.hpp"

namespace heapwright {

/// A supply as a recipe sees it.
struct RecipeSupply {
  Ingredient ingredient;  ///< its mass is not used
  FeedstockClass feedstock_class = FeedstockClass::keeper;
  std::optional<Mass> available;             ///< nothing: as much as wanted
  std::optional<ContainerCount> counted_in;  ///< the container that the person counts it, or buys it, in
  Mass counted_mass;                         ///< of those containers
  bool counted_by_mass = false;              ///< the person gave pounds or kilograms
  Use use = Use::up_to;
  bool bought = false;
  bool comes_fresh = false;  ///< week by week, and does not keep
  double price_per_kg = 0.0;
  std::optional<ShareOfLooseVolume> most_of_volume;
};

struct RecipeQuestion {
  std::vector<RecipeSupply> supplies;
  Targets targets;
  RecipeWishes wishes;
};

enum class RecipeStatus { on_target, nearest, not_enough, limits_clash, no_size, nothing_on_hand };
enum class Limit { carbon_to_nitrogen, moisture, air_space, share, amount, capacity, water };

std::string_view status_word(RecipeStatus status);
std::string_view limit_word(Limit limit);

struct RecipeAmount {
  std::string id;
  std::string name;
  FeedstockClass feedstock_class = FeedstockClass::keeper;
  Mass mass;
  Volume volume;  ///< loose
  std::optional<ContainerCount> containers;
  std::optional<Volume> left_over;  ///< of what is on hand
  std::optional<ContainerCount> containers_left;
  bool counted_by_mass = false;
  bool bought = false;
  bool comes_fresh = false;  ///< week by week, and keeps for no more than thirty days
};

/// A blend with its distance from the aim: 0 on the aims, 1 on a window's edge, beyond 1 outside.
struct EverythingIn {
  Mix mix;
  double distance_from_aim = 0.0;
  WaterMass water_to_add;
};

/// What keeps the recipe from using all that is on hand, or from its targets.
struct HeldBack {
  Limit limit;
  std::optional<std::string> feedstock;
};

/// A step of the calculation and its optimum, in SI; for checking it against another solver.
struct Stage {
  std::string stage;
  double optimum;
};

struct NextDearer {
  double cost;
  double distance_from_aim;
};

/// A supply that no heap gets, since it may carry a weedkiller on.
struct LeftOut {
  std::string id;
  std::string name;
  bool clippings = false;  ///< which may stay on the lawn
  bool manure = false;
  Treated treated = Treated::unknown;
};

struct Recipe {
  RecipeStatus status = RecipeStatus::nothing_on_hand;
  bool additions_only = false;  ///< there are amounts, but only of supplements and minerals
  double distance_from_aim = 0.0;
  std::optional<Volume> missing;  ///< of the wanted fill
  std::optional<Mix> mix;
  WaterMass water_to_add;
  std::vector<RecipeAmount> amounts;  ///< in the order of the supplies
  std::optional<EverythingIn> everything_in;
  std::vector<HeldBack> held_back_by;
  double cost = 0.0;
  std::optional<NextDearer> next_dearer;
  std::vector<Stage> stages;
  std::optional<Pair> pair;  ///< where there are just two main feedstocks

  // Carried along for the report.
  Targets targets;
  RecipeWishes wishes;
  std::vector<LeftOut> left_out;
  std::vector<Assumption> assumptions;       ///< the one that could change the answer most first
  std::optional<Measurement> measure_first;  ///< that would narrow it most
  std::vector<std::string> cautions;
  Batch batch;                     ///< what the mix was made of
  std::optional<Working> working;  ///< where it was asked for
};

/// Whether an amount is more than dust: worth showing, warning of, buying.
bool goes_in(const RecipeAmount& amount, const Recipe& recipe);

/// The question that supplies on a day pose; those that may carry a weedkiller are left out before. Supplies that are all of them without
/// density cannot be poured: TextError names them.
RecipeQuestion recipe_question(const std::vector<Supply>& supplies, const Targets& targets, const RecipeWishes& wishes, Date built);

/// The recipe. The mathematics stands in README.md beside this file; each answer balances: the mix is computed afresh by mix_of() from the
/// amounts.
/// @throws SolverFailure where the linear programmes defeat the solver
Recipe solve(const RecipeQuestion& question);

/// Distance of a mix from the aim, as README.md defines it. Infinite for a mix without nitrogen.
double distance_from_aim(const Mix& mix, const Targets& targets);

}  // namespace heapwright
