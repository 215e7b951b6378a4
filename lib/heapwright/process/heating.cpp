#include "heapwright/process/heating.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/process/pile_to_build.hpp"

namespace heapwright {
namespace {

constexpr double most_do = 0.8;
constexpr double few_do = 0.2;
constexpr double helps = 0.15;
constexpr double rounding = 1e-9;
constexpr CarbonNitrogenRatio green_enough = 27.0 * (unit::kg_carbon / unit::kg_nitrogen);
constexpr double closer = 1.25;
constexpr double larger = 1.5;
constexpr int sooner_by = 14;

/// Carbon and nitrogen of some dry matter.
struct Makeup {
  DryMass dry;
  CarbonMass carbon;
  NitrogenMass nitrogen;

  CarbonMass excess_carbon() const { return carbon - green_enough * nitrogen; }
};

Makeup makeup_of(const Feedstock& row, DryMass dry) {
  return {dry, dry * row.used_carbon().value_or(CarbonDryBasis()), dry * row.used_nitrogen().value_or(NitrogenDryBasis())};
}

void scale(MixPart& part, double by) {
  part.mass *= by;
  part.dry *= by;
  part.organic_matter *= by;
  if (part.volume) *part.volume *= by;
}

/// Clippings, for a mix without greens; nothing where a user's own row in their place lacks figures.
std::optional<MixPart> some_clippings(const Materials& materials) {
  const Feedstock* row = row_with_id(*materials.feedstocks, "grass-clippings");
  const std::optional<Properties> properties = row != nullptr ? row->properties() : std::nullopt;
  if (!properties) return std::nullopt;
  MixPart part{row->id, row->name, Mass(), Volume(), std::nullopt, 1.0 * unit::kg_dry, OrganicMass(), 0};
  part.mass = as_is_mass_of(part.dry, properties->moisture);
  part.organic_matter = part.dry * properties->organic_matter;
  if (const auto density = row->density()) part.volume = part.mass / *density;
  return part;
}

/// What of a mix a person swaps.
enum class Side { green, brown, kept };

Side side_of(const MixPart& part, const Materials& materials) {
  const Feedstock* row = row_with_id(*materials.feedstocks, part.id);
  const auto ratio = row != nullptr ? row->used_carbon_to_nitrogen() : std::nullopt;
  if (!ratio || is_sparing(row->feedstock_class)) return Side::kept;  // nobody adds soil or urea for heat
  return *ratio < green_enough ? Side::green : Side::brown;
}

/// As much dry matter, as moist, with more of its greens for some of its browns; nothing where it is green enough, or lacks either.
std::optional<Mix> greener(Mix mix, const Materials& materials) {
  if (mix.carbon_to_nitrogen && *mix.carbon_to_nitrogen <= green_enough) return std::nullopt;
  const auto has_greens = [&] {
    return std::any_of(mix.parts.begin(), mix.parts.end(), [&](const MixPart& part) { return side_of(part, materials) == Side::green; });
  };
  const std::optional<MixPart> clippings = has_greens() ? std::nullopt : some_clippings(materials);
  if (clippings) mix.parts.push_back(*clippings);
  std::map<Side, Makeup> sides;
  for (const MixPart& part : mix.parts) {
    const Feedstock* row = row_with_id(*materials.feedstocks, part.id);
    if (row == nullptr) continue;
    const Makeup own = makeup_of(*row, part.dry);
    Makeup& sum = sides[side_of(part, materials)];
    sum = {sum.dry + own.dry, sum.carbon + own.carbon, sum.nitrogen + own.nitrogen};
  }
  // b browns and g greens for one of each as it is: b B + g G = B + G of the old dry matter, and no carbon too many for the aim.
  const Makeup& greens = sides[Side::green];
  const Makeup& browns = sides[Side::brown];
  const DryMass dry = clippings ? browns.dry : browns.dry + greens.dry;
  const CarbonDryBasis per_brown = browns.excess_carbon() / browns.dry;
  const double of_greens = (sides[Side::kept].excess_carbon() + dry * per_brown) / (per_brown * greens.dry - greens.excess_carbon());
  const double of_browns = (dry - of_greens * greens.dry) / browns.dry;
  if (!(of_greens > 0.0 && of_browns > 0.0)) return std::nullopt;
  Volume before, after;
  mix.organic_matter = OrganicMass();
  for (MixPart& part : mix.parts) {
    const Side side = side_of(part, materials);
    before += part.volume.value_or(Volume());
    if (side != Side::kept) scale(part, side == Side::green ? of_greens : of_browns);
    after += part.volume.value_or(Volume());
    mix.organic_matter += part.organic_matter;
  }
  if (mix.volume && is_positive(before)) *mix.volume *= after / before;
  mix.carbon_to_nitrogen = green_enough;
  return mix;
}

/// Nothing of a pile that is too small to be followed.
std::optional<double> chance_of(const PileToBuild& pile, const Weather& weather, const Materials& materials,
                                const ProcessEnsemble& ensemble, int days) {
  const PileModel model(pile, materials, ensemble);
  const auto is_too_small = [&](const ProcessParameters& set) { return !(model.shape(set).volume >= smallest_pile); };
  if (std::any_of(ensemble.members.begin(), ensemble.members.end(), is_too_small)) return std::nullopt;
  const DailyWeather of_days = days_from(weather, pile.built, days + 1);
  const auto hot_days = model.first_hot_days(ensemble.members, of_days, days);
  const auto hot = std::count_if(hot_days.begin(), hot_days.end(), [](const std::optional<int>& day) { return day.has_value(); });
  return static_cast<double>(hot) / static_cast<double>(hot_days.size());
}

std::optional<PileToBuild> changed(PileToBuild pile, HeatingChange change, const Materials& materials) {
  switch (change) {
    case HeatingChange::half_as_much_again: pile.share *= larger; break;
    case HeatingChange::packed_closer: pile.packed *= closer; break;
    case HeatingChange::two_weeks_earlier: pile.built = Date(std::chrono::sys_days(pile.built) - std::chrono::days(sooner_by)); break;
    case HeatingChange::greener: {
      std::optional<Mix> mix = greener(pile.mix, materials);
      if (!mix) return std::nullopt;
      pile.mix = std::move(*mix);
      break;
    }
  }
  return pile;
}

/// How many times as much of each part goes in; nothing where none changed, or one came in new.
std::map<std::string, double> amounts_changed(const Mix& before, const Mix& after) {
  std::map<std::string, double> times;
  if (before.parts.size() != after.parts.size()) return times;
  bool changed = false;
  for (std::size_t i = 0; i < before.parts.size(); ++i) {
    if (!is_positive(before.parts[i].dry)) continue;
    const double of_part = after.parts[i].dry / before.parts[i].dry;
    changed = changed || of_part != 1.0;
    times[before.parts[i].id] = of_part;
  }
  return changed ? times : std::map<std::string, double>();
}

}  // namespace

std::string_view heating_word(Heating heating) {
  switch (heating) {
    case Heating::will: return "will";
    case Heating::may: return "may";
    case Heating::hardly: return "hardly";
    case Heating::not_at_all: return "not";
  }
  return {};
}

std::string_view change_word(HeatingChange change) {
  switch (change) {
    case HeatingChange::half_as_much_again: return "half-as-much-again";
    case HeatingChange::greener: return "greener";
    case HeatingChange::packed_closer: return "packed-closer";
    case HeatingChange::two_weeks_earlier: return "two-weeks-earlier";
  }
  return {};
}

int counted_from(const Trajectory& trajectory) {
  const double half = 0.5 * trajectory.filled_in_all();
  double in = 1.0;
  int day = 0;
  for (const Fed& fed : trajectory.fed) {
    if (in >= half) break;
    in += fed.share;
    day = fed.day;
  }
  return day;
}

bool heats_in_time(const Trajectory& trajectory, int counted_from) {
  const std::optional<int> day = trajectory.hot_day();
  return day && *day <= counted_from + days_to_heat;
}

bool agrees(const Trajectory& trajectory, int counted_from, const SeenHeating& seen) {
  const int until = counted_from + days_to_heat;
  if (seen.hot_day && *seen.hot_day <= until) return heats_in_time(trajectory, counted_from);
  return std::none_of(seen.cool_days.begin(), seen.cool_days.end(), [&](int day) {
    const bool counts = day <= until && day < std::ssize(trajectory.days);  // what comes in spring says nothing
    return counts && trajectory.days[static_cast<std::size_t>(day)].core > hot_core;
  });
}

Heating heating_of(double chance, bool ever) {
  if (!ever) return Heating::not_at_all;
  if (chance >= most_do - rounding) return Heating::will;
  return chance > few_do + rounding ? Heating::may : Heating::hardly;
}

std::vector<WhatWouldTip> what_would_tip(const PileToBuild& pile, const Weather& weather, const Materials& materials,
                                         const ProcessEnsemble& ensemble, double chance, int days) {
  std::vector<WhatWouldTip> tips;
  if (chance + helps > 1.0 + rounding) return tips;
  const Volume volume = PileModel(pile, materials, ensemble).shape(ensemble.best).volume;
  const bool is_tumbler = pile.pile && pile.pile->shape == PileShape::tumbler;
  const Volume first = is_tumbler ? pile.share * pile.mix.volume.value_or(volume) : volume;  // nothing sinks in before it is full
  const bool more_fits = !pile.room || larger * first <= *pile.room;
  for (const HeatingChange change :
       {HeatingChange::half_as_much_again, HeatingChange::greener, HeatingChange::packed_closer, HeatingChange::two_weeks_earlier}) {
    if (change == HeatingChange::half_as_much_again && !more_fits) continue;
    if (change == HeatingChange::packed_closer && is_tumbler) continue;  // what is rotated lies loose
    const std::optional<PileToBuild> other = changed(pile, change, materials);
    if (!other) continue;
    const std::optional<double> then = chance_of(*other, weather, materials, ensemble, days);
    if (then && *then >= chance + helps - rounding) tips.push_back({change, *then, amounts_changed(pile.mix, other->mix)});
  }
  std::stable_sort(tips.begin(), tips.end(), [](const WhatWouldTip& one, const WhatWouldTip& other) { return one.chance > other.chance; });
  return tips;
}

}  // namespace heapwright
