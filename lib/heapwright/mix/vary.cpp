#include "heapwright/mix/vary.hpp"

#include <algorithm>

namespace heapwright {
namespace {

constexpr double all_of_it = 0.999;

bool is_all(const Ingredient& ingredient, const Taken& taken) { return taken.available && ingredient.mass >= all_of_it * *taken.available; }

bool is_told_by_weight(const Supply& supply) {
  const std::optional<Amount>& given = supply.amount ? supply.amount : supply.priced_amount;
  return given && std::holds_alternative<Mass>(*given);
}

bool is_of_trees(const Supply& supply) {
  const std::optional<Estimate> from = supply.estimated ? supply.estimated->from : std::nullopt;
  return from && std::holds_alternative<Trees>(*from);
}

bool lies_as_counted(const Supply& supply) { return !supply.packing_in_pile(); }

}  // namespace

Variation::Variation(const Assumption& assumption, double low, double typical, double high)
    : figure_(assumption.figure), low_(low), typical_(typical), high_(high) {}

std::optional<Variation> Variation::of(const Assumption& assumption, const Ingredient& ingredient, const Taken& taken) {
  if (assumption.figure == Figure::none || !assumption.low || !assumption.high) return std::nullopt;
  const std::optional<double> low = si_number_of(*assumption.low);
  const std::optional<double> typical = si_number_of(assumption.value);
  const std::optional<double> high = si_number_of(*assumption.high);
  if (!low || !typical || !high) return std::nullopt;
  Variation variation(assumption, *low, *typical, *high);
  variation.available_ = taken.available.value_or(Mass());
  switch (assumption.figure) {
    case Figure::amount: variation.follow_amount(ingredient, taken); break;
    case Figure::container: variation.follow_container(taken); break;
    case Figure::bulk_density: variation.follow_density(ingredient, taken); break;
    case Figure::bulk_density_in_pile: variation.density_ = DensityFollows::number; break;
    case Figure::moisture:
      variation.known_dry_ = is_of_trees(*taken.supply);
      if (variation.known_dry_) variation.follow_amount(ingredient, taken);
      break;
    case Figure::carbon: {
      const bool some = is_positive(ingredient.properties.carbon);
      variation.nitrogen_follows_ = some && used(taken.supply->feedstock.carbon_to_nitrogen).has_value();
      break;
    }
    case Figure::none:
    case Figure::carbon_to_nitrogen:
    case Figure::nitrogen: break;
  }
  return variation;
}

/// What goes in where there is another amount: all of it, or what was given as far as it goes.
void Variation::follow_amount(const Ingredient& ingredient, const Taken& taken) {
  const bool all = !taken.available || is_all(ingredient, taken);
  mass_ = all ? MassFollows::ratio : MassFollows::at_most_what_there_is;
}

/// Who weighs, or puts in all of what was worked out by weight, puts in that weight whatever it fills; who counts containers puts in more
/// of what is denser, as far as there is.
void Variation::follow_density(const Ingredient& ingredient, const Taken& taken) {
  const Supply& supply = *taken.supply;
  const bool worked_out_by_weight = supply.estimated && std::holds_alternative<Mass>(supply.estimated->likely);
  const bool by_weight = is_told_by_weight(supply) || (worked_out_by_weight && is_all(ingredient, taken));
  if (!by_weight) mass_ = worked_out_by_weight && taken.available ? MassFollows::ratio_up_to_available : MassFollows::ratio;
  if (lies_as_counted(supply)) density_ = DensityFollows::ratio;
}

/// A container of another size holds more, unless a full one was weighed: then it is the same in more room.
void Variation::follow_container(const Taken& taken) {
  const Supply& supply = *taken.supply;
  const auto& counted = std::get<ContainerCount>(*supply.amount);
  const bool weighed = supply.weighed && supply.weighed->container.container == counted.container;
  if (!weighed) mass_ = MassFollows::ratio;
  if (weighed && lies_as_counted(supply)) density_ = DensityFollows::inverse;
}

void Variation::apply(double number, Matter& matter) const {
  Properties& properties = matter.properties;
  const std::span<BulkDensity> density = matter.density ? std::span(&*matter.density, 1) : std::span<BulkDensity>();
  apply({&number, 1}, {{&matter.mass, 1}, density, {&properties.moisture, 1}, {&properties.carbon, 1}, {&properties.nitrogen, 1}});
}

void Variation::apply(std::span<const double> numbers, const MovableFigures& figures) const {
  const auto& [mass, density, moisture, carbon, nitrogen] = figures;
  const auto of_each = [&](auto change) {
    for (std::size_t i = 0; i < numbers.size(); ++i) change(i, numbers[i]);
  };
  const auto ratio = [this](double number) { return known_dry_ ? (1.0 - typical_) / (1.0 - number) : number / typical_; };
  switch (mass_) {
    case MassFollows::nothing: break;
    case MassFollows::ratio: of_each([&](std::size_t at, double number) { mass[at] *= ratio(number); }); break;
    case MassFollows::ratio_up_to_available:
      of_each([&](std::size_t at, double number) { mass[at] = std::min(Mass(mass[at] * ratio(number)), available_); });
      break;
    case MassFollows::at_most_what_there_is:
      of_each([&](std::size_t at, double number) { mass[at] = std::min(mass[at], Mass(ratio(number) * available_)); });
      break;
  }
  switch (density.empty() ? DensityFollows::nothing : density_) {
    case DensityFollows::nothing: break;
    case DensityFollows::ratio: of_each([&](std::size_t at, double number) { density[at] *= ratio(number); }); break;
    case DensityFollows::inverse: of_each([&](std::size_t at, double number) { density[at] /= ratio(number); }); break;
    case DensityFollows::number: of_each([&](std::size_t at, double number) { density[at] = bulk_density(number); }); break;
  }
  switch (figure_) {
    case Figure::moisture: of_each([&](std::size_t at, double number) { moisture[at] = wet_basis(number); }); break;
    case Figure::carbon_to_nitrogen:
      of_each([&](std::size_t at, double number) { nitrogen[at] = carbon[at] / carbon_to_nitrogen(number); });
      break;
    case Figure::nitrogen: of_each([&](std::size_t at, double number) { nitrogen[at] = nitrogen_dry_basis(number); }); break;
    case Figure::carbon:
      if (nitrogen_follows_) of_each([&](std::size_t at, double number) { nitrogen[at] *= carbon_dry_basis(number) / carbon[at]; });
      of_each([&](std::size_t at, double number) { carbon[at] = carbon_dry_basis(number); });
      break;
    case Figure::none:
    case Figure::amount:
    case Figure::container:
    case Figure::bulk_density:
    case Figure::bulk_density_in_pile: break;
  }
}

}  // namespace heapwright
