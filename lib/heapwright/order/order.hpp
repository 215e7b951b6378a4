#pragma once
/// How much compost to order, of which offers, and what it costs.

#include <optional>
#include <vector>

#include "heapwright/order/offer.hpp"

namespace heapwright {

/// So much of one offer.
struct OrderLine {
  std::size_t offer = 0;  ///< its place in the list
  double units = 0.0;
  Volume volume;
  int loads = 0;           ///< delivered, or trips of one's own; none of bags that are carried home
  int loads_when_wet = 0;  ///< likewise, of compost as heavy as it may be
  int pallets = 0;         ///< that the bags come on
  Cost compost;            ///< with its tax
  Cost haulage;            ///< delivery, or one's own trips
  Cost pallet_cost;
  Cost cost;  ///< all of it
};

/// All that is ordered at once.
struct Order {
  std::vector<OrderLine> lines;  ///< in the order of the offers
  Volume volume;
  Volume left_over;  ///< beyond the need
  int loads = 0;
  Cost cost;
};

/// What is asked of a list of offers.
struct OrderQuestion {
  std::vector<Offer> offers;
  Volume need;                            ///< with the allowance
  std::optional<BulkDensity> density;     ///< of the compost: without it loads that are limited by weight are counted by volume alone
  std::optional<BulkDensity> heaviest{};  ///< wet: one's own trips go by it, since nobody at the yard weighs them
};

/// One offer's line for a volume that is a multiple of its step, no less than its minimum:
///
///     units = volume/unit        compost = units × price (1 + tax), at the price of the largest break that the volume reaches
///     loads = ⌈max(volume/load volume, volume × density/load mass)⌉, one where the load has no limit, none of what nobody delivers
///     haulage = delivery, for each load or for the order, or loads × cost of a trip        pallets = ⌈units/holds⌉
OrderLine line_for(const OrderQuestion& question, std::size_t offer, Volume volume);

/// The least volume that an offer sells, at least `need`: ⌈max(need, minimum)/step⌉ steps, and one at least.
Volume rounded_up_to_step(const Offer& offer, Volume need);

/// The cheapest mix of offers whose volume is at least the need, over all mixes; any of those that cost the same. A volume within 1e-9 of
/// the need meets it. Nothing without an offer.
/// @throws DomainError where an offer's step is below a hundred-thousandth of the need
std::optional<Order> cheapest_order(const OrderQuestion& question);

/// The cheapest that does without one of the offers of another order: what there is to choose. Nothing where none is left.
std::optional<Order> runner_up(const OrderQuestion& question, const Order& best);

/// What some money buys.
struct Bought {
  Cost budget;
  Order order;
  Cost cost;  ///< with what is paid once
  std::vector<Offer> offers;
};

/// The largest volume that can be had for some money, and at that the cheapest; nothing where it buys none.
/// @throws DomainError where the money buys more than 100,000 steps of an offer
std::optional<Order> most_for(OrderQuestion question, Cost budget);

/// What a supplier of unknown steps is asked for: half yards or half cubic meters in bulk, and of less than that bags of 1 ft³ or 40 L.
/// Common practice, no source.
Offer usual_offer(Volume need, bool metric, const Materials& materials);

/// The same order with one load less: how much short it falls, and what that saves.
struct OneLoadLess {
  Volume volume;
  Cost saved;
};

/// What to order, and what else was weighed.
struct Ordering {
  OrderQuestion question;
  bool usual = false;                   ///< nobody made an offer: by usual_offer(), without prices
  std::optional<Order> best;            ///< nothing where every offer is out of date
  std::optional<Order> next;            ///< runner_up()
  std::vector<Order> alone;             ///< each offer by itself, in their order
  std::vector<Offer> out_of_date;       ///< on the day
  std::optional<Volume> one_step_less;  ///< of an order of one offer: what it would be, short of the need
  std::optional<OneLoadLess> one_load_less;
  std::vector<FixedCost> fixed_costs;
  Cost cost;  ///< of the best and the fixed costs
};

/// Of the offers that are valid on a day; of the usual one where there are none at all.
Ordering ordering_of(OrderQuestion question, std::vector<FixedCost> fixed_costs, Date today, bool metric, const Materials& materials);

/// The most of the offers that are valid on a day for a budget, less the fixed costs; nothing where it buys none.
std::optional<Bought> bought_for(Cost budget, OrderQuestion question, const std::vector<FixedCost>& fixed_costs, Date today);

}  // namespace heapwright
