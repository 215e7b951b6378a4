#include "heapwright/maturity/verdict.hpp"

#include <algorithm>

namespace heapwright {
namespace {

bool is_any_check_done(const CompostKnown& known) {
  return std::any_of(known.checks.begin(), known.checks.end(), [](const CheckResult& one) { return one.passed.has_value(); });
}

/// Whether nothing but its looks says that it still composts.
bool only_by_looks(const CompostKnown& known) {
  return !known.rating.stability.rating && result_of(known.checks, "no-reheat") != false && result_of(known.checks, "sealed-bag") != false;
}

}  // namespace

CompostVerdict verdict_of(const CompostKnown& known) {
  const std::optional<Rating>& rating = known.rating.rating;
  if (known.pile_at_work && rating != Rating::immature) return CompostVerdict::pile_at_work;
  if (lacks_nitrogen(known)) return CompostVerdict::short_of_nitrogen;
  if (still_composts(known)) return only_by_looks(known) ? CompostVerdict::looks_unfinished : CompostVerdict::still_composting;
  if (harms_plants(known)) return CompostVerdict::harms_plants;
  if (too_dry_to_tell(known)) return CompostVerdict::too_dry_to_tell;
  if (any_failed(known.checks)) return CompostVerdict::check_failed;
  if (fails_screen(known)) return is_ready(known) ? CompostVerdict::ready_for_turf : CompostVerdict::nothing_against;
  if (rating) return rating == Rating::very_mature ? CompostVerdict::finished_for_pots : CompostVerdict::finished_for_lawn;
  if (rests_in_cold(known)) return CompostVerdict::rests_in_cold;
  if (all_passed(known.checks)) return CompostVerdict::likely_finished;
  const bool is_known = is_any_check_done(known) || !known.rating.tests.empty();
  return is_known ? CompostVerdict::nothing_against : CompostVerdict::nothing_known;
}

bool is_to_be_mended(CompostVerdict verdict) {
  switch (verdict) {
    case CompostVerdict::pile_at_work:
    case CompostVerdict::short_of_nitrogen:
    case CompostVerdict::still_composting:
    case CompostVerdict::looks_unfinished:
    case CompostVerdict::harms_plants:
    case CompostVerdict::too_dry_to_tell:
    case CompostVerdict::check_failed:
    case CompostVerdict::rests_in_cold: return true;
    case CompostVerdict::nothing_known:
    case CompostVerdict::nothing_against:
    case CompostVerdict::likely_finished:
    case CompostVerdict::finished_for_lawn:
    case CompostVerdict::finished_for_pots:
    case CompostVerdict::ready_for_turf: return false;
  }
  return false;
}

const CheckCriterion* next_check(const CompostKnown& known) {
  if (is_rated_but_for_screen(known) || is_to_be_mended(verdict_of(known))) return nullptr;
  const auto missing =
      std::find_if(known.checks.begin(), known.checks.end(), [](const CheckResult& one) { return !one.passed.has_value(); });
  return missing == known.checks.end() ? nullptr : missing->check;
}

std::vector<const CheckCriterion*> checks_against_tests(const CompostKnown& known) {
  std::vector<const CheckCriterion*> checks;
  for (const CheckResult& result : known.checks) {
    const bool of_plants = result.check->id == "seeds";
    const std::optional<Rating>& tested = of_plants ? known.rating.maturity.rating : known.rating.stability.rating;
    if (result.passed == true && tested == Rating::immature) checks.push_back(result.check);
  }
  return checks;
}

bool is_for_a_rating(const NextStep& step) { return step.id == "test-stability" || step.id == "test-maturity"; }

}  // namespace heapwright
