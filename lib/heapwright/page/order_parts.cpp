#include "heapwright/page/order_parts.hpp"

#include <cmath>
#include <utility>

#include "heapwright/materials/rows.hpp"
#include "heapwright/order/loads.hpp"
#include "heapwright/order/phone_line.hpp"

namespace heapwright {
namespace {

Words quantities(const Order& order, const Ordering& ordering, const Materials& materials) {
  std::vector<Words> words;
  for (const OrderLine& line : order.lines) {
    const Offer& offer = ordering.question.offers[line.offer];
    words.push_back(say("{} from \"{}\"", quantity_text(line, offer, materials), offer.name));
  }
  return listed(words);
}

/// "640 in your money from …"
Words priced(const Order& order, const Ordering& ordering, const Materials& materials) {
  return say("{} for {}", order.cost, quantities(order, ordering, materials));
}

Words fixed_words(const Ordering& ordering) {
  if (ordering.fixed_costs.empty()) return {};
  std::vector<Words> words;
  for (const FixedCost& fixed : ordering.fixed_costs) words.push_back(say("{} {}", fixed.name, fixed.price));
  return say("; with {}: {}", listed(words), ordering.cost);
}

/// Less than a hundredth of the need is hardly anything.
Words spare_words(Volume left_over, Volume need, const Offer& offer) {
  constexpr double hardly_any = 0.01;
  if (left_over < hardly_any * need) return "; hardly any is spare";
  return say("; {} is spare", in_unit_of(offer, left_over, 2));
}

/// "26 wheelbarrow loads of 6 cu ft"
Words loads_words(const Topdressing& topdressing) {
  const Count loads{std::ceil(topdressing.wheelbarrow_loads), "wheelbarrow load"};
  return topdressing.wheelbarrow ? say("{} of {}", loads, topdressing.wheelbarrow->volume) : Words(loads);
}

/// What it takes, what of the order is left over, and what a step less would be short.
Words margin_words(const Topdressing& topdressing) {
  const Volume need = topdressing.volume_with_allowance;
  const auto takes = [&](const Words& volume) {
    return say("{}, {}, with {} for overlap and lumps", volume, loads_words(topdressing), Percent{allowance_of(topdressing.plan).value()});
  };
  const std::optional<Ordering>& ordering = topdressing.ordering;
  if (!ordering || !ordering->best) return takes(need);
  const Offer& offer = ordering->question.offers[ordering->best->lines.front().offer];
  const Words spare = spare_words(ordering->best->left_over, need, offer);
  const Words less = ordering->one_step_less ? say("; {} would be {} short", in_unit_of(offer, *ordering->one_step_less),
                                                   Percent{static_cast<double>((need - *ordering->one_step_less) / need)})
                                             : Words();
  return say("{}{}{}", takes(in_unit_of(offer, need)), spare, less);
}

Words one_load_less_words(const Topdressing& topdressing) {
  const Ordering& ordering = *topdressing.ordering;
  const OneLoadLess& less = *ordering.one_load_less;
  const double share = less.volume / ordering.question.need;
  return say("{}, a load less, would save {} and come out {} deep",
             in_unit_of(ordering.question.offers[ordering.best->lines.front().offer], less.volume), less.saved,
             SpreadDepth{share * topdressing.depth});
}

/// What one of so many trips weighs, where all of it is hauled so.
Words weight_of_a_trip(const OrderLine& line, const Topdressing& topdressing) {
  if (!topdressing.mass) return {};
  const double share = static_cast<double>(line.volume / topdressing.volume_with_allowance) / line.loads;
  return say(", {}", Between<Mass>{share * topdressing.mass->low, share * topdressing.mass->high});
}

Words trips_words(const OrderLine& line, const Offer& offer, const Topdressing& topdressing) {
  return say("{} of your own, about {} each{}", Count{static_cast<double>(line.loads), "trip"}, in_unit_of(offer, one_load_of(line), 2),
             weight_of_a_trip(line, topdressing));
}

bool is_too_coarse(const Offer& offer, const Topdressing& topdressing) {
  return offer.screen && *offer.screen > coarsest_screen(topdressing) * (1.0 + 1e-9);
}

}  // namespace

void say_order(PageWriter& writer, const Topdressing& topdressing) {
  if (!topdressing.phone_line.empty()) writer.paragraph(say("Order {}.", topdressing.phone_line));
  if (topdressing.ordering && !topdressing.ordering->best) writer.paragraph("Every offer is out of date: ask for new ones.");
}

namespace {

/// The same in bags of the common size, for who has no supplier yet.
Words in_bags(Volume volume, const Materials& materials) {
  const Container& us_bag = known_row(*materials.containers, "compost-bag-1ft3");
  const Container& si_bag = known_row(*materials.containers, "compost-bag-40l");
  return SoldInBags{volume, us_bag.volume, si_bag.volume};
}

/// "49 cu yd on 59100 sq ft, 2026-09-11: 0.27 in deep, 7 % more than meant"
Words spread_words(const Spread& spread) {
  const Words day = spread.date ? say(", {}", *spread.date) : Words();
  const double over = spread.over();
  constexpr double as_meant = 0.005;
  const Words off =
      std::abs(over) < as_meant ? Words("as meant") : say("{} {} than meant", Percent{std::abs(over)}, over > 0.0 ? "more" : "less");
  return say("{} on {}{}: {} deep, {}{}", spread.used, spread.area, day, SpreadDepth{spread.depth}, off,
             over > most_learned_allowance ? ": spread thinner" : "");
}

bool is_in_bags(const Ordering& ordering) {
  return ordering.best && std::holds_alternative<ContainerCount>(ordering.question.offers[ordering.best->lines.front().offer].unit);
}

}  // namespace

void add_order(Labels& labels, const Topdressing& topdressing, const Materials& materials) {
  const auto add = [&](const char* name, Words words) { labels.labels.push_back({name, std::move(words)}); };
  const std::optional<Ordering>& ordering = topdressing.ordering;
  const bool or_bags = ordering && ordering->usual && !is_in_bags(*ordering);
  add("Takes", or_bags ? say("{}. Or {}", margin_words(topdressing), in_bags(topdressing.volume_with_allowance, materials))
                       : margin_words(topdressing));
  if (!topdressing.plan.spreads.empty()) add("Before", spread_words(latest(topdressing.plan.spreads)));
  if (!ordering || ordering->usual) return;
  if (!ordering->best) return;
  add("Cost", say("{}{}", priced(*ordering->best, *ordering, materials), fixed_words(*ordering)));
  if (ordering->next) add("Next", priced(*ordering->next, *ordering, materials));
  if (ordering->one_load_less) add("Or", one_load_less_words(topdressing));
  for (const OrderLine& line : ordering->best->lines) {
    const Offer& offer = ordering->question.offers[line.offer];
    if (offer.own_haulage) add("Trips", trips_words(line, offer, topdressing));
    if (is_too_coarse(offer, topdressing))
      add("Coarse", say("\"{}\" is screened to {}: for a lawn ask for finer", offer.name, SpreadDepth{*offer.screen}));
  }
}

Words in_loads(const OrderLine& line) {
  return line.loads > 0 ? say("{} in {}", line.volume, Count{static_cast<double>(line.loads), "load"}) : Words(line.volume);
}

namespace {

/// Where there is more than one load or one offer; else there is nothing to see.
std::optional<Bars> bars_of_order(const Ordering& ordering) {
  if (!ordering.best || (ordering.best->lines.size() < 2 && ordering.best->loads < 2)) return std::nullopt;
  Bars bars{"What to order, load by load", {}, {}, {}};
  std::vector<Words> words;
  for (const OrderLine& line : ordering.best->lines) {
    const Offer& offer = ordering.question.offers[line.offer];
    bars.bars.push_back({offer.name, loads_to_draw(line), in_loads(line)});
    words.push_back(say("{}: {}", offer.name, in_loads(line)));
  }
  bars.in_words = say("{}.", joined(words, "; "));
  return bars;
}

}  // namespace

void say_why_of_order(PageWriter& writer, const Topdressing& topdressing, const Materials& materials) {
  const std::optional<Ordering>& ordering = topdressing.ordering;
  if (!ordering || ordering->usual) return;
  Grid grid;
  grid.head = {"offer", "order", "compost", "haulage", "pallets", "in all"};
  for (const Order& order : ordering->alone) {
    const OrderLine& line = order.lines.front();
    const Offer& offer = ordering->question.offers[line.offer];
    grid.rows.push_back({offer.name, quantity_text(line, offer, materials), line.compost, line.haulage, line.pallet_cost, line.cost});
  }
  writer.section(Depth::why, "Each offer by itself").block(std::move(grid));
  writer.paragraph("In your money, tax on the compost alone with it. The cheapest is looked for over all mixes of the offers.");
  if (std::optional<Bars> bars = bars_of_order(*ordering)) writer.block(*std::move(bars));
  std::vector<Words> old;
  for (const Offer& offer : ordering->out_of_date)
    old.push_back(say("\"{}\" was valid until {}: ask again", offer.name, *offer.valid_until));
  writer.bullets(std::move(old));
}

}  // namespace heapwright
