#pragma once
/// What a supplier charges for compost.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/materials/amount.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;
struct Materials;

struct OfPrice;  ///< a tax
using ShareOfPrice = Fraction<OfPrice>;

/// A price for each unit of an order that is at least so large; of all its units.
struct PriceBreak {
  Volume from;
  Cost price;
};

/// What a truck, a trailer or a pickup takes at once, by volume, by weight, or by both.
struct LoadLimit {
  std::optional<Volume> volume;
  std::optional<Mass> mass;
};

/// What a delivery is paid for each of.
enum class DeliveryPer { order, load };

/// Bags come on pallets, each with its deposit or fee, a part of one as a whole one.
struct Pallet {
  double holds = 1.0;  ///< units
  Cost price;
};

/// The buyer's own trips in place of a delivery.
struct OwnHaulage {
  Cost trip_cost;
  LoadLimit load;
};

/// What one supplier sells, in one form.
struct Offer {
  std::string name;
  Amount unit;         ///< what the price is for: "1 yd3", "1 compost-bag-1ft3"
  Volume unit_volume;  ///< of that
  Cost price;
  Cost delivery;
  DeliveryPer delivery_per = DeliveryPer::order;
  LoadLimit load;
  std::optional<Volume> minimum;
  Volume step;  ///< orders are multiples of it; one unit where nothing is said
  std::optional<Length> screen;
  std::vector<PriceBreak> breaks;            ///< from the smallest up
  ShareOfPrice tax = ShareOfPrice::of(0.0);  ///< on the compost, and on nothing else
  std::optional<Pallet> pallet;
  std::optional<Date> valid_until;
  std::optional<OwnHaulage> own_haulage;

  /// Its last day included; without one on any day.
  bool is_valid_on(Date day) const { return !valid_until || day <= *valid_until; }
};

/// A service or a hire that is paid once, whatever is ordered.
struct FixedCost {
  std::string name;
  Cost price;
};

/// A volume of finished compost: "10 yd3", "20 compost-bag-1ft3". @throws TextError, for a plain bag too, whose size nobody knows
Volume read_compost_volume(std::string_view text, const Materials& materials);

/// Reads one [[topdressing.offer]].
Offer read_offer(Table& table, const Materials& materials);

/// Reads one [[topdressing.fixed_cost]].
FixedCost read_fixed_cost(Table& table);

}  // namespace heapwright
