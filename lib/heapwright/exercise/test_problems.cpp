// What tests of maturity say.

#include <algorithm>

#include "heapwright/exercise/draw_problems.hpp"
#include "heapwright/maturity/observations.hpp"

namespace heapwright {
namespace {

/// A test with values for a sheet, some of each rating and none at a limit.
struct AskedTest {
  std::string id;
  std::vector<std::string> values;
  std::vector<std::string> us_values{};  ///< where those are tidy in other units
};

/// The one of the table that people know: others want a laboratory's words.
std::vector<AskedTest> stability_tests() {
  return {{"self-heating", {"5 degC", "15 degC", "25 degC", "35 degC"}, {"9 degF", "27 degF", "45 degF", "63 degF"}}};
}
std::vector<AskedTest> plant_tests() {
  return {{"emergence", {"95 %", "85 %", "70 %", "60 %"}}, {"vigor", {"95 %", "85 %", "70 %", "55 %"}}};
}
AskedTest screening_test() { return {"carbon-to-nitrogen", {"15:1", "18:1", "22:1", "28:1", "32:1"}}; }

/// All results that may be asked of some tests.
std::vector<TestsProblem::Result> results_of(const std::vector<AskedTest>& tests, const SheetUnits& units, const Criteria& criteria) {
  std::vector<TestsProblem::Result> results;
  for (const AskedTest& test : tests) {
    const TestCriterion& criterion = criteria.test_called(test.id);
    for (const std::string& text : units.metric || test.us_values.empty() ? test.values : test.us_values) {
      const TestValue value = read_test_value(criterion.measured, text);
      results.push_back({criterion, value, rating_on(*criterion.scale_for(value), value)});
    }
  }
  return results;
}

std::vector<TestsProblem::Result> joined_results(std::vector<TestsProblem::Result> one, const std::vector<TestsProblem::Result>& other) {
  one.insert(one.end(), other.begin(), other.end());
  return one;
}

/// By the rules that all tests of a pile are rated by.
Rating rated_together(const std::vector<TestsProblem::Result>& results, const Criteria& criteria) {
  std::vector<MaturityTest> tests;
  for (const TestsProblem::Result& result : results) tests.push_back({result.test.id, result.value, "", std::nullopt});
  const std::optional<Rating> rating = rate(tests, criteria).rating;
  if (!rating) throw DomainError("these tests do not rate");
  return *rating;
}

/// Those whose rating is another.
std::vector<TestsProblem::Result> rated_otherwise(const std::vector<TestsProblem::Result>& results, Rating than) {
  std::vector<TestsProblem::Result> others;
  std::copy_if(results.begin(), results.end(), std::back_inserter(others),
               [&](const TestsProblem::Result& result) { return result.rating != than; });
  return others;
}

}  // namespace

ExerciseProblem draw_tests(Draw& draw, Level level, const SheetUnits& units, const Tables& tables) {
  const Criteria& criteria = *tables.criteria;
  const auto stability = results_of(stability_tests(), units, criteria);
  const auto plants = results_of(plant_tests(), units, criteria);
  if (level == Level::first) {
    const TestsProblem::Result asked = draw.one_of(joined_results(stability, plants));
    const TestKind other = asked.test.kind == TestKind::stability ? TestKind::maturity : TestKind::stability;
    return {TestsProblem{{asked}, asked.rating, asked.rating, other}, {}};
  }
  std::vector<TestsProblem::Result> results{draw.one_of(stability)};
  results.push_back(draw.one_of(rated_otherwise(plants, results.front().rating)));
  if (level == Level::third) results.push_back(draw.one_of(results_of({screening_test()}, units, criteria)));
  const Rating answer = rated_together(results, criteria);
  const auto best =
      std::max_element(results.begin(), results.end(), [](const auto& one, const auto& other) { return one.rating < other.rating; });
  const Rating mistaken = best->rating;
  return {TestsProblem{std::move(results), answer, mistaken, TestKind::property}, {}};
}

}  // namespace heapwright
