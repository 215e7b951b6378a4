#pragma once
/// Whether compost is fit for turf, by what each published specification asks.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/maturity/rating.hpp"

namespace heapwright {

/// One property under one specification.
struct TurfResult {
  const TurfLimit* limit = nullptr;
  const TestCriterion* property = nullptr;
  std::optional<TestValue> value;     ///< none where it was not measured, or only a bound is told that does not say whether it is ok
  std::optional<bool> ok;             ///< none then
  bool converted = false;             ///< the value from oxygen taken up, at a respiratory quotient of 1
  std::optional<Bound::Side> told{};  ///< the side of the value that it lies on, where no more is told
};

/// All limits held against the tests that count, in the order of the criteria; of several tests of a property the worst.
std::vector<TurfResult> turf_results(const std::vector<RatedTest>& tests, const Criteria& criteria);

/// What a specification says of all that was measured of it.
struct TurfVerdict {
  std::string specification;
  int measured = 0;
  int asked = 0;
  std::vector<const TestCriterion*> fails;
  std::vector<const TestCriterion*> not_measured;
};
std::vector<TurfVerdict> turf_verdicts(const std::vector<TurfResult>& results);

/// How compost stands with the specifications of which something was measured.
struct TurfStanding {
  int held = 0;                 ///< so many specifications
  int passed = 0;               ///< so many of them on all that was measured
  bool hardly_measured = true;  ///< less than half of each: too little to say that it passes them; judged
};
TurfStanding turf_standing(const std::vector<TurfResult>& results);

}  // namespace heapwright
