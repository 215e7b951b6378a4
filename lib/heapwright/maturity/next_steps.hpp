#pragma once
/// What to do next with compost, by its tests and checks.

#include <chrono>
#include <optional>
#include <string>
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
  bool has_cured = false;                        ///< long enough, since it went cool
  bool pile_at_work = false;                     ///< it is hot or smells so, whatever the tests say of a sample
  std::optional<std::chrono::days> age_in_cold;  ///< of a pile that had few warm days since it was built, and is cold
};

/// Whether its C:N fails the screen, so that it is rated immature whatever else was tested.
bool fails_screen(const CompostKnown& known);
/// Whether its C:N fails the screen and is above what any specification for turf takes: the limit that a forecast goes by too
/// (`turf_limits`). Between the two a lawn bears it, as it does compost that a forecast calls ready for turf.
bool lacks_nitrogen(const CompostKnown& known);
/// Whether there are tests of stability and of maturity, whatever the screen says.
bool is_rated_but_for_screen(const CompostKnown& known);
/// Whether it still composts: a test of stability says so, household checks where there is none.
bool still_composts(const CompostKnown& known);
/// Whether plants do not bear it: a test of maturity says so, seeds where there is none.
bool harms_plants(const CompostKnown& known);
/// Whether it may lie on the soil as mulch: cool, without a smell, and not known to harm plants.
bool fit_for_mulch(const CompostKnown& known);
/// Whether it is drier than any specification takes: so dry that it would be cool and quiet in any case.
bool too_dry_to_tell(const CompostKnown& known);
/// Which of its pH and its salts suit none of the specifications for turf.
std::vector<std::string> what_harms_turf(const CompostKnown& known);
/// Whether it is young, cold and untested: then it would be quiet in any case.
bool rests_in_cold(const CompostKnown& known);
/// Whether nothing speaks against it on a lawn, and its tests make a rating or every household check passed.
bool is_ready(const CompostKnown& known);

/// In the order of the criteria, the most pressing first. @param criteria must outlive the result
/// @throws DomainError where they lack a step that is called for
std::vector<const NextStep*> next_steps(const CompostKnown& known, const Criteria& criteria);

}  // namespace heapwright
