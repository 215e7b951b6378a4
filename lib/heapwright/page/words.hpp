#pragma once
/// Sentences whose quantities are still quantities: report/ gives them their units and their digits.

#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "heapwright/materials/amount.hpp"
#include "heapwright/materials/assumption.hpp"
#include "heapwright/maturity/test_value.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/band.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

// What a quantity is of, where its type alone does not say how people speak of it.

/// Of a container: "30 gallons", "110 L".
struct Capacity {
  Volume volume;
};
/// To two digits: "17 ft", "5.1 m".
struct AboutLength {
  Length length;
};
/// Of what nobody measures to the drop: "2.5 gallons", "9.4 L".
struct AboutCapacity {
  Volume volume;
};
/// Of compost on the ground: "1/4 in", "6 mm".
struct SpreadDepth {
  Length depth;
};
/// As a forecast knows it, to 5 °F or 3 °C.
struct AboutTemperature {
  TemperaturePoint point;
};
/// To a hundredth of a degree: a bound missed by ever so little is missed.
struct ExactTemperature {
  TemperaturePoint point;
};
/// By how much a forecast may be off: "20 °F", "10 °C".
struct AboutDifference {
  TemperatureDifference difference;
};
/// To the whole degree, of what thermometers show: "4 °F", "2 °C".
struct WholeDifference {
  TemperatureDifference difference;
};
/// Water as it is carried: "7 1/2 gallons (4 watering cans)".
struct CarriedWater {
  WaterMass mass;
  Volume can;  ///< what a watering can holds
};
/// Water as nobody knows it better for a year: to two digits.
struct AboutWater {
  WaterMass mass;
};
/// What people think of a pile in, and water it by: "1 cu yd", "1 m3".
struct LargeMeasure {};
/// Water for so much: "12 gallons".
struct WaterForMeasure {
  WaterDensity water;
};
/// "41 %"
struct Percent {
  double fraction = 0.0;
};
/// A plain number, to so many significant digits.
struct Number {
  double value = 0.0;
  int digits = 2;
};
/// So many of something, by its name in the singular: "24 bags", "2 1/2 buckets".
struct Count {
  double count = 0.0;
  std::string of;
  bool to_the_tenth = false;  ///< "1.1 buckets" where it is no half
};
/// As somebody counted it, to the hundredth: "3/4 bucket", "2 1/3 buckets"; halves and whole ones as a Count.
struct CountAsSaid {
  double count = 0.0;
  std::string of;
};
/// "late Oct 2026", as near as a forecast knows a day.
struct HalfMonth {
  Date date;
  bool with_year = true;
};
/// "Oct 24", of a year that is known.
struct DayOfMonth {
  Date date;
};
/// "Saturday, Oct 24, 2026"
struct DayOfWeek {
  Date date;
};
/// "3 days 4 h"
struct Span {
  std::chrono::seconds length{};
};
/// A maturity test's value in the unit that laboratories give it in.
struct Tested {
  TestQuantity measured;
  TestValue value;
  bool with_unit = true;
};
/// So many bags as they are sold where the person's units are used: "90 bags of 1 cu ft", "62 bags of 40 L".
struct SoldInBags {
  Volume volume;
  Volume us_bag;
  Volume si_bag;
};
/// So much of so much, the unit said once: "340 of 4090 sq ft".
struct OutOf {
  Area part;
  Area whole;
};
/// "12 cu ft, from 8.4 to 17 cu ft"
struct VolumeBand {
  Volume likely;
  Volume low;
  Volume high;
};
/// What people count nutrients on a lawn by: "1000 sq ft", "100 m2".
struct LawnMeasure {};
/// A nutrient on so much lawn: "5.1 lb" on each 1000 sq ft, "2.5 kg" on each 100 m2.
struct OnLawnMeasure {
  MassPerArea mass;
};
/// The same, as roughly as a first year's nitrogen is known: "0.2 lb", "1.5 lb".
struct RoughlyOnLawnMeasure {
  MassPerArea mass;
};
/// "5.1 lb (2.3 to 7.9)"
struct OnLawnMeasureBand {
  LikelyBand<MassPerArea> mass;
};
/// In the unit of the largest of a column, so that a column has one unit: "0.26 cu yd" below "0.55 cu yd".
struct VolumeInColumn {
  Volume volume;
  Volume largest;
};
/// From one to another, the unit said once: "3 to 12 cu ft".
template <class Quantity>
struct Between {
  Quantity low;
  Quantity high;
};
/// An assumed value with its range, where it has one.
struct AssumedFigure {
  Assumption assumption;
};

/// Plain words, or a quantity that report/ shows.
using Fragment =
    std::variant<std::string, Volume, Area, Length, Mass, WaterMass, BulkDensity, TemperaturePoint, TemperatureDifference, Duration, Date,
                 CarbonNitrogenRatio, MoistureWetBasis, Capacity, AboutCapacity, AboutLength, SpreadDepth, AboutTemperature,
                 ExactTemperature, AboutDifference, WholeDifference, CarriedWater, AboutWater, LargeMeasure, WaterForMeasure, Percent,
                 Number, Count, CountAsSaid, HalfMonth, DayOfMonth, DayOfWeek, Span, Tested, SoldInBags, OutOf, Cost, LawnMeasure,
                 OnLawnMeasure, RoughlyOnLawnMeasure, OnLawnMeasureBand, VolumeBand, VolumeInColumn, Between<Volume>, Between<Capacity>,
                 Between<Mass>, Between<CarbonNitrogenRatio>, Between<MoistureWetBasis>, Between<Percent>, AssumedFigure>;

/// A sentence, or a part of one.
class Words {
 public:
  Words();
  Words(const char* text) : Words(std::string(text)) {}       // NOLINT(google-explicit-constructor): a sentence may be plain words
  Words(std::string_view text) : Words(std::string(text)) {}  // NOLINT(google-explicit-constructor)
  Words(std::string text);                                    // NOLINT(google-explicit-constructor)
  template <class Quantity>
  requires(!std::is_same_v<Quantity, Words> && std::is_constructible_v<Fragment, std::in_place_type_t<Quantity>, Quantity>)
      Words(Quantity quantity)
      : Words(Fragment(std::in_place_type<Quantity>, std::move(quantity))) {}  // NOLINT(google-explicit-constructor): and so may a quantity

  /// In words.cpp: a vector of so many types takes a second to compile.
  Words(const Words& other);
  Words(Words&& other) noexcept;
  Words& operator=(const Words& other);
  Words& operator=(Words&& other) noexcept;
  ~Words();

  /// Its pieces, in their order.
  bool empty() const { return fragments_.empty(); }
  const std::vector<Fragment>& fragments() const { return fragments_; }
  /// What follows on it.
  Words& operator+=(const Words& more);

 private:
  explicit Words(Fragment fragment);
  std::vector<Fragment> fragments_;
};

/// A sentence with a place, {}, for each of its values; another count of places does not compile.
template <class... Values>
class Sentence {
 public:
  template <std::size_t size>
  consteval Sentence(const char (&text)[size]) : text_(text, size - 1) {  // NOLINT(google-explicit-constructor,modernize-avoid-c-arrays): as fmt's
    std::size_t places = 0;
    for (std::size_t i = 0; i + 1 < size; ++i) places += text[i] == '{' && text[i + 1] == '}' ? 1 : 0;
    if (places != sizeof...(Values)) throw "a sentence has a {} for each of its values";
  }
  std::string_view text() const { return text_; }

 private:
  std::string_view text_;
};

/// Puts words into the places of a text, {}, one after another.
Words fill_in(std::string_view text, const std::vector<Words>& values);

/// say("The pile holds {}.", volume): a sentence with its quantities.
template <class... Values>
Words say(Sentence<std::type_identity_t<Values>...> sentence, Values&&... values) {
  return fill_in(sentence.text(), {Words(std::forward<Values>(values))...});
}

/// "a, b, c"
Words joined(const std::vector<Words>& parts, std::string_view between = ", ");
/// "a, b and c"
Words listed(const std::vector<Words>& parts);

}  // namespace heapwright
