#pragma once
/// What is said of compost first, by all that is known of it.

#include <optional>

#include "heapwright/maturity/next_steps.hpp"

namespace heapwright {

/// Which of these holds decides what is done with compost. Judged.
enum class CompostVerdict {
  nothing_known,      ///< neither tested nor checked
  nothing_against,    ///< but not enough is known
  likely_finished,    ///< every household check passed
  finished_for_lawn,  ///< by its tests: for lawns and beds
  finished_for_pots,  ///< likewise, mixed with soil
  ready_for_turf,     ///< not for beds: its C:N fails the screen, and a specification for turf takes it
  pile_at_work,       ///< hot, or it smells so, whatever the tests of a sample say
  short_of_nitrogen,
  still_composting,
  looks_unfinished,  ///< by its looks alone
  harms_plants,
  too_dry_to_tell,
  check_failed,   ///< though its tests speak for it
  rests_in_cold,  ///< untested, young and cold: it passes every household check without being finished
};

/// The first that holds of: too raw, harmful, too dry to tell, in doubt by a check, resting in the cold; else how far it is finished. A
/// pile at work comes before all of them, but for compost that its own tests call immature.
CompostVerdict verdict_of(const CompostKnown& known);

/// Whether a verdict sends it back to the pile, so that no check is worth doing before something was done to it.
bool is_to_be_mended(CompostVerdict verdict);

/// The household check to do next: the first of the table that is missing. None of rated compost, which a laboratory has looked at closer,
/// nor where something is to be done to it first.
const CheckCriterion* next_check(const CompostKnown& known);

/// The checks that passed, though tests of the same kind call it immature.
std::vector<const CheckCriterion*> checks_against_tests(const CompostKnown& known);

/// Whether a step is a test that a rating takes.
bool is_for_a_rating(const NextStep& step);

}  // namespace heapwright
