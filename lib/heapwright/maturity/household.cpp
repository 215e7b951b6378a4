#include "heapwright/maturity/household.hpp"

#include <algorithm>

#include "heapwright/maturity/rating.hpp"

namespace heapwright {
namespace {

CheckResult result_of_check(const CheckCriterion& criterion, const std::vector<HouseholdCheck>& checks) {
  CheckResult result{&criterion, std::nullopt, std::nullopt};
  for (const HouseholdCheck& one : checks) {
    const bool superseded = std::any_of(checks.begin(), checks.end(), [&](const HouseholdCheck& other) {
      return other.check == one.check && is_superseded_by(one.date, other.date);
    });
    if (one.check != criterion.id || superseded) continue;
    if (result.passed && (one.passed || !*result.passed)) continue;
    result.passed = one.passed;
    result.date = one.date;
  }
  return result;
}

}  // namespace

std::vector<CheckResult> check_results(const std::vector<HouseholdCheck>& checks, const Criteria& criteria) {
  std::vector<CheckResult> results;
  for (const CheckCriterion& criterion : criteria.checks) results.push_back(result_of_check(criterion, checks));
  return results;
}

bool any_failed(const std::vector<CheckResult>& results) {
  return std::any_of(results.begin(), results.end(), [](const CheckResult& one) { return one.passed && !*one.passed; });
}

bool all_passed(const std::vector<CheckResult>& results) {
  return std::all_of(results.begin(), results.end(), [](const CheckResult& one) { return one.passed && *one.passed; });
}

std::optional<bool> result_of(const std::vector<CheckResult>& results, std::string_view id) {
  const auto found = std::find_if(results.begin(), results.end(), [&](const CheckResult& one) { return one.check->id == id; });
  return found == results.end() ? std::nullopt : found->passed;
}

}  // namespace heapwright
