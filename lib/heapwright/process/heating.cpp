#include "heapwright/process/heating.hpp"

#include <algorithm>

namespace heapwright {
namespace {

constexpr double most_do = 0.8;
constexpr double few_do = 0.2;
constexpr double helps = 0.15;
constexpr double rounding = 1e-9;
constexpr double green_enough = 27.0;  // C:N
constexpr double closer = 1.25;
constexpr double larger = 1.5;
constexpr int sooner_by = 14;

/// Carbon and nitrogen of some dry matter, each over that.
struct Makeup {
  double dry = 0.0;
  double carbon = 0.0;
  double nitrogen = 0.0;

  double excess_carbon() const { return carbon - green_enough * nitrogen; }
};

const Feedstock* row_of(const Materials& materials, const std::string& id) {
  const auto row = std::find_if(materials.feedstocks.begin(), materials.feedstocks.end(),
                                [&](const Feedstock& feedstock) { return feedstock.id == id; });
  return row == materials.feedstocks.end() ? nullptr : &*row;
}

Makeup makeup_of(const Feedstock& row, double dry) {
  return {dry, dry * row.used_carbon().value_or(CarbonDryBasis()).value(), dry * row.used_nitrogen().value_or(NitrogenDryBasis()).value()};
}

void scale(MixPart& part, double by) {
  part.mass *= by;
  part.dry *= by;
  part.organic_matter *= by;
  if (part.volume) *part.volume *= by;
}

/// Clippings, for a mix without greens.
MixPart some_clippings(const Feedstock& row) {
  MixPart part{row.id, row.name, Mass(), Volume(), std::nullopt, 1.0 * unit::kg_dry, OrganicMass()};
  const Properties properties = row.properties().value();
  part.mass = as_is_mass_of(part.dry, properties.moisture);
  part.organic_matter = part.dry * properties.organic_matter;
  if (const auto density = row.density()) part.volume = part.mass / *density;
  return part;
}

/// As much dry matter, as moist, with more of its greens and fewer browns; nothing where it is green enough, or has no browns.
std::optional<Mix> greener(Mix mix, const Materials& materials) {
  if (mix.carbon_to_nitrogen && mix.carbon_to_nitrogen->value() <= green_enough) return std::nullopt;
  const auto is_green = [&](const MixPart& part) {
    const Feedstock* row = row_of(materials, part.id);
    const auto ratio = row != nullptr ? row->used_carbon_to_nitrogen() : std::nullopt;
    return ratio && ratio->value() < green_enough;
  };
  if (std::none_of(mix.parts.begin(), mix.parts.end(), is_green))
    mix.parts.push_back(some_clippings(*row_of(materials, "grass-clippings")));
  Makeup greens, browns;
  for (const MixPart& part : mix.parts) {
    const Feedstock* row = row_of(materials, part.id);
    if (row == nullptr) continue;
    const Makeup own = makeup_of(*row, part.dry.value());
    Makeup& sum = is_green(part) ? greens : browns;
    sum = {sum.dry + own.dry, sum.carbon + own.carbon, sum.nitrogen + own.nitrogen};
  }
  const double of_browns = browns.excess_carbon() / browns.dry;
  const double of_greens = greens.excess_carbon() / greens.dry;
  if (!(of_browns > 0.0 && of_greens < 0.0)) return std::nullopt;
  const double share = of_browns / (of_browns - of_greens);
  const double dry = mix.dry.value();
  mix.organic_matter = OrganicMass();
  Volume volume;
  for (MixPart& part : mix.parts) {
    scale(part, dry * (is_green(part) ? share / greens.dry : (1.0 - share) / browns.dry));
    mix.organic_matter += part.organic_matter;
    volume += part.volume.value_or(Volume());
  }
  if (mix.volume) mix.volume = volume;
  mix.carbon_to_nitrogen = carbon_to_nitrogen(green_enough);
  return mix;
}

/// Nothing of a heap that is too small to be followed.
std::optional<double> chance_of(const HeapToBuild& heap, const Weather& weather, const Materials& materials,
                                const ProcessEnsemble& ensemble, int days) {
  const HeapModel model(heap, materials, ensemble);
  const auto is_too_small = [&](const ProcessParameters& set) { return !(model.shape(set).volume >= smallest_pile); };
  if (std::any_of(ensemble.members.begin(), ensemble.members.end(), is_too_small)) return std::nullopt;
  const DailyWeather of_days = days_from(weather, heap.built, days + 1);
  const auto gets_hot = [&](const ProcessParameters& set) { return model.first_hot_day(set, of_days, days).has_value(); };
  const auto hot = std::count_if(ensemble.members.begin(), ensemble.members.end(), gets_hot);
  return static_cast<double>(hot) / static_cast<double>(ensemble.members.size());
}

std::optional<HeapToBuild> changed(HeapToBuild heap, HeatingChange change, const Materials& materials) {
  switch (change) {
    case HeatingChange::half_as_much_again: heap.share *= larger; break;
    case HeatingChange::packed_closer: heap.packed *= closer; break;
    case HeatingChange::two_weeks_earlier: heap.built = Date(std::chrono::sys_days(heap.built) - std::chrono::days(sooner_by)); break;
    case HeatingChange::greener: {
      std::optional<Mix> mix = greener(heap.mix, materials);
      if (!mix) return std::nullopt;
      heap.mix = std::move(*mix);
      break;
    }
  }
  return heap;
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

int counted_from(const HeapCare& care, const Course& course) {
  if (!care.feeding) return 0;
  const double all = 1.0 + care.feeding->share * static_cast<double>(course.fed_on.size());
  double in = 1.0;
  int day = 0;
  for (std::size_t times = 0; times < course.fed_on.size() && in < 0.5 * all; ++times) {
    in += care.feeding->share;
    day = course.fed_on[times];
  }
  return day;
}

bool heats(const Course& course, int counted_from) {
  const std::optional<int> day = course.hot_day();
  return day && *day <= counted_from + days_to_heat;
}

bool agrees(const Course& course, int counted_from, const SeenHeating& seen) {
  const int until = counted_from + days_to_heat;
  if (seen.hot_day) return heats(course, counted_from) == (*seen.hot_day <= until);
  const std::optional<int> day = course.hot_day();
  return !day || *day > std::min(seen.last_day, until);
}

Heating heating_of(double chance, bool ever) {
  if (!ever) return Heating::not_at_all;
  if (chance >= most_do - rounding) return Heating::will;
  return chance > few_do + rounding ? Heating::may : Heating::hardly;
}

std::vector<WhatWouldTip> what_would_tip(const HeapToBuild& heap, const Weather& weather, const Materials& materials,
                                         const ProcessEnsemble& ensemble, double chance, int days) {
  std::vector<WhatWouldTip> tips;
  if (chance + helps > 1.0 + rounding) return tips;
  const Volume volume = HeapModel(heap, materials, ensemble).shape(ensemble.best).volume;
  const bool more_fits = !heap.room || larger * volume <= *heap.room;
  for (const HeatingChange change :
       {HeatingChange::half_as_much_again, HeatingChange::greener, HeatingChange::packed_closer, HeatingChange::two_weeks_earlier}) {
    if (change == HeatingChange::half_as_much_again && !more_fits) continue;
    const std::optional<HeapToBuild> other = changed(heap, change, materials);
    if (!other) continue;
    const std::optional<double> then = chance_of(*other, weather, materials, ensemble, days);
    if (then && *then >= chance + helps - rounding) tips.push_back({change, *then});
  }
  std::stable_sort(tips.begin(), tips.end(), [](const WhatWouldTip& one, const WhatWouldTip& other) { return one.chance > other.chance; });
  return tips;
}

}  // namespace heapwright
