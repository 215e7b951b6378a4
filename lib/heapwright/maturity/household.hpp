#pragma once
/// Household checks: what came of them. They never rate.

#include <optional>
#include <vector>

#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/observations.hpp"

namespace heapwright {

/// A check, and what came of it.
struct CheckResult {
  const CheckCriterion* check = nullptr;
  std::optional<bool> passed;  ///< none where it was not done
  std::optional<Date> date;
};

/// Every check of the criteria. Of several results the latest counts; of those that none is later than, a failed one.
/// @param criteria must outlive the result
std::vector<CheckResult> check_results(const std::vector<HouseholdCheck>& checks, const Criteria& criteria);

/// Whether any that was done failed.
bool any_failed(const std::vector<CheckResult>& results);
/// Whether every check was done, and passed.
bool all_passed(const std::vector<CheckResult>& results);
/// Whether one check was done and passed, or failed; none where it was not done.
std::optional<bool> result_of(const std::vector<CheckResult>& results, std::string_view id);

}  // namespace heapwright
