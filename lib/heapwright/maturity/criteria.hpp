#pragma once
/// By what compost is judged finished and fit for a lawn: materials/criteria.toml, typed.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/maturity/provenance.hpp"
#include "heapwright/maturity/test_value.hpp"
#include "heapwright/maturity/time_temperature.hpp"

namespace heapwright {

class Table;

/// "at most 25:1".
struct Bound {
  enum class Side { below, at_most, above, at_least };
  Side side;
  TestValue value;

  /// Whether a value is on the good side. One of another type never is.
  bool holds(const TestValue& measured) const;
  /// Whether all that a value may be is on the good side (true), or none of it (false); nothing where it may lie on either.
  /// @param told the side of the value that it lies on, where no more is told: "<5 mg/kg" is below 5 mg/kg
  std::optional<bool> holds(const TestValue& measured, std::optional<Side> told) const;

  /// Whether the two compare at all.
  bool is_of_type_of(const TestValue& measured) const { return value.index() == measured.index(); }
};

/// From where on a value is mature and, where anybody says so, very mature.
struct Scale {
  std::optional<Bound> very_mature;
  Bound mature;
  Provenance whose;
};

/// A class of the self-heating test, by its rise.
struct HeatingClass {
  std::string name;
  Bound rise;
  Provenance whose;
};

/// What a test asks.
enum class TestKind {
  screening,  ///< asked first
  stability,  ///< is it still composting?
  maturity,   ///< do plants bear it?
  property,   ///< rates nothing
};

/// A test, by what its values are rated.
struct TestCriterion {
  std::string id;
  std::string name;
  std::vector<std::string> also;
  TestKind kind = TestKind::property;
  bool by_plants = false;  ///< plants grew in it, so that it decides over what is measured in an extract
  TestQuantity measured = TestQuantity();
  std::string how;
  std::vector<Scale> scales;
  std::vector<HeatingClass> classes;  ///< the best first

  /// The first scale of a value's type; none where the test rates nothing.
  const Scale* scale_for(const TestValue& value) const;
};

/// What one specification asks of one property.
struct TurfLimit {
  std::string property;  ///< id of a test
  std::string specification;
  std::optional<Bound> low;   ///< at least, or above
  std::optional<Bound> high;  ///< at most, or below
  Provenance whose;
};

/// What a household can do; it never rates.
struct CheckCriterion {
  std::string id;
  std::string name;
  std::string how;
  std::string passed;  ///< what it means
  std::string failed;
  Provenance whose;
};

/// Where the rating comes from, or why it is made as it is.
struct RatingReason {
  std::string id;
  std::string text;
  Provenance whose;
};

/// What to do next.
struct NextStep {
  std::string id;
  std::string text;
  Provenance whose;
};

/// What a pile has to be made of at its start.
struct StartingRatioRule {
  std::string id;
  std::string name;
  CarbonNitrogenRatio low;
  CarbonNitrogenRatio high;
  Provenance whose;
};

/// Whether a mix meets it as it is given: a ratio in whole numbers, as nobody knows it better.
bool meets(const StartingRatioRule& rule, CarbonNitrogenRatio ratio);

/// How the days of a rule are counted, and who counts them otherwise.
struct CountedOtherwise {
  std::string text;
  Provenance whose;
};

/// What lives in a pile and may die of its heat.
enum class Pest { weed_seeds, plant_diseases, germs, worms };
/// Each with its word in criteria.toml.
const std::vector<std::pair<std::string, Pest>>& pest_words();

/// At what temperature, for how long, somebody says that they die.
struct DiesAt {
  std::string id;
  Pest pest = Pest::weed_seeds;
  TemperaturePoint at_least = TemperaturePoint::from_celsius(0.0);
  std::optional<TemperaturePoint> at_most;     ///< the same where one temperature is told of, as of what lives on
  std::optional<std::chrono::seconds> length;  ///< nothing where the source does not say how long
  std::string found;                           ///< what became of them
  Provenance whose;
};

/// Of what such a temperature tells nothing.
struct OnlyWhatWasHot {
  std::string text;
  Provenance whose;
};

/// All of criteria.toml.
struct Criteria {
  std::vector<TimeTemperatureRule> rules;
  CountedOtherwise not_in_a_row;  ///< of the rules for piles that are turned
  StartingRatioRule starting_carbon_to_nitrogen;
  std::vector<TestCriterion> tests;
  std::vector<TurfLimit> turf;
  std::vector<CheckCriterion> checks;
  std::vector<NextStep> steps;  ///< the most pressing first
  std::vector<RatingReason> reasons;
  std::vector<DiesAt> dies_at;
  OnlyWhatWasHot only_what_was_hot;  ///< stands wherever they do

  /// A test by its id, its name or what else it is called. @throws TextError with the nearest
  const TestCriterion& test_called(std::string_view name) const;
  /// The same; nothing where there is none.
  const TestCriterion* find_test(std::string_view name) const;
};

/// Reads the tables of criteria.toml onto those that are there.
void read_criteria(Table& root, Criteria& criteria);
/// The tables that come with the program.
Criteria built_in_criteria();

/// A value as it is told: "<5 mg/kg" and "less than 5 mg/kg" are below "5 mg/kg", "12 degC" is just that.
struct ToldValue {
  std::optional<Bound::Side> told;
  std::string_view value;  ///< of the same text
};
/// Nothing is told where the text says no side.
ToldValue told_value(std::string_view text);

/// "at most 25:1", "above 80 %". @throws TextError
Bound read_bound(TestQuantity measured, std::string_view text);

}  // namespace heapwright
