#include "heapwright/maturity/next_steps.hpp"

#include <algorithm>
#include <set>
#include <string>

#include "heapwright/error.hpp"

namespace heapwright {
namespace {

bool failed(const CompostKnown& known, std::string_view check) { return result_of(known.checks, check) == false; }

bool passes_one(const CompostKnown& known, std::string_view property) {
  return std::any_of(known.turf.begin(), known.turf.end(),
                     [&](const TurfResult& result) { return result.property->id == property && result.ok == true; });
}

/// Whether a property was measured and passes no specification.
bool passes_none(const CompostKnown& known, std::string_view property) {
  bool failed_one = false;
  for (const TurfResult& result : known.turf) {
    if (result.property->id != property || !result.ok) continue;
    if (*result.ok) return false;
    failed_one = true;
  }
  return failed_one;
}

enum class Off { too_little, too_much };

/// Whether a measured property passes no specification, and lies off this side of one.
bool passes_none(const CompostKnown& known, std::string_view property, Off off) {
  const auto is_off = [&](const TurfResult& result) {
    const std::optional<Bound>& limit = off == Off::too_much ? result.limit->high : result.limit->low;
    return result.property->id == property && result.value && limit && limit->holds(*result.value, result.told) == false;
  };
  return passes_none(known, property) && std::any_of(known.turf.begin(), known.turf.end(), is_off);
}

bool any_too_coarse(const CompostKnown& known) {
  return std::any_of(known.turf.begin(), known.turf.end(),
                     [](const TurfResult& result) { return result.property->id == "particle-size" && result.ok == false; });
}

}  // namespace

bool fails_screen(const CompostKnown& known) { return known.rating.carbon_to_nitrogen == Rating::immature; }

bool lacks_nitrogen(const CompostKnown& known) { return fails_screen(known) && !passes_one(known, "carbon-to-nitrogen"); }

bool is_rated_but_for_screen(const CompostKnown& known) { return known.rating.stability.rating && known.rating.maturity.rating; }

bool still_composts(const CompostKnown& known) {
  if (known.rating.stability.rating) return known.rating.stability.rating == Rating::immature;
  return failed(known, "no-reheat") || failed(known, "sealed-bag") || failed(known, "looks");
}

bool harms_plants(const CompostKnown& known) {
  return known.rating.maturity.rating ? known.rating.maturity.rating == Rating::immature : failed(known, "seeds");
}

bool too_dry_to_tell(const CompostKnown& known) { return passes_none(known, "moisture", Off::too_little); }

bool rests_in_cold(const CompostKnown& known) { return known.age_in_cold && !known.rating.stability.rating; }

bool is_ready(const CompostKnown& known) {
  const bool nothing_against = !too_dry_to_tell(known) && !lacks_nitrogen(known) && !still_composts(known) && !harms_plants(known) &&
                               !any_failed(known.checks) && !known.pile_at_work && !rests_in_cold(known);
  return nothing_against && (is_rated_but_for_screen(known) || all_passed(known.checks));
}

bool fit_for_mulch(const CompostKnown& known) {
  const bool quiet =
      known.rating.stability.rating || (result_of(known.checks, "no-reheat") == true && result_of(known.checks, "sealed-bag") == true);
  return quiet && !rests_in_cold(known) && !too_dry_to_tell(known) && !still_composts(known) && !harms_plants(known) &&
         !any_failed(known.checks) && !known.pile_at_work;
}

std::vector<std::string> what_harms_turf(const CompostKnown& known) {
  std::vector<std::string> what;
  if (passes_none(known, "ph")) what.emplace_back("pH");
  if (passes_none(known, "salts-1to5")) what.emplace_back("salts");
  return what;
}

std::vector<const NextStep*> next_steps(const CompostKnown& known, const Criteria& criteria) {
  const bool ready = is_ready(known);
  const bool doubtful =
      lacks_nitrogen(known) || still_composts(known) || harms_plants(known) || any_failed(known.checks) || known.pile_at_work;
  const bool rated = is_rated_but_for_screen(known) || lacks_nitrogen(known);
  const bool fit_for_turf = what_harms_turf(known).empty();
  const bool fit_for_pots = ready && known.rating.rating == Rating::very_mature && fit_for_turf;
  const bool too_wet = passes_none(known, "moisture", Off::too_much);
  std::set<std::string, std::less<>> wanted;
  const auto when = [&](bool so, const char* step) {
    if (so) wanted.insert(step);
  };
  when(lacks_nitrogen(known), "more-greens");
  const std::optional<bool> stays_cool = result_of(known.checks, "no-reheat");
  when(rests_in_cold(known), "wait-for-spring");
  when(stays_cool == false, "turn-and-repeat");
  when(stays_cool != false && (still_composts(known) || (any_failed(known.checks) && !stays_cool)), "turn");
  when(harms_plants(known), "find-what-harms");
  when((still_composts(known) || (!ready && !rated && !rests_in_cold(known))) && !too_wet && !too_dry_to_tell(known), "wet");
  when(!known.has_cured && (doubtful || !rated) && !rests_in_cold(known), "cure");
  when(too_wet, "let-dry");
  when(too_dry_to_tell(known), "wet-and-repeat");
  when(any_too_coarse(known), "screen");
  when(passes_none(known, "ph"), "mind-ph");
  when(passes_none(known, "salts-1to5"), "mind-salts");
  when(ready && fit_for_turf, "use-on-lawn");
  when(fit_for_pots, "try-in-pots");
  when(!rated && !known.rating.stability.rating, "test-stability");
  when(!rated && !known.rating.maturity.rating && !harms_plants(known), "test-maturity");
  when(!ready && fit_for_mulch(known), "mulch");
  when(!ready && !fit_for_mulch(known), "keep-in-pile");
  when(!fit_for_pots, "not-on-seedlings");
  std::vector<const NextStep*> steps;
  for (const NextStep& step : criteria.steps) {
    if (wanted.erase(step.id) > 0) steps.push_back(&step);
  }
  if (!wanted.empty()) throw DomainError("the criteria have no step \"" + *wanted.begin() + "\"");
  return steps;
}

}  // namespace heapwright
