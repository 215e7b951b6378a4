#include "heapwright/maturity/rating.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

std::string class_of(const TestCriterion& criterion, const MaturityTest& test) {
  if (test.told) return "";
  const TestValue& value = test.value;
  const auto found =
      std::find_if(criterion.classes.begin(), criterion.classes.end(), [&](const HeatingClass& one) { return one.rise.holds(value); });
  return found == criterion.classes.end() ? "" : found->name;
}

/// Whether what is mature may be very mature as well: by a scale that knows no more than that, or by a bound.
bool is_no_more_told(const Scale& scale, const MaturityTest& test) {
  return !scale.very_mature || !scale.very_mature->holds(test.value, test.told);
}

RatedTest rated(const MaturityTest& test, const Criteria& criteria) {
  RatedTest one;
  one.test = test;
  one.criterion = &known_row(criteria.tests, test.test);
  one.scale = one.criterion->scale_for(test.value);
  if (one.scale != nullptr) one.rating = rating_on(*one.scale, test);
  one.at_least = one.rating == Rating::mature && is_no_more_told(*one.scale, test);
  one.heating_class = class_of(*one.criterion, test);
  return one;
}

void mark_superseded(std::vector<RatedTest>& tests) {
  for (RatedTest& one : tests) {
    one.superseded = std::any_of(tests.begin(), tests.end(), [&](const RatedTest& other) {
      return other.criterion == one.criterion && is_superseded_by(one.test.date, other.test.date);
    });
  }
}

bool counts_towards(TestKind kind, const RatedTest& one) { return one.criterion->kind == kind && !one.superseded && one.rating; }

/// Where plants were grown in it, what was measured in extracts of it decides nothing.
void mark_beside(std::vector<RatedTest>& tests) {
  for (RatedTest& one : tests) {
    const bool any_of_plants = std::any_of(tests.begin(), tests.end(), [&](const RatedTest& other) {
      return counts_towards(one.criterion->kind, other) && other.criterion->by_plants;
    });
    one.stands_beside = any_of_plants && counts_towards(one.criterion->kind, one) && !one.criterion->by_plants;
  }
}

/// The least of some tests; those that say only "at least mature" neither lower a better one nor disagree with it.
KindRating least_of(const std::vector<const RatedTest*>& tests) {
  KindRating result;
  bool any_at_least_mature = false;
  for (const RatedTest* one : tests) {
    if (one->at_least) {
      any_at_least_mature = true;
      continue;
    }
    if (result.rating && *result.rating != *one->rating) result.tests_disagree = true;
    result.rating = result.rating ? std::min(*result.rating, *one->rating) : *one->rating;
  }
  if (!any_at_least_mature) return result;
  if (result.rating == Rating::immature) result.tests_disagree = true;
  if (!result.rating) result.rating = Rating::mature;
  return result;
}

/// Of the tests that decide; that those beside them say otherwise is a disagreement too.
KindRating rating_of(TestKind kind, const std::vector<RatedTest>& tests) {
  std::vector<const RatedTest*> all;
  std::vector<const RatedTest*> deciding;
  for (const RatedTest& one : tests) {
    if (!counts_towards(kind, one)) continue;
    all.push_back(&one);
    if (!one.stands_beside) deciding.push_back(&one);
  }
  KindRating result = least_of(deciding);
  result.tests_disagree = least_of(all).tests_disagree;
  result.plants_decide = deciding.size() < all.size();
  return result;
}

}  // namespace

std::string_view rating_word(std::optional<Rating> rating) {
  if (!rating) return "not enough tests";
  switch (*rating) {
    case Rating::immature: return "immature";
    case Rating::mature: return "mature";
    case Rating::very_mature: return "very mature";
  }
  return "";
}

Rating rating_on(const Scale& scale, const TestValue& value) {
  if (scale.very_mature && scale.very_mature->holds(value)) return Rating::very_mature;
  return scale.mature.holds(value) ? Rating::mature : Rating::immature;
}

std::optional<Rating> rating_on(const Scale& scale, const MaturityTest& test) {
  if (!test.told) return rating_on(scale, test.value);
  const std::optional<bool> mature = scale.mature.holds(test.value, test.told);
  if (!mature) return std::nullopt;
  const bool very_mature = scale.very_mature && scale.very_mature->holds(test.value, test.told) == true;
  return very_mature ? Rating::very_mature : *mature ? Rating::mature : Rating::immature;
}

MaturityRating rate(const std::vector<MaturityTest>& tests, const Criteria& criteria) {
  MaturityRating result;
  for (const MaturityTest& test : tests) result.tests.push_back(rated(test, criteria));
  std::stable_sort(result.tests.begin(), result.tests.end(), [](const RatedTest& a, const RatedTest& b) {
    return a.criterion != b.criterion ? a.criterion < b.criterion : a.test.date > b.test.date;
  });
  mark_superseded(result.tests);
  mark_beside(result.tests);
  result.carbon_to_nitrogen = rating_of(TestKind::screening, result.tests).rating;
  result.stability = rating_of(TestKind::stability, result.tests);
  result.maturity = rating_of(TestKind::maturity, result.tests);
  if (result.carbon_to_nitrogen == Rating::immature) {
    result.rating = Rating::immature;
  } else if (result.stability.rating && result.maturity.rating) {
    result.rating = std::min(*result.stability.rating, *result.maturity.rating);
  }
  return result;
}

std::vector<const RatingReason*> reasons_of(const MaturityRating& rating, const Criteria& criteria) {
  const auto any = [&](auto is_so) { return std::any_of(rating.tests.begin(), rating.tests.end(), is_so); };
  const auto is_of_nitrogen = [](const RatedTest& one) {
    return one.criterion->measured == TestQuantity::nitrogen_ratio || one.criterion->measured == TestQuantity::ammonium_content;
  };
  std::vector<const RatingReason*> reasons;
  const auto when = [&](bool so, const char* id) {
    if (so) reasons.push_back(&known_row(criteria.reasons, id));
  };
  when(any([](const RatedTest& one) { return one.rating.has_value(); }), "index");
  when(rating.maturity.plants_decide && rating.maturity.tests_disagree && any(is_of_nitrogen), "plants-decide");
  when(any([&](const RatedTest& one) { return is_of_nitrogen(one) && !one.superseded && !one.stands_beside; }), "nitrogen-foretells");
  return reasons;
}

std::vector<const RatedTest*> counting(const std::vector<RatedTest>& tests, std::string_view id) {
  std::vector<const RatedTest*> found;
  for (const RatedTest& one : tests) {
    if (one.criterion->id == id && !one.superseded) found.push_back(&one);
  }
  return found;
}

bool is_superseded_by(const std::optional<Date>& date, const std::optional<Date>& other) { return date && other && *other > *date; }

}  // namespace heapwright
