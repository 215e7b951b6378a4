#include "heapwright/lawn/spreading.hpp"

#include <algorithm>
#include <iterator>

#include "heapwright/lawn/topdressing.hpp"

namespace heapwright {
namespace {

PhosphorusVerdict phosphorus_verdict(const std::optional<SoilTest>& test) {
  if (!test) return PhosphorusVerdict::no_test;
  if (test->phosphorus.empty()) return PhosphorusVerdict::not_tested;
  if (test->phosphorus_is_high) return PhosphorusVerdict::hold;
  if (!test->phosphorus_level.empty()) return PhosphorusVerdict::go;
  return is_figure_alone(*test) ? PhosphorusVerdict::figure_alone : PhosphorusVerdict::unknown_word;
}

}  // namespace

std::string_view phosphorus_verdict_word(PhosphorusVerdict verdict) {
  switch (verdict) {
    case PhosphorusVerdict::no_test: return "no-test";
    case PhosphorusVerdict::not_tested: return "not-tested";
    case PhosphorusVerdict::hold: return "hold";
    case PhosphorusVerdict::go: return "go";
    case PhosphorusVerdict::figure_alone: return "figure-alone";
    case PhosphorusVerdict::unknown_word: return "unknown-word";
  }
  return "";
}

SpreadingAdvice spreading_advice(const Lawn& lawn, const TopdressingPlan& plan, const std::optional<Date>& today,
                                 const NutrientKnowledge& knowledge) {
  SpreadingAdvice advice;
  advice.phosphorus = phosphorus_verdict(plan.soil_test);
  if (plan.soil_test) advice.soil_test_age = age_of(*plan.soil_test, today, knowledge);
  advice.frozen_or_snow = plan.frozen_or_snow;
  const bool has_grass =
      std::any_of(lawn.zones.begin(), lawn.zones.end(), [&](const Zone& zone) { return surface_of(zone, plan) == Surface::lawn; });
  advice.out_of_season = has_grass && plan.months.empty() && today && !takes_compost_in(grass_of(plan), today->month());
  if (advice.out_of_season) advice.wait_for = next_season_of(grass_of(plan), today->month());
  std::copy_if(plan.months.begin(), plan.months.end(), std::back_inserter(advice.months_it_rests),
               [&](std::chrono::month month) { return has_grass && !takes_compost_in(grass_of(plan), month); });
  advice.near_water = plan.near_water;
  advice.steep = plan.steep;
  for (const Zone& zone : lawn.zones) {
    if (zone.whole && zone.whole->slope >= steep_from) advice.steep_zones.push_back(zone.name);
  }
  return advice;
}

}  // namespace heapwright
