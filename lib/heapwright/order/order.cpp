#include "heapwright/order/order.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "heapwright/error.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

constexpr double rounding = 1e-9;  // a need of 13 steps to rounding is met by 13
constexpr double most_order_steps = 1e5;

/// The least whole number that is no smaller, to rounding.
double whole_up(double number) { return std::ceil(number - rounding * std::max(1.0, std::abs(number))); }

Cost price_at(const Offer& offer, Volume volume) {
  Cost price = offer.price;
  for (const PriceBreak& at : offer.breaks) {
    if (volume >= (1.0 - rounding) * at.from) price = at.price;
  }
  return price;
}

/// What is neither delivered nor limited is carried home, and makes no load.
bool comes_in_loads(const Offer& offer) { return offer.own_haulage || is_positive(offer.delivery) || offer.load.volume || offer.load.mass; }

int loads_for(const LoadLimit& load, Volume volume, const std::optional<BulkDensity>& density) {
  double loads = 1.0;
  if (load.volume) loads = std::max(loads, whole_up(volume / *load.volume));
  if (load.mass && density) loads = std::max(loads, whole_up(Mass(volume * *density) / *load.mass));
  return static_cast<int>(loads);
}

/// Volumes of one offer that the cheapest order may have: every step up to what covers a need, and beyond it those that reach a lower
/// price.
std::vector<double> steps_worth_trying(const Offer& offer, Volume need) {
  const auto steps_to = [&](Volume volume) { return whole_up(volume / offer.step); };
  const double least = std::max(1.0, offer.minimum ? steps_to(*offer.minimum) : 1.0);
  const double enough = std::max(least, steps_to(need));
  if (!(enough <= most_order_steps))
    throw DomainError("an order of \"" + offer.name + "\" would have more than 100,000 steps", "give a larger step or unit");
  std::vector<double> steps;
  for (double count = least; count <= enough; ++count) steps.push_back(count);
  for (const PriceBreak& at : offer.breaks) {
    if (steps_to(at.from) > enough) steps.push_back(steps_to(at.from));
  }
  return steps;
}

/// A mix of the first offers: how much it comes to, and how the last of them was chosen.
struct Partial {
  double volume = 0.0;
  double cost = 0.0;
  std::size_t before = 0;  ///< its place in the list of those of one offer less
  double steps = 0.0;      ///< of the last offer
  int kinds = 0;           ///< offers that are in it
};

/// Of mixes that are as large, or larger than wanted, the cheapest; of those the one of fewer offers.
bool is_better(const Partial& one, const Partial& other) {
  if (one.cost != other.cost) return one.cost < other.cost;
  if (one.kinds != other.kinds) return one.kinds < other.kinds;
  return one.volume < other.volume;
}

/// Leaves out what costs no less than something larger.
std::vector<Partial> worth_keeping(std::vector<Partial> all) {
  std::sort(all.begin(), all.end(),
            [](const Partial& a, const Partial& b) { return a.volume != b.volume ? a.volume > b.volume : is_better(a, b); });
  std::vector<Partial> kept;
  for (const Partial& one : all) {
    if (kept.empty() || one.cost < kept.back().cost) kept.push_back(one);
  }
  return kept;
}

struct Choice {
  double steps;
  double volume;
  double cost;
};

std::vector<Choice> choices_of(const OrderQuestion& question, std::size_t offer, const std::vector<double>& steps) {
  std::vector<Choice> choices;
  for (const double count : steps) {
    const Volume volume = count * question.offers[offer].step;
    choices.push_back({count, volume.value(), line_for(question, offer, volume).cost.value()});
  }
  return choices;
}

Order order_of(const OrderQuestion& question, const std::vector<double>& steps) {
  Order order;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (!(steps[i] > 0.0)) continue;
    order.lines.push_back(line_for(question, i, steps[i] * question.offers[i].step));
    const OrderLine& line = order.lines.back();
    order.volume += line.volume;
    order.cost += line.cost;
    order.loads += line.loads;
  }
  order.left_over = std::max(Volume(), Volume(order.volume - question.need));
  return order;
}

/// The mixes of all offers, one offer after the other; of each list only what may still become the best.
class Mixes {
 public:
  explicit Mixes(const OrderQuestion& question) : question_(question) { lists_.push_back({Partial()}); }

  /// Adds some of the next offer to every mix that `wants_more`, unless that costs more than `most`.
  template <class WantsMore>
  void add(const std::vector<Choice>& choices, double most, WantsMore&& wants_more) {
    const std::vector<Partial>& before = lists_.back();
    std::vector<Partial> all;
    for (std::size_t i = 0; i < before.size(); ++i) {
      all.push_back({before[i].volume, before[i].cost, i, 0.0, before[i].kinds});
      if (!wants_more(before[i])) continue;
      for (const Choice& choice : choices) {
        const Partial with{before[i].volume + choice.volume, before[i].cost + choice.cost, i, choice.steps, before[i].kinds + 1};
        if (with.cost <= most) all.push_back(with);
      }
    }
    lists_.push_back(worth_keeping(std::move(all)));
  }

  const std::vector<Partial>& last() const { return lists_.back(); }

  Order order(const Partial& mix) const {
    std::vector<double> steps(lists_.size() - 1, 0.0);
    const Partial* at = &mix;
    for (std::size_t i = lists_.size() - 1; i > 0; --i) {
      steps[i - 1] = at->steps;
      at = &lists_[i - 1][at->before];
    }
    return order_of(question_, steps);
  }

 private:
  const OrderQuestion& question_;
  std::vector<std::vector<Partial>> lists_;
};

/// The cheapest that one offer alone costs: no part of a cheaper mix costs more.
double cheapest_of_one(const OrderQuestion& question) {
  double cheapest = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i < question.offers.size(); ++i) {
    for (const double steps : steps_worth_trying(question.offers[i], question.need)) {
      const Volume volume = steps * question.offers[i].step;
      if (volume >= (1.0 - rounding) * question.need) cheapest = std::min(cheapest, line_for(question, i, volume).cost.value());
    }
  }
  return cheapest;
}

}  // namespace

OrderLine line_for(const OrderQuestion& question, std::size_t offer, Volume volume) {
  const Offer& from = question.offers[offer];
  OrderLine line;
  line.offer = offer;
  line.volume = volume;
  line.units = volume / from.unit_volume;
  const Cost net = line.units * price_at(from, volume);
  line.compost = net + from.tax * net;
  const std::optional<BulkDensity>& wet = question.heaviest ? question.heaviest : question.density;
  if (from.own_haulage) {
    line.loads = loads_for(from.own_haulage->load, volume, wet);
    line.loads_when_wet = line.loads;
    line.haulage = static_cast<double>(line.loads) * from.own_haulage->trip_cost;
  } else {
    line.loads = comes_in_loads(from) ? loads_for(from.load, volume, question.density) : 0;
    line.loads_when_wet = comes_in_loads(from) ? loads_for(from.load, volume, wet) : 0;
    line.haulage = (from.delivery_per == DeliveryPer::load ? static_cast<double>(line.loads) : 1.0) * from.delivery;
  }
  if (from.pallet) {
    line.pallets = static_cast<int>(whole_up(line.units / from.pallet->holds));
    line.pallet_cost = static_cast<double>(line.pallets) * from.pallet->price;
  }
  line.cost = line.compost + line.haulage + line.pallet_cost;
  return line;
}

Volume rounded_up_to_step(const Offer& offer, Volume need) {
  const Volume least = offer.minimum ? std::max(need, *offer.minimum) : need;
  return std::max(1.0, whole_up(least / offer.step)) * offer.step;
}

std::optional<Order> cheapest_order(const OrderQuestion& question) {
  if (question.offers.empty() || !is_positive(question.need)) return std::nullopt;
  const double enough = (1.0 - rounding) * question.need.value();
  const double most = (1.0 + rounding) * cheapest_of_one(question);
  Mixes mixes(question);
  for (std::size_t i = 0; i < question.offers.size(); ++i)
    mixes.add(choices_of(question, i, steps_worth_trying(question.offers[i], question.need)), most,
              [&](const Partial& mix) { return mix.volume < enough; });
  const Partial* best = nullptr;
  for (const Partial& mix : mixes.last()) {
    if (mix.volume >= enough && (best == nullptr || is_better(mix, *best))) best = &mix;
  }
  return best != nullptr ? std::optional(mixes.order(*best)) : std::nullopt;
}

std::optional<Order> runner_up(const OrderQuestion& question, const Order& best) {
  std::optional<Order> next;
  for (const OrderLine& line : best.lines) {
    OrderQuestion without = question;
    without.offers.erase(without.offers.begin() + static_cast<std::ptrdiff_t>(line.offer));
    std::optional<Order> order = cheapest_order(without);
    if (!order) continue;
    for (OrderLine& other : order->lines) {
      if (other.offer >= line.offer) ++other.offer;
    }
    if (!next || order->cost < next->cost) next = std::move(order);
  }
  return next;
}

std::optional<Order> most_for(OrderQuestion question, Cost budget) {
  if (!is_positive(budget)) return std::nullopt;
  const double most = (1.0 + rounding) * budget.value();
  Mixes mixes(question);
  for (std::size_t i = 0; i < question.offers.size(); ++i) {
    const Offer& offer = question.offers[i];
    const double least = offer.minimum ? whole_up(*offer.minimum / offer.step) : 1.0;
    std::vector<double> steps;
    for (double count = std::max(1.0, least);; ++count) {
      if (!(count <= most_order_steps))
        throw DomainError("so much money buys more than 100,000 steps of \"" + offer.name + "\"", "give a price");
      const bool affordable = line_for(question, i, count * offer.step).cost.value() <= most;
      const bool cheaper_further =
          std::any_of(offer.breaks.begin(), offer.breaks.end(), [&](const PriceBreak& at) { return at.from > count * offer.step; });
      if (affordable) steps.push_back(count);
      if (!affordable && !cheaper_further) break;
    }
    mixes.add(choices_of(question, i, steps), most, [](const Partial&) { return true; });
  }
  const Partial* best = nullptr;
  for (const Partial& mix : mixes.last()) {
    if (mix.volume > 0.0 && (best == nullptr || mix.volume > best->volume)) best = &mix;
  }
  if (best == nullptr) return std::nullopt;
  question.need = Volume();
  return mixes.order(*best);
}

Offer usual_offer(Volume need, bool metric, const Materials& materials) {
  const Volume step = 0.5 * (metric ? Volume(1.0 * unit::m3) : unit::cubic_yard);
  Offer offer;
  offer.name = "compost";
  offer.unit = metric ? Volume(1.0 * unit::m3) : unit::cubic_yard;
  offer.unit_volume = 2.0 * step;
  offer.step = step;
  if (need >= step) return offer;
  const ContainerCount bag = so_many(1.0, known_row(*materials.containers, metric ? "compost-bag-40l" : "compost-bag-1ft3"));
  offer.unit = bag;
  offer.unit_volume = bag.each;
  offer.step = bag.each;
  return offer;
}

namespace {

std::optional<Volume> one_step_less(const OrderQuestion& question, const Order& best) {
  if (best.lines.size() != 1) return std::nullopt;
  const Offer& offer = question.offers[best.lines.front().offer];
  const Volume less = best.volume - offer.step;
  const bool too_small = !is_positive(less) || (offer.minimum && less < (1.0 - rounding) * *offer.minimum);
  return too_small || less >= (1.0 - rounding) * question.need ? std::nullopt : std::optional(less);
}

/// Of an order of one offer that is priced by the load.
std::optional<OneLoadLess> one_load_less(const OrderQuestion& question, const Order& best) {
  if (best.lines.size() != 1 || best.loads < 2) return std::nullopt;
  const std::size_t place = best.lines.front().offer;
  const Offer& offer = question.offers[place];
  for (Volume volume = best.volume - offer.step; is_positive(volume); volume -= offer.step) {
    const OrderLine line = line_for(question, place, volume);
    if (line.loads >= best.loads) continue;
    return line.cost < best.cost ? std::optional(OneLoadLess{volume, best.cost - line.cost}) : std::nullopt;
  }
  return std::nullopt;
}

std::vector<Order> each_alone(const OrderQuestion& question) {
  std::vector<Order> alone;
  for (std::size_t i = 0; i < question.offers.size(); ++i) {
    const OrderQuestion only{{question.offers[i]}, question.need, question.density, question.heaviest};
    Order order = *cheapest_order(only);
    order.lines.front().offer = i;
    alone.push_back(std::move(order));
  }
  return alone;
}

}  // namespace

std::optional<Bought> bought_for(Cost budget, OrderQuestion question, const std::vector<FixedCost>& fixed_costs, Date today) {
  std::erase_if(question.offers, [&](const Offer& offer) { return !offer.is_valid_on(today); });
  Cost fixed;
  for (const FixedCost& one : fixed_costs) fixed += one.price;
  std::optional<Order> order = most_for(question, budget - fixed);
  if (!order) return std::nullopt;
  const Cost cost = order->cost + fixed;
  return Bought{budget, std::move(*order), cost, std::move(question.offers)};
}

Ordering ordering_of(OrderQuestion question, std::vector<FixedCost> fixed_costs, Date today, bool metric, const Materials& materials) {
  Ordering ordering;
  ordering.usual = question.offers.empty();
  if (ordering.usual) question.offers.push_back(usual_offer(question.need, metric, materials));
  const auto valid =
      std::stable_partition(question.offers.begin(), question.offers.end(), [&](const Offer& offer) { return offer.is_valid_on(today); });
  ordering.out_of_date.assign(std::make_move_iterator(valid), std::make_move_iterator(question.offers.end()));
  question.offers.erase(valid, question.offers.end());
  ordering.best = cheapest_order(question);
  for (const FixedCost& fixed : fixed_costs) ordering.cost += fixed.price;
  if (ordering.best) {
    ordering.next = runner_up(question, *ordering.best);
    ordering.alone = each_alone(question);
    ordering.one_step_less = one_step_less(question, *ordering.best);
    ordering.one_load_less = one_load_less(question, *ordering.best);
    ordering.cost += ordering.best->cost;
  }
  ordering.fixed_costs = std::move(fixed_costs);
  ordering.question = std::move(question);
  return ordering;
}

}  // namespace heapwright
