#include "heapwright/lawn/compost_fitness.hpp"

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

#include "heapwright/materials/rows.hpp"
#include "heapwright/maturity/turf.hpp"

namespace heapwright {
namespace {

constexpr std::string_view salts_in_slurry = "salts-1to5";

/// A figure as a test that the limits for turf know.
std::optional<RatedTest> as_test(std::string_view id, const TestValue& value, const Criteria& criteria) {
  const TestCriterion* criterion = row_with_id(criteria.tests, id);
  if (criterion == nullptr) return std::nullopt;
  RatedTest test;
  test.test.test = criterion->id;
  test.test.value = value;
  test.criterion = criterion;
  return test;
}

std::vector<RatedTest> tests_of(const CompostAnalysis& analysis, const Criteria& criteria) {
  std::vector<RatedTest> tests;
  const auto add = [&](std::string_view id, const auto& value) {
    if (!value) return;
    if (std::optional<RatedTest> test = as_test(id, *value, criteria)) tests.push_back(std::move(*test));
  };
  for (const Salts& salts : analysis.salts) {
    if (salts.method == SaltsMethod::slurry_1to5) add(salts_in_slurry, std::optional(salts.value));
  }
  add("moisture", analysis.moisture);
  add("carbon-to-nitrogen", analysis.carbon_to_nitrogen);
  add("organic-matter", analysis.organic_matter);
  add("nitrogen", analysis.nitrogen);
  return tests;
}

/// Each figure once, with what every specification says of it.
std::vector<JudgedFigure> figures_by_turf(const std::vector<RatedTest>& tests, const Criteria& criteria) {
  const std::vector<TurfResult> results = turf_results(tests, criteria);
  std::vector<JudgedFigure> figures;
  for (const RatedTest& test : tests) {
    JudgedFigure figure{test.criterion->name, test.criterion->measured, test.test.value, {}};
    for (const TurfResult& result : results) {
      if (result.property == test.criterion && result.ok) figure.limits.push_back({*result.limit, *result.ok});
    }
    if (!figure.limits.empty()) figures.push_back(std::move(figure));
  }
  return figures;
}

bool breaks_every_limit(const JudgedFigure& figure) {
  return !figure.limits.empty() && std::none_of(figure.limits.begin(), figure.limits.end(), [](const JudgedLimit& one) { return one.ok; });
}

/// The limit for growing media of a method; nothing of a 1:5 slurry, for which there are limits for turf.
std::optional<ElectricConductivity> limit_for_growing_media(SaltsMethod method) {
  const auto read = [](std::string_view text) {
    return std::get<ElectricConductivity>(read_test_value(TestQuantity::electric_conductivity, text));
  };
  switch (method) {
    case SaltsMethod::slurry_1to5: return std::nullopt;
    case SaltsMethod::slurry_1to2: return read("1.5 dS/m");
    case SaltsMethod::saturated_paste: return read("4 dS/m");
  }
  return std::nullopt;
}

JudgedFigure figure_by_growing_media(const Salts& salts, ElectricConductivity limit) {
  const Bound bound{Bound::Side::below, limit};
  const Provenance whose{"missouri-compost", Evidence::seen, "growing media; it may not hold of a lawn"};
  const TurfLimit below{"", "Missouri, for growing media", std::nullopt, bound, whose};
  return {"salts in a " + std::string(salts_method_words(salts.method)),
          TestQuantity::electric_conductivity,
          salts.value,
          {{below, bound.holds(salts.value)}}};
}

}  // namespace

bool JudgedFigure::is_outside() const {
  return std::any_of(limits.begin(), limits.end(), [](const JudgedLimit& one) { return !one.ok; });
}

std::vector<JudgedFigure> CompostFitness::outside() const {
  std::vector<JudgedFigure> found;
  std::copy_if(figures.begin(), figures.end(), std::back_inserter(found), [](const JudgedFigure& one) { return one.is_outside(); });
  return found;
}

CompostFitness compost_fitness(const CompostAnalysis& analysis, const Criteria& criteria) {
  CompostFitness fitness;
  for (const Salts& salts : analysis.salts) {
    const std::optional<ElectricConductivity> limit = limit_for_growing_media(salts.method);
    if (!limit) continue;
    fitness.figures.push_back(figure_by_growing_media(salts, *limit));
    fitness.too_salty = fitness.too_salty || !(salts.value <= far_above_growing_media * *limit);
  }
  for (JudgedFigure& figure : figures_by_turf(tests_of(analysis, criteria), criteria)) {
    const bool is_salts = figure.measured == TestQuantity::electric_conductivity;
    fitness.too_salty = fitness.too_salty || (is_salts && breaks_every_limit(figure));
    fitness.figures.push_back(std::move(figure));
  }
  std::stable_partition(fitness.figures.begin(), fitness.figures.end(),
                        [](const JudgedFigure& one) { return one.measured == TestQuantity::electric_conductivity; });
  return fitness;
}

}  // namespace heapwright
