#pragma once
/// What maturity tests make of compost together. The less mature rules, plants over extracts; nothing is averaged.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/observations.hpp"

namespace heapwright {

/// The least mature first: they compare so.
enum class Rating { immature, mature, very_mature };

/// "very mature", "mature", "immature"; without a rating "not enough tests".
std::string_view rating_word(std::optional<Rating> rating);

/// Where on a scale a value lies.
Rating rating_on(const Scale& scale, const TestValue& value);
/// The same of a test of which only a bound may be told: the least that it can be, and nothing where it may be mature or not.
std::optional<Rating> rating_on(const Scale& scale, const MaturityTest& test);

/// A test with what it says.
struct RatedTest {
  MaturityTest test;
  const TestCriterion* criterion = nullptr;
  const Scale* scale = nullptr;  ///< that rates it; none of a property
  std::optional<Rating> rating;  ///< none of a property, nor where the bound that is told does not say it
  bool at_least = false;         ///< the rating is what it is at least: nobody tells more
  std::string heating_class;     ///< of self-heating: "IV"
  bool superseded = false;       ///< a later one of the same test counts instead
  bool stands_beside = false;    ///< plants were grown, and decide in its place
};

/// Of the tests of one kind.
struct KindRating {
  std::optional<Rating> rating;  ///< the least mature of those that decide; none where there is no such test
  bool tests_disagree = false;   ///< those that stand beside them count
  bool plants_decide = false;    ///< over other tests, which stand beside
};

/// What all of them say together.
struct MaturityRating {
  std::optional<Rating> rating;  ///< none where it is not enough to rate
  KindRating stability;
  KindRating maturity;
  std::optional<Rating> carbon_to_nitrogen;  ///< immature where it fails the screen
  std::vector<RatedTest> tests;              ///< in the order of the criteria, the latest first, undated ones last
};

/// A C:N that fails the screen is immature whatever the rest says. Otherwise it takes a stability test and a maturity test, and the less
/// mature of the two rules. Among tests of maturity what plants did (germination, emergence, vigor) decides where there is such a test:
/// nitrogen and acids in an extract foretell how plants will fare, and of ten composts in which plants fared well all fail a limit of
/// nitrogen (`Criteria::reasons`). They stand beside it, and decide where no plants were grown.
/// @param criteria must outlive the result
MaturityRating rate(const std::vector<MaturityTest>& tests, const Criteria& criteria);

/// Where a rating comes from and why it came out so, as far as it concerns these tests. @param criteria must outlive the result
std::vector<const RatingReason*> reasons_of(const MaturityRating& rating, const Criteria& criteria);

/// The tests of an id that count: those that no later one supersedes.
std::vector<const RatedTest*> counting(const std::vector<RatedTest>& tests, std::string_view id);

/// Whether a later of the same counts in place of an observation. Without a date neither can be later.
bool is_superseded_by(const std::optional<Date>& date, const std::optional<Date>& other);

}  // namespace heapwright
