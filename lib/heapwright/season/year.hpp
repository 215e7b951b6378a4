#pragma once
/// Twelve months of supplies in balance: what goes into the pile when, what is kept dry for later, what is better left.

#include <array>
#include <chrono>
#include <optional>
#include <vector>

#include "heapwright/mix/mix.hpp"
#include "heapwright/mix/targets.hpp"

namespace heapwright {

/// Figures by the month have January first.
inline constexpr std::size_t months_in_a_year = 12;

/// How long it may wait.
enum class Keeping {
  fresh,   ///< used in its month, or left
  waits,   ///< fresh, and may be kept for a month: scraps in a lidded pail
  dry,     ///< kept for as long as there is room
  bought,  ///< had when it is wanted
};

/// Something of which so much comes in each month.
struct YearSupply {
  Ingredient ingredient;  ///< with its density; its mass does not count
  Keeping keeping = Keeping::fresh;
  std::array<Mass, months_in_a_year> comes{};  ///< January first; none of what is bought
  double weight = 1.0;                         ///< of its waste: scraps, which nobody can leave lying, count three times (judged)
};

/// What a year has, and what its mixes should be.
struct YearQuestion {
  std::vector<YearSupply> supplies;
  Targets targets;
  double distance = 1.0;        ///< how far from its aims a month's mix may be: 1 at the edge of the windows
  std::optional<Volume> store;  ///< room for what is kept dry
  std::optional<std::chrono::month>
      begins{};  ///< with an empty store: nothing is used before it comes; where absent the year closes on itself
};

/// Of one supply in one month. What there was and what came is what was used, what is left over, and what is kept:
///
///     kept before + comes + bought = used + left + kept
struct MonthOfSupply {
  Mass comes;
  Mass bought;
  Mass used;
  Mass left;  ///< of what is fresh, better on the lawn; of what is dry, leaf mold or mulch
  Mass kept;  ///< at the end of the month
};

/// All supplies of a month.
struct MonthOfYear {
  std::vector<MonthOfSupply> supplies;  ///< as those of the question
  WaterMass water;                      ///< to add
};

/// A year in balance, with what it was judged by.
struct Year {
  std::array<MonthOfYear, months_in_a_year> months;
  double waste = 0.0;      ///< Σ weight × dry kilograms of what is fresh and left
  double all_fresh = 0.0;  ///< the same of all that is fresh
  Volume bought;
  Volume store;        ///< the most that is kept at once
  bool waits = false;  ///< some waits for a month, as that saves much

  bool is_balanced() const;  ///< nothing fresh is left
};

/// The year closes on itself, where it does not begin: what is kept in December is there in January. Each month's mix is within its
/// windows. In this order, each kept for the next: least waste; its largest month as small as can be; least bought; least that waits; least
/// store; least of it over the months; least water.
///
/// Nothing waits unless that saves at least 5 % of all that is fresh (judged).
/// @throws DomainError for a supply without density, or a negative amount (NaN too); SolverFailure
Year balance_year(const YearQuestion& question);

}  // namespace heapwright
