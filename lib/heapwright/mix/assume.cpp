#include "heapwright/mix/assume.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "heapwright/materials/rows.hpp"
#include "heapwright/mix/vary.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double worth_the_trouble = 0.01;  // judged: a hundredth of the answer

template <class Quantity>
void assume(std::vector<Assumption>& assumptions, std::string what, Figure figure, const Feedstock& feedstock,
            const PublishedValue<Quantity>& published, const Materials& materials, std::string which = {}) {
  if (!published.typical) return;
  Assumption assumption;
  assumption.what = std::move(what);
  assumption.value = *published.typical;
  if (published.low && published.high) {
    assumption.low = *published.low;
    assumption.high = *published.high;
  }
  assumption.evidence = source_words(materials, published);
  assumption.in_short = source_in_short(materials, published);
  assumption.feedstock = feedstock.id;
  assumption.figure = figure;
  assumption.which = std::move(which);
  assumptions.push_back(std::move(assumption));
}

template <class Quantity>
void assume_used(std::vector<Assumption>& assumptions, std::string what, Figure figure, const Feedstock& feedstock,
                 const PublishedValues<Quantity>& values, const Materials& materials, std::string which = {}) {
  if (!values.empty()) assume(assumptions, std::move(what), figure, feedstock, values.front(), materials, std::move(which));
}

AssumedValue as_value(const Amount& amount) {
  return std::visit([](const auto& quantity) { return AssumedValue(quantity); }, amount);
}

void assume_amount(std::vector<Assumption>& assumptions, const Supply& supply) {
  if (!supply.estimated || !supply.amount) return;
  const RoughAmount& rough = *supply.estimated;
  assumptions.push_back({supply.feedstock.name + " of " + rough.words, as_value(*supply.amount), as_value(times(rough.low, *supply.amount)),
                         as_value(times(rough.high, *supply.amount)), rough.evidence, std::nullopt, supply.feedstock.id, Figure::amount,
                         rough.words});
}

void assume_container(std::vector<Assumption>& assumptions, const Supply& supply, const Materials& materials) {
  const ContainerCount* counted = supply.amount ? std::get_if<ContainerCount>(&*supply.amount) : nullptr;
  if (counted == nullptr || (supply.estimated && supply.estimated->from)) return;
  const Container* container = row_with_id(*materials.containers, counted->container);
  if (container == nullptr) return;
  PublishedValue<Volume> size;
  size.typical = counted->each;
  size.low = container->low;
  size.high = container->high;
  size.source = container->source;
  size.evidence = container->evidence;
  assume(assumptions, "one " + container->name + " of " + supply.feedstock.name, Figure::container, supply.feedstock, size, materials,
         container->id);
}

void assume_densities(std::vector<Assumption>& assumptions, const Supply& supply, const Materials& materials) {
  const Feedstock& feedstock = supply.feedstock;
  const auto assume_packing = [&](const std::string& packing, Figure figure, const std::string& how) {
    if (const Packing* found = feedstock.find_packing(packing))
      assume_used(assumptions, "weight of " + feedstock.name + ", " + how, figure, feedstock, found->values, materials, packing);
  };
  if (!supply.weighed) {
    const std::string& packing = supply.packing_as_counted();
    assume_packing(packing, Figure::bulk_density, (supply.packing_assumed ? "taken as " : "") + packing);
  }
  const std::optional<std::string> in_pile = supply.packing_in_pile();
  if (in_pile) assume_packing(*in_pile, Figure::bulk_density_in_pile, *in_pile + " in the pile");
}

/// What the person measured: no assumption any more, and said so.
void state_measured(std::vector<Assumption>& assumptions, const Supply& supply) {
  const std::string& name = supply.feedstock.name;
  const auto state = [&](std::string what, AssumedValue value, std::string evidence) {
    assumptions.push_back(
        {std::move(what), std::move(value), std::nullopt, std::nullopt, std::move(evidence), std::nullopt, supply.feedstock.id});
  };
  if (supply.weighed) state("weight of " + name, supply.weighed->density(), "you weighed it");
  if (supply.dried) state("moisture of " + name, supply.dried->moisture(), "you dried it");
}

/// The greatest less the least of three, by the typical one; by the largest where that is 0, and 0 where all are.
template <class Quantity>
double relative_span(Quantity low, Quantity typical, Quantity high) {
  const Quantity greatest = std::max({low, typical, high});
  const Quantity span = greatest - std::min({low, typical, high});
  if (!is_positive(span)) return 0.0;
  return span / (is_positive(typical) ? typical : greatest);
}

/// The container that a supply is counted in, else the one that it usually is.
Container container_of(const Supply& supply, const Materials& materials) {
  const ContainerCount* counted = supply.amount ? std::get_if<ContainerCount>(&*supply.amount) : nullptr;
  const Container* container =
      row_with_id(*materials.containers, counted != nullptr ? counted->container : supply.feedstock.usual_container);
  return container != nullptr ? *container : known_row(*materials.containers, "bucket");
}

/// A supply once it is measured, with the figure that is used anyway as the result; nothing where it is known, or cannot be.
std::optional<Supply> measured(Supply supply, HowToMeasure how, const Materials& materials) {
  switch (how) {
    case HowToMeasure::weigh: {
      const std::optional<BulkDensity> density = supply.counted_density();
      if (supply.weighed || !density) return std::nullopt;
      const Container container = container_of(supply, materials);
      supply.weighed = Weighed{so_many(1.0, container), Mass(container.volume * *density), Mass()};
      return supply;
    }
    case HowToMeasure::dry: {
      if (supply.dried) return std::nullopt;
      supply.dried = Dried{1.0 * unit::kg, as_is_mass(dry_mass(1.0 * unit::kg, supply.properties().moisture), WaterMass())};
      return supply;
    }
    case HowToMeasure::count: {
      if (!supply.estimated) return std::nullopt;
      supply.estimated.reset();
      return supply;
    }
  }
  return std::nullopt;
}

/// The supplies of one feedstock, measured where they can be, by their places; nothing where none can.
std::map<std::size_t, Supply> measured(const std::vector<Taken>& taken, const std::string& feedstock, HowToMeasure how,
                                       const Materials& materials) {
  std::map<std::size_t, Supply> supplies;
  for (std::size_t i = 0; i < taken.size(); ++i) {
    if (taken[i].supply->feedstock.id != feedstock) continue;
    if (auto known = measured(*taken[i].supply, how, materials)) supplies.emplace(i, std::move(*known));
  }
  return supplies;
}

/// Sum of the squared changes that the assumptions about some ingredients make. What is assumed alike of several moves together.
double squares_of(const Blend& blend, const std::vector<Taken>& taken, const std::string& feedstock, const Materials& materials) {
  std::map<FigureInUse, double> changes;
  for (std::size_t i = 0; i < taken.size(); ++i) {
    if (taken[i].supply->feedstock.id != feedstock) continue;
    for (const Assumption& assumption : assumptions_of(*taken[i].supply, materials))
      changes[figure_in_use(assumption)] += change_of_mix(blend, i, taken[i], assumption).value_or(0.0);
  }
  double squares = 0.0;
  for (const auto& [figure, change] : changes) squares += change * change;
  return squares;
}

}  // namespace

std::string_view measuring_word(HowToMeasure how) {
  switch (how) {
    case HowToMeasure::weigh: return "weighed";
    case HowToMeasure::dry: return "dried";
    case HowToMeasure::count: return "amount";
  }
  return "";
}

std::vector<Assumption> assumptions_of(const Supply& supply, const Materials& materials) {
  std::vector<Assumption> assumptions;
  const Feedstock& feedstock = supply.feedstock;
  assume_amount(assumptions, supply);
  assume_container(assumptions, supply, materials);
  assume_densities(assumptions, supply, materials);
  if (!supply.dried && supply.feel) {
    assume(assumptions, "moisture of " + feedstock.name + ", a handful " + supply.feel->id, Figure::moisture, feedstock,
           supply.feel->moisture, materials, supply.feel->id);
  } else if (!supply.dried) {
    assume_used(assumptions, "moisture of " + feedstock.name, Figure::moisture, feedstock, feedstock.moisture, materials);
  }
  assume_used(assumptions, "C:N of " + feedstock.name, Figure::carbon_to_nitrogen, feedstock, feedstock.carbon_to_nitrogen, materials);
  if (!used(feedstock.carbon_to_nitrogen))
    assume_used(assumptions, "nitrogen of " + feedstock.name, Figure::nitrogen, feedstock, feedstock.nitrogen, materials);
  assume_used(assumptions, "carbon of " + feedstock.name, Figure::carbon, feedstock, feedstock.carbon, materials);
  state_measured(assumptions, supply);
  return assumptions;
}

FigureInUse figure_in_use(const Assumption& assumption) {
  const Figure figure = assumption.figure == Figure::bulk_density_in_pile ? Figure::bulk_density : assumption.figure;
  return {assumption.feedstock, figure, assumption.which};
}

std::optional<double> change_of_mix(const Blend& blend, std::size_t ingredient, const Taken& taken, const Assumption& assumption) {
  const std::optional<Variation> variation = Variation::of(assumption, blend.ingredients.at(ingredient), taken);
  if (!variation) return std::nullopt;
  const auto mix_at = [&](double number) {
    Blend other = blend;
    variation->apply(number, other.ingredients.at(ingredient));
    return mix_of(other);
  };
  const Mix low = mix_at(variation->low());
  const Mix typical = mix_of(blend);
  const Mix high = mix_at(variation->high());
  if (!low.carbon_to_nitrogen || !typical.carbon_to_nitrogen || !high.carbon_to_nitrogen) return std::nullopt;
  const double ratio = relative_span(*low.carbon_to_nitrogen, *typical.carbon_to_nitrogen, *high.carbon_to_nitrogen);
  const double moisture = relative_span(*low.moisture, *typical.moisture, *high.moisture);
  const bool volumes = low.volume && typical.volume && high.volume;
  const double volume = volumes ? relative_span(*low.volume, *typical.volume, *high.volume) : 0.0;
  return std::hypot(ratio, moisture, volume);
}

std::optional<Measurement> measure_first(const Blend& blend, const std::vector<Taken>& taken, const Materials& materials) {
  std::map<std::string, double> squares;
  std::vector<const Supply*> first_of_each;  // of several supplies of a feedstock one is measured
  for (const Taken& one : taken) {
    const auto [place, is_new] = squares.emplace(one.supply->feedstock.id, 0.0);
    if (!is_new) continue;
    place->second = squares_of(blend, taken, place->first, materials);
    first_of_each.push_back(one.supply);
  }
  double all = 0.0;
  for (const auto& [id, square] : squares) all += square;
  std::optional<Measurement> first;
  for (const Supply* supply : first_of_each) {
    const Feedstock& feedstock = supply->feedstock;
    for (const HowToMeasure how : {HowToMeasure::weigh, HowToMeasure::dry, HowToMeasure::count}) {
      const std::map<std::size_t, Supply> known = measured(taken, feedstock.id, how, materials);
      if (known.empty()) continue;
      std::vector<Taken> then = taken;
      for (const auto& [at, measured_one] : known) then[at].supply = &measured_one;
      const double left = squares_of(blend, then, feedstock.id, materials);
      const double narrower = std::sqrt(all) - std::sqrt(std::max(0.0, all - squares[feedstock.id] + left));
      if (!(narrower >= worth_the_trouble) || (first && narrower <= first->narrows_by)) continue;
      first = Measurement{how, feedstock.id, feedstock.name, container_of(*supply, materials), narrower};
    }
  }
  return first;
}

void order_by_weight(std::vector<Assumption>& assumptions) {
  std::stable_sort(assumptions.begin(), assumptions.end(), [](const Assumption& a, const Assumption& b) {
    return a.could_change_answer.value_or(-1.0) > b.could_change_answer.value_or(-1.0);
  });
}

}  // namespace heapwright
