#include "heapwright/maturity/turf.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

struct Measured {
  TestValue value;
  std::optional<Bound::Side> told;
};

/// Nothing where what is told of it does not say.
std::optional<bool> is_inside(const TurfLimit& limit, const Measured& measured) {
  const auto holds = [&](const std::optional<Bound>& bound) { return bound ? bound->holds(measured.value, measured.told) : true; };
  const std::optional<bool> low = holds(limit.low);
  const std::optional<bool> high = holds(limit.high);
  if (low == false || high == false) return false;
  return low && high ? std::optional(true) : std::nullopt;
}

/// Carbon dioxide given off may follow from oxygen taken up by the moist compost; never from oxygen taken up in water.
std::vector<Measured> converted_values(const std::vector<RatedTest>& tests) {
  std::vector<Measured> values;
  for (const RatedTest* one : counting(tests, "oxygen-uptake")) {
    if (const OxygenUptakeRate* uptake = std::get_if<OxygenUptakeRate>(&one->test.value))
      values.push_back({to_respiration(*uptake), one->test.told});
  }
  return values;
}

TurfResult result_of(const TurfLimit& limit, const std::vector<RatedTest>& tests, const Criteria& criteria) {
  TurfResult result{&limit, row_with_id(criteria.tests, limit.property), std::nullopt, std::nullopt, false};
  std::vector<Measured> values;
  for (const RatedTest* one : counting(tests, limit.property)) values.push_back({one->test.value, one->test.told});
  if (values.empty() && result.property->measured == TestQuantity::carbon_dioxide) {
    values = converted_values(tests);
    result.converted = !values.empty();
  }
  for (const Measured& measured : values) {
    const std::optional<bool> ok = is_inside(limit, measured);
    if (!ok || (result.ok && (*ok || !*result.ok))) continue;
    result.value = measured.value;
    result.told = measured.told;
    result.ok = ok;
  }
  return result;
}

}  // namespace

std::vector<TurfResult> turf_results(const std::vector<RatedTest>& tests, const Criteria& criteria) {
  std::vector<TurfResult> results;
  for (const TurfLimit& limit : criteria.turf) results.push_back(result_of(limit, tests, criteria));
  return results;
}

std::vector<TurfVerdict> turf_verdicts(const std::vector<TurfResult>& results) {
  std::vector<TurfVerdict> verdicts;
  for (const TurfResult& result : results) {
    auto verdict = std::find_if(verdicts.begin(), verdicts.end(),
                                [&](const TurfVerdict& one) { return one.specification == result.limit->specification; });
    if (verdict == verdicts.end()) verdict = verdicts.insert(verdict, {result.limit->specification, 0, 0, {}, {}});
    ++verdict->asked;
    if (!result.ok) {
      verdict->not_measured.push_back(result.property);
      continue;
    }
    ++verdict->measured;
    if (!*result.ok) verdict->fails.push_back(result.property);
  }
  return verdicts;
}

TurfStanding turf_standing(const std::vector<TurfResult>& results) {
  TurfStanding standing;
  for (const TurfVerdict& verdict : turf_verdicts(results)) {
    if (verdict.measured == 0) continue;
    ++standing.held;
    standing.passed += verdict.fails.empty() ? 1 : 0;
    standing.hardly_measured = standing.hardly_measured && 2 * verdict.measured < verdict.asked;
  }
  return standing;
}

}  // namespace heapwright
