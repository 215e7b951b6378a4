#include "heapwright/maturity/working.hpp"

#include <cmath>
#include <map>
#include <utility>

#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr const char* own_figure = "your own figure";
constexpr const char* scheme = "the scheme of the CCQC Maturity Index, June 2001";
constexpr int digits_of_a_value = 6;  // so that a value near its limit stays on its side

std::string unit_symbol(std::string_view unit) { return unit == "1" ? std::string() : std::string(unit); }

/// How a bound is worded, and what the distance from it must be.
struct BoundWords {
  const char* words;
  const char* must_be;
};
BoundWords words_of(Bound::Side side) {
  switch (side) {
    case Bound::Side::below: return {"below", "above zero"};
    case Bound::Side::at_most: return {"at most", "zero or more"};
    case Bound::Side::above: return {"above", "above zero"};
    case Bound::Side::at_least: return {"at least", "zero or more"};
  }
  return {"", ""};
}

bool is_upper_bound(const Bound& bound) { return bound.side == Bound::Side::below || bound.side == Bound::Side::at_most; }

std::string unit_as_written(std::string_view text) {
  const std::size_t at = text.find_first_not_of("0123456789.,/+- ");
  return at == std::string_view::npos ? std::string() : std::string(text.substr(at));
}

/// A value as it was written, where its unit is another than limits are told in.
struct Written {
  double number;
  std::string unit;
};
std::optional<Written> written_in_another_unit(const MaturityTest& test, const ValueInUnit& usual) {
  const std::optional<CountedWords> words = counted_words(test.written);
  constexpr double alike = 1e-9;
  const bool converts =
      words && !words->words.empty() && words->number > 0.0 && usual.number > 0.0 && std::abs(usual.number / words->number - 1.0) > alike;
  return converts ? std::optional(Written{words->number, unit_as_written(test.written)}) : std::nullopt;
}

class RatingSteps {
 public:
  RatingSteps(const CompostKnown& known, const Materials& materials) : known_(known), materials_(materials) {}

  Working working() {
    if (known_.rating.tests.empty()) {
      working_.in_words(
          "No figures to work with",
          "no test is told, so nothing is held against a limit. Checks at home pass or fail by what is seen. Tell a test with "
          "--test \"self-heating=12 degC\" or in [[maturity.test]].",
          by_definition);
      return std::move(working_);
    }
    for (const RatedTest& test : known_.rating.tests) {
      if (!test.superseded && test.scale != nullptr) rate_test(test);
    }
    turf();
    rating();
    return std::move(working_);
  }

 private:
  std::string numbered(const char* letter) const { return letter + std::to_string(count_); }
  std::string whose(const Provenance& provenance) const { return source_words(materials_, provenance.source, provenance.evidence); }

  /// Keeps the term of a value for the limits to come.
  Term known_as(const std::string& test, double number, const Term& term) {
    values_.emplace(std::pair(test, number), term);
    return term;
  }

  /// A test's value in the unit of its limits.
  Term value_of(const RatedTest& test) {
    const ValueInUnit usual = in_usual_unit(test.criterion->measured, test.test.value);
    const std::string unit = unit_symbol(usual.unit);
    const auto written = written_in_another_unit(test.test, usual);
    if (!written) return known_as(test.criterion->id, usual.number, given(numbered("v"), test.criterion->name, usual.number, unit, own_figure));
    const Term w = given(numbered("w"), test.criterion->name + ", as written", written->number, written->unit, own_figure);
    const std::string in_limits = unit.empty() ? "as a fraction" : "in " + unit;
    const Term f = given(numbered("f"), "1 " + written->unit + ", " + in_limits, usual.number / written->number, "", by_definition);
    const Term v = working_.step({numbered("v"), test.criterion->name + ", " + in_limits, "as written, times the size of its unit", unit,
                                  by_definition, digits_of_a_value},
                                 w * f);
    return known_as(test.criterion->id, usual.number, v);
  }

  /// How far inside a bound a value lies: below zero, outside.
  void distance(const std::string& symbol, const std::string& what, const Term& value, const Bound& bound, TestQuantity measured,
                const std::string& source) {
    const ValueInUnit limit = in_usual_unit(measured, bound.value);
    const auto [words, must_be] = words_of(bound.side);
    const Term l = given("l" + symbol, what + ": " + words, limit.number, unit_symbol(limit.unit), source);
    const Expression inside = is_upper_bound(bound) ? l - value : Expression(value) - l;
    working_.step({symbol, what + ", how far inside",
                   std::string(is_upper_bound(bound) ? "limit less value" : "value less limit") + "; " + must_be + " is inside",
                   unit_symbol(limit.unit), by_definition, digits_of_a_value},
                  inside);
  }

  std::string rating_of(const RatedTest& test) const {
    if (!test.rating) return "what is told of it does not say.";
    std::string words(rating_word(test.rating));
    if (test.criterion->kind == TestKind::screening) words = *test.rating == Rating::immature ? "failed" : "passed";
    if (test.at_least && test.criterion->kind != TestKind::screening) words = "at least " + words;
    if (!test.heating_class.empty()) words += ", class " + test.heating_class;
    return words + (test.stands_beside ? "; plants were grown, and decide in its place." : ".");
  }

  void rate_test(const RatedTest& test) {
    ++count_;
    const std::string& name = test.criterion->name;
    const std::string source = whose(test.scale->whose);
    if (test.test.told) {
      working_.in_words("Rating of " + name, "only a bound is told, " + test.test.written + ": " + rating_of(test), source);
      return;
    }
    const Term value = value_of(test);
    const TestQuantity measured = test.criterion->measured;
    const bool is_screen = test.criterion->kind == TestKind::screening;
    if (test.scale->very_mature) distance(numbered("p"), name + ", very mature", value, *test.scale->very_mature, measured, source);
    distance(numbered("q"), name + (is_screen ? ", the screen" : ", mature"), value, test.scale->mature, measured, source);
    working_.in_words("Rating of " + name, rating_of(test), by_definition);
  }

  /// The value that a specification for turf is held against.
  Term turf_value(const TurfResult& result) {
    const ValueInUnit usual = in_usual_unit(result.property->measured, *result.value);
    const std::string& name = result.property->name;
    if (const auto known = values_.find({result.property->id, usual.number}); known != values_.end()) return known->second;
    if (!result.converted)
      return known_as(result.property->id, usual.number, given(numbered("v"), name, usual.number, unit_symbol(usual.unit), own_figure));
    const OxygenUptakeRate uptake = to_oxygen_uptake(std::get<RespirationRate>(*result.value));
    const ValueInUnit oxygen = in_usual_unit(TestQuantity::oxygen, uptake);
    const Term u = given(numbered("u"), "oxygen taken up", oxygen.number, std::string(oxygen.unit), own_figure);
    const Term q = given("rq", "molecules of CO2 given off for each of O2", respiratory_quotient, "", "common practice, no source");
    const Term c = given("gc", "g of carbon in 1 mol of CO2", 12.011, "", by_definition);
    const Term v = working_.step({numbered("v"), name + ", from oxygen taken up",
                                  "times what one gives of the other, 12.011 g of carbon in a mol, 24 h in a day, 1000 g in a kg",
                                  std::string(usual.unit), by_definition, digits_of_a_value},
                                 u * q * c * 24.0 / 1000.0);
    return known_as(result.property->id, usual.number, v);
  }

  void turf() {
    for (const TurfResult& result : known_.turf) {
      if (!result.value || !result.ok || result.told) continue;
      ++count_;
      const TurfLimit& limit = *result.limit;
      const Term value = turf_value(result);
      const std::string what = result.property->name + " for turf, by " + limit.specification;
      if (limit.low) distance(numbered("p"), what, value, *limit.low, result.property->measured, whose(limit.whose));
      if (limit.high) distance(numbered("q"), what, value, *limit.high, result.property->measured, whose(limit.whose));
      working_.in_words(what, *result.ok ? "inside." : "outside.", by_definition);
    }
  }

  std::string rating_of(const KindRating& kind, const char* lacking) const {
    if (!kind.rating) return lacking;
    return std::string(rating_word(kind.rating)) +
           (kind.plants_decide ? ", since plants decide over extracts." : ", the least of its tests.");
  }

  void rating() {
    const MaturityRating& rated = known_.rating;
    if (rated.carbon_to_nitrogen)
      working_.in_words("C:N screen",
                        *rated.carbon_to_nitrogen == Rating::immature ? "failed: immature, whatever the other tests say." : "passed.",
                        scheme);
    working_.in_words("Stability", rating_of(rated.stability, "no test of it rates."), scheme);
    working_.in_words("Maturity", rating_of(rated.maturity, "no test of it rates."), scheme);
    working_.in_words("The less mature of the two",
                      rated.rating ? std::string(rating_word(rated.rating)) + "." : "not enough tests: it takes one of each.", scheme);
  }

  const CompostKnown& known_;
  const Materials& materials_;
  Working working_;
  std::map<std::pair<std::string, double>, Term> values_;  ///< by test and number
  int count_ = 0;
};

}  // namespace

Working working_of_rating(const CompostKnown& known, const Materials& materials) { return RatingSteps(known, materials).working(); }

}  // namespace heapwright
