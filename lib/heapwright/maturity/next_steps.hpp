#pragma once
/// What to do next with compost, by its tests and checks.

#include <vector>

#include "heapwright/maturity/household.hpp"
#include "heapwright/maturity/rating.hpp"
#include "heapwright/maturity/turf.hpp"

namespace heapwright {

/// What is known of compost.
struct CompostKnown {
  MaturityRating rating;
  std::vector<TurfResult> turf;
  std::vector<CheckResult> checks;
  bool has_cured = false;             ///< long enough, since it went cool
  bool may_carry_weedkiller = false;  ///< by what went into it
};

/// Whether a test of stability, or a household check, says that it still composts.
bool still_composts(const CompostKnown& known);
/// Whether a test of maturity, or seeds, say that plants do not bear it.
bool harms_plants(const CompostKnown& known);
/// Whether nothing speaks against it and it is rated, or every household check passed.
bool is_ready(const CompostKnown& known);

/// In the order of the criteria, the most pressing first. @param criteria must outlive the result
std::vector<const NextStep*> next_steps(const CompostKnown& known, const Criteria& criteria);

}  // namespace heapwright
