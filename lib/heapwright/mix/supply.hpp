#pragma once
/// What a yard has: feedstocks with amounts, packings, seasons and what the person measured of them.

#include <chrono>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "heapwright/materials/materials.hpp"
#include "heapwright/mix/estimate.hpp"
#include "heapwright/mix/mix.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {

class Table;

/// A container weighed full and empty gives the density, in place of the table's: (full − empty)/volume.
struct Weighed {
  ContainerCount container;
  Mass full;
  Mass empty;
  BulkDensity density() const { return (full - empty) / Volume(container.count * container.each); }
};

/// A sample weighed wet and dried gives the moisture: (wet − dry)/wet.
struct Dried {
  Mass wet;
  Mass dry;
  MoistureWetBasis moisture() const { return wet_basis((wet - dry) / wet); }
};

/// When it comes in. A total shared evenly over some months, or so much a week in a season.
struct Months {
  std::vector<std::chrono::month> months;
};
struct Weekly {
  std::chrono::month from{1};
  std::chrono::month to{12};
};

/// How much of it a recipe takes: at most what there is, all of it, or as much as it likes.
enum class Use { up_to, all, unlimited };
/// Whether it was treated with a weedkiller.
enum class Treated { no, yes, unknown };

/// "yes", "no" or "unknown".
std::string_view treated_word(Treated treated);
/// Of "yes", "no" and "unknown"; nothing for other words.
std::optional<Treated> treated_called(std::string_view word);

/// Something that a yard has, or can buy, as its owner tells it.
struct Supply {
  Feedstock feedstock;
  int number = 0;                ///< of those that a yard lists, from 1; 0: none of them
  std::string apart;             ///< what tells it from others of its feedstock: "shredded", "second"; empty where there is no other
  std::string packing;           ///< one of the feedstock's: as the user named it, else its usual one
  bool packing_assumed = false;  ///< the user named none
  std::optional<Amount> amount;
  std::variant<std::monostate, Months, Weekly> when;  ///< nothing: on hand now
  bool storable = false;
  bool shredded = false;
  std::optional<Treated> treated;
  std::optional<Weighed> weighed;
  std::optional<Dried> dried;
  std::optional<Feel> feel;
  std::optional<RoughAmount> estimated;  ///< where the amount was worked out from rough knowledge
  Use use = Use::up_to;
  std::optional<ShareOfLooseVolume> most_of_volume;
  bool bought = false;
  Cost price;  ///< in the user's money, for `priced_amount`
  std::optional<Amount> priced_amount;

  /// As-is bulk density as it goes into the pile: of its packing there, else as it is counted: weighed, else the table's of its packing.
  std::optional<BulkDensity> density() const;
  /// As-is bulk density as the person counts it.
  std::optional<BulkDensity> counted_density() const;
  /// How an amount of it lies: as the user named it; else as its container says, where the feedstock lies so; else as usual.
  const std::string& packing_of(const Amount& amount) const;
  /// How all of it lies: as what it is counted, else bought, in.
  const std::string& packing_as_counted() const;
  /// How it lies in the pile where that is otherwise: shredded, or shaken out of the bales it is counted in.
  std::optional<std::string> packing_in_pile() const;
  /// As-is mass of an amount of it as the person counts it: shredding shrinks the volume later, not the weight.
  std::optional<Mass> mass(const Amount& amount) const;
  /// Properties, with the moisture of the dried sample where there is one, else of the squeezed handful.
  Properties properties() const;
  /// So much of it as it goes into a blend.
  Ingredient ingredient(Mass mass) const;
  /// The feedstock's name, with what tells it apart: "autumn leaves (shredded)".
  std::string name() const;

  /// Said to be treated with a weedkiller, or of unknown treatment and of a kind that carries it on: no recipe gets it.
  bool may_carry_weedkiller() const;
};

/// Most supplies that one yard may list.
inline constexpr std::size_t most_supplies = 100;

/// Sets the amount. @throws TextError for a leaf bag of fertilizer
void set_amount(Supply& supply, const Amount& amount);

/// Sets it to what a text says, "20 bags" or "20 to 25 bags": of two the middle, which is an estimate between them. @throws TextError
void take_amount(Supply& supply, std::string_view text, const Materials& materials);

/// One container of it, by its mass, and how the supply lies in it.
struct Containerful {
  ContainerCount container;
  Ingredient ingredient;
};
/// Nothing where no bulk density of it is known.
std::optional<Containerful> containerful_of(Supply supply, const ContainerCount& container);

/// Reads the keys that say what something is, how it lies and how much of it there is: feedstock, packing, amount, shredded, treated,
/// weighed, dried and feel. The table of one that names no known feedstock is read on, for its other problems; its id is empty then.
Supply read_what_it_is(Table& table, const Materials& materials);
/// A problem where an amount by volume has no weight, or weighs more than it can. @pre its feedstock is known
void check_weights(Table& table, const Supply& supply);

/// Reads one [[supply]].
std::optional<Supply> read_supply(Table& table, const Materials& materials);

/// Numbers the supplies of a yard, and names those of one feedstock apart.
void tell_apart(std::vector<Supply>& supplies);

/// All [[supply]] tables of a file, told apart.
std::vector<Supply> read_supplies(Table& root, const Materials& materials);

/// A supply of a feedstock by name, "leaves-fall" or "leaves-fall:packing". @throws TextError
Supply supply_of(const Materials& materials, std::string_view name_and_packing);

/// The part of a supply that a pile built on a date can take: of storable ones what came in over the twelve months
/// before and was kept, of fresh ones at most what keeps; all of it where no season is given. Nothing where there is no amount.
/// Fresh things come in loads a week apart. Where d of the last days that they keep, with the day itself, are in season, there is
///
///     max(d, 7) days' worth, for d > 0: the last load whole, as of that day's mowing
std::optional<Amount> on_hand(const Supply& supply, Date built);
/// Times the amount of a supply with a season that is on hand on the day. @pre it has one
double share_on_hand(const Supply& supply, Date built);

/// Times the amount of a supply that comes in over a month of 2025, a common year. @pre it has a season
double share_in_month(const Supply& supply, std::chrono::month month);

/// April to October, when most lawns of the temperate north are mown; judged.
bool is_mowing_season(Date day);

/// Whether some of a supply may be on hand on a day: of a fresh one only if some of what keeps came in.
bool may_be_there(const Supply& supply, Date built);
/// Week by week, or in some months, and does not keep.
bool comes_fresh(const Supply& supply);
/// Whether some of it comes in on a day; not where no season is given.
bool comes_on(const Supply& supply, Date date);
/// The months in which it comes, in their order from the first after a month without; nothing where it comes all year, or no season is
/// given.
struct Season {
  std::vector<std::chrono::month> months;
  bool is_one_run() const;  ///< without a month in between
};
std::optional<Season> season_of(const Supply& supply);
/// What comes in each week of its season; nothing where it does not come fresh, or in no known amount.
std::optional<Amount> load_of(const Supply& supply);

/// The facts of a feedstock that goes into a pile, by its tags and where it comes from.
Facts facts_of(const Supply& supply);

}  // namespace heapwright
