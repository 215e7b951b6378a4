#include <catch2/catch.hpp>

#include <algorithm>
#include <cctype>
#include <clocale>
#include <cmath>
#include <functional>
#include <limits>
#include <locale>
#include <string>
#include <tuple>
#include <variant>
#include <vector>

#include "heapwright/units/text.hpp"

using namespace heapwright;
using Catch::WithinRel;

namespace Catch {
template <>
struct StringMaker<TextError> {
  static std::string convert(const TextError& error) { return std::string(error.what()) + " | " + error.hint(); }
};
}  // namespace Catch

namespace {

// Reading multiplies and adds a few times, each with a rounding of 1.1e-16.
const double rounding = 1e-14;

const double foot = 0.3048;
const double inch = 0.0254;
const double yard = 0.9144;
const double square_foot = 0.09290304;
const double acre = 4046.8564224;
const double cubic_yard = 0.764554857984;
const double cubic_foot = 0.028316846592;
const double gallon = 0.003785411784;
const double bushel = 0.03523907016688;
const double pound = 0.45359237;
const double short_ton = 907.18474;
const double hour = 3600.0;
const double day = 86400.0;

/// A TextError whose message and hint contain these words.
class Says : public Catch::MatcherBase<TextError> {
 public:
  Says(std::string wrong, std::string right) : wrong_(std::move(wrong)), right_(std::move(right)) {}
  bool match(const TextError& error) const override {
    return std::string(error.what()).find(wrong_) != std::string::npos && error.hint().find(right_) != std::string::npos;
  }
  std::string describe() const override { return "says \"" + wrong_ + "\" and hints at \"" + right_ + "\""; }

 private:
  std::string wrong_;
  std::string right_;
};

double read_in_si(Dimension dimension, const std::string& text) {
  switch (dimension) {
    case Dimension::length: return si_number(read_length(text));
    case Dimension::area: return si_number(read_area(text));
    case Dimension::volume: return si_number(read_volume(text));
    case Dimension::mass: return si_number(read_mass(text));
    case Dimension::duration: return si_number(read_duration(text));
  }
  FAIL("a dimension that this test does not know");
  return 0.0;
}

/// Text to quantity to text.
std::string reprinted(const UnitName& unit, const std::string& text, int digits) {
  switch (unit.dimension) {
    case Dimension::length: return print_in(read_length(text), unit.symbol, digits);
    case Dimension::area: return print_in(read_area(text), unit.symbol, digits);
    case Dimension::volume: return print_in(read_volume(text), unit.symbol, digits);
    case Dimension::mass: return print_in(read_mass(text), unit.symbol, digits);
    case Dimension::duration: return print_in(read_duration(text), unit.symbol, digits);
  }
  FAIL("a dimension that this test does not know");
  return {};
}

/// Every reader of a text with a unit, as one that gives the SI number.
struct Reader {
  std::string name;
  std::function<double(const std::string&)> read;
};

template <class Quantity>
Reader reader(const std::string& name, Quantity (*read)(std::string_view)) {
  return {name, [read](const std::string& text) { return si_number(read(text)); }};
}

const std::vector<Reader>& readers() {
  static const std::vector<Reader> all{
      reader("length", read_length),
      reader("area", read_area),
      reader("volume", read_volume),
      reader("mass", read_mass),
      reader("duration", read_duration),
      reader("water", read_water),
      reader("bulk density", read_bulk_density),
      reader("particle density", read_particle_density),
      reader("mass per area", read_mass_per_area),
      reader("carbon to nitrogen", read_carbon_to_nitrogen),
      reader("moisture", read_moisture_wet_basis),
      {"percentage", read_percentage},
      {"temperature", [](const std::string& text) { return read_temperature(text).kelvin(); }},
      reader("temperature difference", read_temperature_difference),
  };
  return all;
}

/// What stands between double quotes: the examples of a hint.
std::vector<std::string> examples_in(const std::string& hint) {
  std::vector<std::string> examples;
  for (std::size_t open = hint.find('"'); open != std::string::npos; open = hint.find('"', open)) {
    const std::size_t close = hint.find('"', open + 1);
    examples.push_back(hint.substr(open + 1, close - open - 1));
    open = close + 1;
  }
  return examples;
}

bool is_word(std::string_view spelling) {
  return std::all_of(spelling.begin(), spelling.end(), [](char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; });
}

std::vector<std::string> all_spellings(const UnitName& unit) {
  std::vector<std::string> all{std::string(unit.symbol)};
  all.insert(all.end(), unit.spellings.begin(), unit.spellings.end());
  return all;
}

std::string upper_case(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); });
  return text;
}

}  // namespace

// Numbers.

TEST_CASE("numbers are read as people write them", "[text]") {
  const auto [number, value] = GENERATE(table<std::string, double>({
      {"3", 3.0},          {"3.5", 3.5},
      {".5", 0.5},         {"5.", 5.0},
      {"007", 7.0},        {"0", 0.0},
      {"0.0", 0.0},        {"1e3", 1000.0},
      {"1E3", 1000.0},     {"1.5e-2", 0.015},
      {"2e+2", 200.0},     {"1e12", 1e12},
      {"1,000", 1000.0},   {"12,345.5", 12345.5},
      {"1,000,000", 1e6},  {"1,000 1/2", 1000.5},
      {"1/4", 0.25},       {"3 1/2", 3.5},
      {"3  1/2", 3.5},     {"3-1/2", 3.5},
      {"1⁄2", 0.5},        {"½", 0.5},
      {"3½", 3.5},         {"3 ½", 3.5},
      {"3-½", 3.5},        {"3–½", 3.5},
      {"¼", 0.25},         {"¾", 0.75},
      {"⅓", 1.0 / 3.0},    {"⅔", 2.0 / 3.0},
      {"⅛", 0.125},        {"⅜", 0.375},
      {"⅝", 0.625},        {"⅞", 0.875},
      {"half", 0.5},       {"Half", 0.5},
      {"half a", 0.5},     {"half an", 0.5},
      {"half of a", 0.5},  {"a half", 0.5},
      {"one half", 0.5},   {"quarter", 0.25},
      {"a quarter", 0.25}, {"quarter of a", 0.25},
      {"a", 1.0},          {"an", 1.0},
      {"one", 1.0},        {"  3", 3.0},
      {"\t3", 3.0},        {"3\u00a0", 3.0},
      {"3\u2009", 3.0},
  }));
  CAPTURE(number);
  CHECK_THAT(si_number(read_mass(number + " kg")), WithinRel(value, rounding));
}

TEST_CASE("numbers that are none, or past reason, are refused", "[text]") {
  const auto [number, wrong, right] = GENERATE(table<std::string, std::string, std::string>({
      {"", "does not begin with a number", "a number, then its unit"},
      {"some", "does not begin with a number", "a number, then its unit"},
      {"nan", "does not begin with a number", "a number, then its unit"},
      {"inf", "does not begin with a number", "a number, then its unit"},
      {"infinity", "does not begin with a number", "a number, then its unit"},
      {"+5", "does not begin with a number", "a number, then its unit"},
      {"-5", "is negative", "zero or more"},
      {"-0", "is negative", "zero or more"},
      {"-.5", "is negative", "zero or more"},
      {"−5", "is negative", "zero or more"},
      {"–5", "is negative", "zero or more"},
      {"-inf", "does not begin with a number", "a number, then its unit"},
      {"1e400", "is beyond what this tool works with", "a million million"},
      {"1e13", "is beyond what this tool works with", "a million million"},
      {"9,999,999,999,999", "is beyond what this tool works with", "a million million"},
      {"1e12/1e-300", "is beyond what this tool works with", "a million million"},
      {"1 1e12/1e-300", "is beyond what this tool works with", "a million million"},
      {"2,5", "has a comma that is not one between thousands", "a decimal point"},
      {"1,0000", "has a comma that is not one between thousands", "a decimal point"},
      {"1,000,00", "has a comma that is not one between thousands", "a decimal point"},
      {"0,500", "has a comma that is not one between thousands", "a decimal point"},
      {"1234,567", "has a comma that is not one between thousands", "a decimal point"},
      {"1/0", "divides by zero", "1/4"},
      {"2 1/0.0", "divides by zero", "1/4"},
      {"1/", "has a fraction without a denominator", "1/4"},
      {"1/-4", "has a fraction without a denominator", "1/4"},
  }));
  const std::string text = number + " kg";
  CAPTURE(text);
  CHECK_THROWS_MATCHES(read_mass(text), TextError, Says("\"" + text + "\" " + wrong, right));
}

TEST_CASE("a comma stands before three digits, or none is read", "[text]") {
  CHECK(read_length("1,234 m").value() == 1234.0);
  for (const char* text : {"1,2.5 m", "1,23 m", "1,2345 m", "1,2/3 m", "0,500 m"}) {
    CAPTURE(text);
    CHECK_THROWS_AS(read_length(text), TextError);
  }
}

TEST_CASE("no size of text brings a reader down", "[text]") {
  const auto repeated = [](const std::string& begin, const std::string& part, const std::string& end) {
    std::string text = begin;
    for (int i = 0; i < 20'000; ++i) text += part;
    text += end;
    return text;
  };
  const std::string text = GENERATE_COPY(repeated("", "99999", " kg"), repeated("5 ", "sssss", ""), repeated("", "     ", ""),
                                         repeated("", "-----", ""), repeated("5 kg/", "/////", ""), repeated("", "½", ""),
                                         repeated("", "1 kg ", "1"), std::string("5 \xff\xfe"), std::string("5 kg\0", 5));
  for (const Reader& reader : readers()) {
    CAPTURE(reader.name);
    CHECK_THROWS_AS(reader.read(text), TextError);
  }
}

// Units.

TEST_CASE("every spelling of every unit is read, joined to its number in any way", "[text]") {
  for (const UnitName& unit : unit_names()) {
    for (const std::string& spelling : all_spellings(unit)) {
      std::vector<std::string> texts{"7 " + spelling, "7" + spelling, " 7  " + spelling + " "};
      if (is_word(spelling)) texts.insert(texts.end(), {"7-" + spelling, "7 " + spelling + ".", "7 " + upper_case(spelling)});
      for (const std::string& text : texts) {
        CAPTURE(text);
        CHECK_THAT(read_in_si(unit.dimension, text), WithinRel(7.0 * unit.si, rounding));
      }
    }
  }
}

TEST_CASE("a quantity is printed in a unit by its symbol", "[text]") {
  CHECK(print_in(unit::bushel, "bushel", 3) == "1 bushel");
  CHECK_THROWS_MATCHES(print_in(unit::bushel, "ft", 3), TextError, Says("\"ft\" is not a unit of a volume", "yd3, ft3, gal"));
  CHECK_THROWS_MATCHES(print_in(unit::foot, "feet", 3), TextError, Says("\"feet\" is not a unit of a length", "ft, in, yd"));
}

TEST_CASE("whether a text is a quantity is asked without reading it", "[text]") {
  const auto text = GENERATE(as<std::string>(), "2 gal", "half a gallon", "2 ft3 3 gal", "3 yards", "0 L");
  CAPTURE(text);
  CHECK(is_quantity(text, Dimension::volume));
  const auto other = GENERATE(as<std::string>(), "", "gallons", "2", "2 ft", "2 gal of milk", "2 gal more", "a gallon jug");
  CAPTURE(other);
  CHECK_FALSE(is_quantity(other, Dimension::volume));
  CHECK_THROWS_AS(is_quantity("1/0 gal", Dimension::volume), TextError);
}

TEST_CASE("units are what their definitions make them", "[text][definitions]") {
  // International yard and pound agreement, 1959: 1 yd = 0.9144 m and 1 lb = 0.45359237 kg, exactly.
  // US gallon: 231 in³. US bushel: 2150.42 in³. Acre: 4840 yd². Short ton: 2000 lb. Ounce: lb/16.
  // The decimals below follow from these exactly.
  const auto [dimension, text, si] = GENERATE(table<Dimension, std::string, double>({
      {Dimension::length, "1 yd", 0.9144},
      {Dimension::length, "1 ft", 0.3048},
      {Dimension::length, "1 in", 0.0254},
      {Dimension::area, "1 ft2", 0.09290304},
      {Dimension::area, "1 yd2", 0.83612736},
      {Dimension::area, "1 acre", 4046.8564224},
      {Dimension::volume, "1 yd3", 0.764554857984},
      {Dimension::volume, "1 ft3", 0.028316846592},
      {Dimension::volume, "1 gal", 0.003785411784},
      {Dimension::volume, "1 bushel", 0.03523907016688},
      {Dimension::mass, "1 lb", 0.45359237},
      {Dimension::mass, "1 oz", 0.028349523125},
      {Dimension::mass, "1 short_ton", 907.18474},
      {Dimension::duration, "1 weeks", 604800.0},
  }));
  CAPTURE(text);
  CHECK_THAT(read_in_si(dimension, text), WithinRel(si, rounding));
}

TEST_CASE("figures of the trade follow from the definitions", "[text][definitions]") {
  const Volume quarter_inch_on_1000_ft2 = read_length("1/4 in") * read_area("1000 ft2");
  CHECK_THAT(si_number(quarter_inch_on_1000_ft2), WithinRel(0.589934304, rounding));
  CHECK(print_in(quarter_inch_on_1000_ft2, "yd3", 3) == "0.772 yd3");

  // 800 x 0.45359237 / 0.764554857984 = 474.621137006226...
  CHECK_THAT(si_number(read_bulk_density("800 lb/yd3")), WithinRel(474.621137006226, rounding));

  const Mass load = read_volume("10 yd3") * read_bulk_density("800 lb/yd3");
  CHECK(print_in(load, "short_ton", 6) == "4 short_ton");
}

TEST_CASE("lengths as people write them", "[text]") {
  const auto [text, si] = GENERATE(table<std::string, double>({
      {"60 ft 6 in", 60.5 * foot},
      {"60 feet 6 inches", 60.5 * foot},
      {"60 ft. 6 in.", 60.5 * foot},
      {"60 ft, 6 in", 60.5 * foot},
      {"60' 6\"", 60.5 * foot},
      {"60'6\"", 60.5 * foot},
      {"60′ 6″", 60.5 * foot},
      {"60’ 6”", 60.5 * foot},
      {"60‘6“", 60.5 * foot},
      {"60' 6''", 60.5 * foot},
      {"60 ft 6\"", 60.5 * foot},
      {"5 ft 6 1/2 in", 5 * foot + 6.5 * inch},
      {"5' 6½\"", 5 * foot + 6.5 * inch},
      {"1 yd 1 ft 1 in", yard + foot + inch},
      {"60-ft", 60 * foot},
      {"3½'", 3.5 * foot},
      {"1 foot", foot},
      {"12 INCHES", foot},
      {"1/4-inch", inch / 4},
      {"a quarter inch", inch / 4},
      {"a quarter-inch", inch / 4},
      {"half an inch", inch / 2},
      {"2 yards", 2 * yard},
      {"2 yds", 2 * yard},
      {"1.2 metres", 1.2},
      {"1 m 20 cm", 1.2},
      {"10 millimeters", 0.01},
      {"0 ft", 0.0},
      {"0 ft 0 in", 0.0},
  }));
  CAPTURE(text);
  CHECK_THAT(si_number(read_length(text)), WithinRel(si, rounding));
}

TEST_CASE("areas as people write them", "[text]") {
  const auto [text, si] = GENERATE(table<std::string, double>({
      {"5000 ft2", 5000 * square_foot},
      {"5,000 sq ft", 5000 * square_foot},
      {"5000 sq. ft.", 5000 * square_foot},
      {"5000 sq.ft", 5000 * square_foot},
      {"5000 sq-ft", 5000 * square_foot},
      {"5000 Sq Ft", 5000 * square_foot},
      {"5000 sqft", 5000 * square_foot},
      {"5000 square feet", 5000 * square_foot},
      {"5000 square ft", 5000 * square_foot},
      {"5000 square-feet", 5000 * square_foot},
      {"5000 ft²", 5000 * square_foot},
      {"5000 ft^2", 5000 * square_foot},
      {"1 square foot", square_foot},
      {"100 sq yd", 900 * square_foot},
      {"100 square yards", 900 * square_foot},
      {"1/2 acre", acre / 2},
      {"½ acre", acre / 2},
      {"half an acre", acre / 2},
      {"half acre", acre / 2},
      {"a half acre", acre / 2},
      {"half-acre", acre / 2},
      {"a quarter of an acre", acre / 4},
      {"quarter-acre", acre / 4},
      {"an acre", acre},
      {"2 acres", 2 * acre},
      {"0.5 ac", acre / 2},
      {"1 acre 500 sq ft", acre + 500 * square_foot},
      {"450 m2", 450.0},
      {"450 m²", 450.0},
      {"450 sq m", 450.0},
      {"450 square metres", 450.0},
      {"1.5 hectares", 15000.0},
      {"0 ft2", 0.0},
  }));
  CAPTURE(text);
  CHECK_THAT(si_number(read_area(text)), WithinRel(si, rounding));
}

TEST_CASE("volumes as people write them: yards are cubic", "[text]") {
  const auto [text, si] = GENERATE(table<std::string, double>({
      {"3 1/2 yd3", 3.5 * cubic_yard},
      {"3 yards", 3 * cubic_yard},
      {"3 yds", 3 * cubic_yard},
      {"3 yd", 3 * cubic_yard},
      {"a yard", cubic_yard},
      {"half a yard", cubic_yard / 2},
      {"3 cu yd", 3 * cubic_yard},
      {"3 cu. yds.", 3 * cubic_yard},
      {"3 cubic yards", 3 * cubic_yard},
      {"3 cubic-yards", 3 * cubic_yard},
      {"3 cubic yd", 3 * cubic_yard},
      {"3 CY", 3 * cubic_yard},
      {"3 yd³", 3 * cubic_yard},
      {"3 yd^3", 3 * cubic_yard},
      {"27 ft3", 27 * cubic_foot},
      {"27 cu ft", 27 * cubic_foot},
      {"27 cubic feet", 27 * cubic_foot},
      {"27 cubic ft", 27 * cubic_foot},
      {"1 cubic foot", cubic_foot},
      {"27 cf", 27 * cubic_foot},
      {"1 yd3 9 ft3", 36 * cubic_foot},
      {"5 gal", 5 * gallon},
      {"5-gallon", 5 * gallon},
      {"5 gallons", 5 * gallon},
      {"5 gal.", 5 * gallon},
      {"5 US gallons", 5 * gallon},
      {"5 U.S. gal", 5 * gallon},
      {"2 bushels", 2 * bushel},
      {"2 bu", 2 * bushel},
      {"20 L", 0.02},
      {"20 l", 0.02},
      {"20 liters", 0.02},
      {"20 litres", 0.02},
      {"2 m3", 2.0},
      {"2 cubic metres", 2.0},
      {"2 cubic m", 2.0},
      {"0 yd3", 0.0},
  }));
  CAPTURE(text);
  CHECK_THAT(si_number(read_volume(text)), WithinRel(si, rounding));
}

TEST_CASE("weights as people write them", "[text]") {
  const auto [text, si] = GENERATE(table<std::string, double>({
      {"12 lb", 12 * pound},
      {"12 lbs", 12 * pound},
      {"12 lbs.", 12 * pound},
      {"12 pounds", 12 * pound},
      {"12#", 12 * pound},
      {"5 lb 4 oz", 5.25 * pound},
      {"8 ounces", pound / 2},
      {"half a pound", pound / 2},
      {"2 short_ton", 2 * short_ton},
      {"2 short tons", 2 * short_ton},
      {"2 short-tons", 2 * short_ton},
      {"2 US tons", 2 * short_ton},
      {"5 kg", 5.0},
      {"5 kilos", 5.0},
      {"5 kilograms", 5.0},
      {"500 g", 0.5},
      {"500 grams", 0.5},
      {"2 t", 2000.0},
      {"2 tonnes", 2000.0},
      {"2 metric tons", 2000.0},
      {"0 lb", 0.0},
  }));
  CAPTURE(text);
  CHECK_THAT(si_number(read_mass(text)), WithinRel(si, rounding));
}

TEST_CASE("times as people write them", "[text]") {
  const auto [text, si] = GENERATE(table<std::string, double>({
      {"14 days", 14 * day},
      {"1 day", day},
      {"14 d", 14 * day},
      {"3 weeks", 21 * day},
      {"a week", 7 * day},
      {"2 wks", 14 * day},
      {"2 weeks 3 days", 17 * day},
      {"4 h", 4 * hour},
      {"4 hrs", 4 * hour},
      {"4 hours", 4 * hour},
      {"an hour", hour},
      {"1 h 30 min", 1.5 * hour},
      {"90 minutes", 1.5 * hour},
      {"0 days", 0.0},
  }));
  CAPTURE(text);
  CHECK_THAT(si_number(read_duration(text)), WithinRel(si, rounding));
}

TEST_CASE("water is a weight or a volume", "[text]") {
  const auto [text, kg] = GENERATE(table<std::string, double>({
      {"10 kg", 10.0},
      {"10 lb", 10 * pound},
      {"10 L", 10.0},
      {"5 gal", 5000 * gallon},
      {"1 gal 1 L", 1000 * gallon + 1.0},
      {"0 gal", 0.0},
  }));
  CAPTURE(text);
  CHECK_THAT(value_in(unit::kg_water, read_water(text)), WithinRel(kg, rounding));
}

TEST_CASE("an amount is a volume or a weight as its unit says", "[text]") {
  CHECK(std::get<Volume>(read_volume_or_mass("2 m3")) == 2.0 * unit::m3);
  CHECK(std::get<Mass>(read_volume_or_mass("2 kg")) == 2.0 * unit::kg);
  CHECK_THAT(si_number(std::get<Volume>(read_volume_or_mass("2 yards"))), WithinRel(2 * cubic_yard, rounding));
}

TEST_CASE("weights per volume and per area", "[text]") {
  const double lb_per_yd3 = pound / cubic_yard;
  const double lb_per_1000ft2 = pound / (1000 * square_foot);

  SECTION("bulk density") {
    const auto [text, si] = GENERATE_COPY(table<std::string, double>({
        {"350 lb/yd3", 350 * lb_per_yd3},
        {"350 lb / yd3", 350 * lb_per_yd3},
        {"350 lbs/cu yd", 350 * lb_per_yd3},
        {"350 lb per yd3", 350 * lb_per_yd3},
        {"350 pounds per cubic yard", 350 * lb_per_yd3},
        {"350 pounds per yard", 350 * lb_per_yd3},
        {"350 lb/yd³", 350 * lb_per_yd3},
        {"475 kg/m3", 475.0},
        {"475 g/L", 475.0},
        {"0.475 t/m3", 475.0},
        {"0 lb/yd3", 0.0},
    }));
    CAPTURE(text);
    CHECK_THAT(si_number(read_bulk_density(text)), WithinRel(si, rounding));
  }
  SECTION("particle density") {
    CHECK_THAT(si_number(read_particle_density("1400 kg/m3")), WithinRel(1400.0, rounding));
    CHECK_THAT(si_number(read_particle_density("1.4 kg/L")), WithinRel(1400.0, rounding));
  }
  SECTION("per area") {
    const auto [text, si] = GENERATE_COPY(table<std::string, double>({
        {"3 lb/1000ft2", 3 * lb_per_1000ft2},
        {"3 lb/1000 ft2", 3 * lb_per_1000ft2},
        {"3 lb / 1000 ft2", 3 * lb_per_1000ft2},
        {"3 lb/1,000 sq ft", 3 * lb_per_1000ft2},
        {"3 lb per 1000 sq. ft.", 3 * lb_per_1000ft2},
        {"3 pounds per 1,000 square feet", 3 * lb_per_1000ft2},
        {"43.56 lb/acre", 1 * lb_per_1000ft2},
        {"15 g/m2", 0.015},
        {"150 kg/ha", 0.015},
    }));
    CAPTURE(text);
    CHECK_THAT(si_number(read_mass_per_area(text)), WithinRel(si, rounding));
  }
}

TEST_CASE("temperatures, below zero too", "[text]") {
  const auto [text, celsius] = GENERATE(table<std::string, double>({
      {"131 degF", 55.0},
      {"131 F", 55.0},
      {"131F", 55.0},
      {"131 °F", 55.0},
      {"131° F", 55.0},
      {"131 deg F", 55.0},
      {"131 deg. F.", 55.0},
      {"131 degrees F", 55.0},
      {"131 degrees Fahrenheit", 55.0},
      {"131 degree Fahrenheit", 55.0},
      {"55 degC", 55.0},
      {"55°C", 55.0},
      {"55 C", 55.0},
      {"55 Celsius", 55.0},
      {"55 degrees celsius", 55.0},
      {"0 degC", 0.0},
      {"0 degF", -160.0 / 9.0},
      {"-40 degF", -40.0},
      {"-40 degC", -40.0},
      {"−40 °F", -40.0},
      {"–40 °F", -40.0},
      {"- 40 F", -40.0},
      {"-12 1/2 degC", -12.5},
      {"-90 degC", -90.0},
      {"200 degC", 200.0},
  }));
  CAPTURE(text);
  CHECK_THAT(read_temperature(text).celsius(), Catch::WithinAbs(celsius, 3e-13));  // a few roundings near 300 K
}

TEST_CASE("a difference of temperatures has no zero of a scale in it", "[text]") {
  const auto [text, kelvin] = GENERATE(table<std::string, double>({
      {"46 degF", 46.0 / 1.8},
      {"25 degC", 25.0},
      {"0 degF", 0.0},
      {"1/2 °C", 0.5},
      {"10 degrees Fahrenheit", 10.0 / 1.8},
  }));
  CAPTURE(text);
  CHECK_THAT(read_temperature_difference(text).value(), Catch::WithinAbs(kelvin, 3e-13));  // of two points near 300 K
  CHECK_THROWS_AS(read_temperature_difference("-1 degF"), TextError);
  CHECK_THROWS_AS(read_temperature_difference("600 degF"), TextError);
  CHECK_THROWS_AS(read_temperature_difference("46"), TextError);
}

TEST_CASE("carbon to nitrogen is a ratio of two numbers", "[text]") {
  const auto [text, ratio] = GENERATE(table<std::string, double>({
      {"30:1", 30.0},
      {"30 : 1", 30.0},
      {"30∶1", 30.0},
      {"18.75:1", 18.75},
      {"1,000:1", 1000.0},
      {"60:2", 30.0},
      {"1:30", 1.0 / 30.0},
      {"12 1/2:1", 12.5},
  }));
  CAPTURE(text);
  CHECK_THAT(si_number(read_carbon_to_nitrogen(text)), WithinRel(ratio, rounding));
}

TEST_CASE("percentages become fractions of what the reader names", "[text]") {
  const auto [text, fraction] = GENERATE(table<std::string, double>({
      {"55 %", 0.55},
      {"55%", 0.55},
      {"55 percent", 0.55},
      {"55 pct.", 0.55},
      {"2.4 %", 0.024},
      {"½ %", 0.005},
      {"0 %", 0.0},
      {"100 %", 1.0},
  }));
  CAPTURE(text);
  const auto close = WithinRel(fraction, rounding);
  CHECK_THAT(read_percentage(text), close);
  CHECK_THAT(si_number(read_moisture_wet_basis(text)), close);
  CHECK_THAT(si_number(read_carbon_dry_basis(text)), close);
  CHECK_THAT(si_number(read_nitrogen_dry_basis(text)), close);
  CHECK_THAT(si_number(read_organic_dry_basis(text)), close);
  CHECK_THAT(si_number(read_phosphate_dry_basis(text)), close);
  CHECK_THAT(si_number(read_potash_dry_basis(text)), close);
  CHECK_THAT(read_fraction<OfVolume>(text).value(), close);
}

// Refusals: what is wrong, and what would be right.

TEST_CASE("a text without a unit, or without anything, is refused by every reader with an example that it reads", "[text]") {
  const Reader reader = GENERATE(from_range(readers()));
  CAPTURE(reader.name);
  CHECK_THROWS_MATCHES(reader.read(""), TextError, Says("empty", "") || Says("is not a ratio", "30:1"));

  std::string hint;
  try {
    reader.read("5");
  } catch (const TextError& error) {
    hint = error.hint();
  }
  CAPTURE(hint);
  CHECK_FALSE(examples_in(hint).empty());
  for (const std::string& example : examples_in(hint)) {
    CAPTURE(example);
    CHECK_NOTHROW(reader.read(example));
  }
}

TEST_CASE("a unit of another dimension is refused with what it is and what was wanted", "[text]") {
  const auto [wanted, named, example] = GENERATE(table<Dimension, std::string, std::string>({
      {Dimension::length, "a length", "\"4 ft\""},
      {Dimension::area, "an area", "\"5000 ft2\""},
      {Dimension::volume, "a volume", "\"3 1/2 yd3\""},
      {Dimension::mass, "a weight", "\"12 lb\""},
      {Dimension::duration, "a time", "\"14 days\""},
  }));
  for (const UnitName& unit : unit_names()) {
    const bool yards_for_a_volume = wanted == Dimension::volume && unit.symbol == "yd";
    if (unit.dimension == wanted || yards_for_a_volume) continue;
    const std::string text = "5 " + std::string(unit.symbol);
    CAPTURE(text);
    CHECK_THROWS_MATCHES(read_in_si(wanted, text), TextError, Says("not " + named, example));
  }
}

TEST_CASE("a wrong dimension is called by its name", "[text]") {
  CHECK_THROWS_MATCHES(read_volume("5 ft"), TextError, Says("\"5 ft\" is a length, not a volume", "20 gal"));
  CHECK_THROWS_MATCHES(read_length("5 acres"), TextError, Says("\"5 acres\" is an area, not a length", "1.2 m"));
  CHECK_THROWS_MATCHES(read_area("5 gal"), TextError, Says("\"5 gal\" is a volume, not an area", "450 m2"));
  CHECK_THROWS_MATCHES(read_duration("5 lb"), TextError, Says("\"5 lb\" is a weight, not a time", "3 weeks"));
  CHECK_THROWS_MATCHES(read_mass("5 min"), TextError, Says("\"5 min\" is a time, not a weight", "5 kg"));
  CHECK_THROWS_MATCHES(read_length("60 ft 6 lb"), TextError, Says("is a weight, not a length", "4 ft"));
}

TEST_CASE("units that mean several things are refused by name", "[text]") {
  const auto [text, wrong, right] = GENERATE(table<std::string, std::string, std::string>({
      {"5 ton", "is ambiguous", "short_ton (2000 lb) or t (1000 kg)"},
      {"5 tons", "is ambiguous", "short_ton (2000 lb) or t (1000 kg)"},
      {"a ton", "is ambiguous", "short_ton (2000 lb) or t (1000 kg)"},
      {"5 long tons", "long tons", "short_ton (2000 lb) or t (1000 kg)"},
      {"5 imperial gallons", "imperial gallons", "gal for US gallons"},
      {"5 imp. gal", "imperial gallons", "gal for US gallons"},
      {"5 UK gallons", "imperial gallons", "gal for US gallons"},
      {"5 UK gal", "imperial gallons", "gal for US gallons"},
  }));
  CAPTURE(text);
  const Says says(wrong, right);
  CHECK_THROWS_MATCHES(read_mass(text), TextError, says);
  CHECK_THROWS_MATCHES(read_volume(text), TextError, says);
  CHECK_THROWS_MATCHES(read_water(text), TextError, says);
  CHECK_THROWS_MATCHES(read_volume_or_mass(text), TextError, says);
  CHECK_THROWS_MATCHES(read_bulk_density(text + "/yd3"), TextError, says);
}

TEST_CASE("an unknown unit is refused with the nearest known one, or with all of them", "[text]") {
  CHECK_THROWS_MATCHES(read_volume("5 galons"), TextError, Says("unknown unit, \"galons\"", "\"gallon\"?"));
  CHECK_THROWS_MATCHES(read_length("5 incehs"), TextError, Says("unknown unit, \"incehs\"", "\"inches\"?"));
  CHECK_THROWS_MATCHES(read_volume("5 firkins"), TextError, Says("unknown unit, \"firkins\"", "yd3, ft3, gal, bushel, m3, L"));
  CHECK_THROWS_MATCHES(read_mass("5 poundss"), TextError, Says("unknown unit", "\"pound\"?"));
  CHECK_THROWS_MATCHES(read_water("5 wheelbarrows"), TextError, Says("unknown unit, \"wheelbarrows\"", "a volume or a weight"));
  CHECK_THROWS_MATCHES(read_volume_or_mass("24 leaf-bgas", {"leaf-bag", "bucket"}), TextError,
                       Says("unknown unit, \"leaf-bgas\"", "\"leaf-bag\"?"));
}

TEST_CASE("a text with something missing, or too much, is refused", "[text]") {
  const auto [name, text, wrong, right] = GENERATE(table<std::string, std::string, std::string, std::string>({
      {"length", "60 ft 6", "has no unit", "\"4 ft\""},
      {"length", "60 ft -6 in", "unknown unit", ""},
      {"volume", "10-12 yd3", "unknown unit", ""},
      {"bulk density", "350", "has no unit", "350 lb/yd3"},
      {"bulk density", "350 lb", "is not a weight over a volume", "350 lb/yd3"},
      {"bulk density", "350 lb/ft2", "is an area, not a volume", "yd3"},
      {"bulk density", "350 yd3/lb", "is a volume, not a weight", "12 lb"},
      {"bulk density", "350 lb/", "has no unit", "yd3"},
      {"bulk density", "350 /yd3", "has no unit", "12 lb"},
      {"bulk density", "350 lb/0 yd3", "divides by nothing", "350 lb/yd3"},
      {"bulk density", "-350 lb/yd3", "is negative", "zero or more"},
      {"bulk density", "3 lb/yd3 2 lb/yd3", "is more than one number", "350 lb/yd3"},
      {"particle density", "1400 kg", "is not a weight over a volume", "1400 kg/m3"},
      {"mass per area", "3 lb", "is not a weight over an area", "3 lb/1000ft2"},
      {"mass per area", "3 lb/yd3", "is a volume, not an area", "5000 ft2"},
      {"mass per area", "1e12 lb/1e-300ft2", "is beyond what this tool works with", "3 lb/1000ft2"},
      {"duration", "1e12 weeks", "is beyond what this tool works with", "3 weeks"},
      {"temperature", "131", "has no unit", "\"131 degF\" or \"55 degC\""},
      {"temperature", "131 degrees", "is not a temperature", "131 degF"},
      {"temperature", "131 ft", "is not a temperature", "131 degF"},
      {"temperature", "328 K", "is not a temperature", "55 degC"},
      {"temperature", "55 degC 3 degF", "is more than one number", "55 degC"},
      {"temperature", "--5 degC", "is negative", ""},
      {"temperature", "201 degC", "is not a temperature of air or compost", "55 degC"},
      {"temperature", "-91 degC", "is not a temperature of air or compost", "55 degC"},
      {"carbon to nitrogen", "30", "is not a ratio", "30:1"},
      {"carbon to nitrogen", "30:", "does not begin with a number", ""},
      {"carbon to nitrogen", "30:1:1", "is not a ratio", "30:1"},
      {"carbon to nitrogen", "30:1 kg", "is not a ratio", "30:1"},
      {"carbon to nitrogen", "30:0", "is not a ratio of two numbers above zero", "30:1"},
      {"carbon to nitrogen", "0:1", "is not a ratio of two numbers above zero", "30:1"},
      {"carbon to nitrogen", "1e-300:1e7", "is not a ratio of two numbers above zero", "30:1"},
      {"carbon to nitrogen", "-30:1", "is negative", "zero or more"},
      {"percentage", "0.55", "has no unit", "\"55 %\""},
      {"percentage", "55 lb", "is not a percentage", "\"55 %\""},
      {"percentage", "162 %", "is outside 0–100 %", "between 0 and 100"},
      {"percentage", "-5 %", "is negative", "zero or more"},
      {"percentage", "50 % 5 %", "is more than one number", "\"55 %\""},
  }));
  const auto reader = std::find_if(readers().begin(), readers().end(), [&, wanted = name](const Reader& r) { return r.name == wanted; });
  REQUIRE(reader != readers().end());
  CAPTURE(name, text);
  CHECK_THROWS_MATCHES(reader->read(text), TextError, Says(wrong, right));
}

// Counted containers and names.

TEST_CASE("a count and the words behind it", "[text]") {
  const auto [text, number, words] = GENERATE(table<std::string, double, std::string>({
      {"24 leaf-bag", 24.0, "leaf-bag"},
      {"24 Leaf Bags", 24.0, "leaf bags"},
      {"1 1/2 bucket", 1.5, "bucket"},
      {"half a bucket", 0.5, "bucket"},
      {"a bucket", 1.0, "bucket"},
      {"0 leaf-bag", 0.0, "leaf-bag"},
      {"3 5 gal buckets", 3.0, "5 gal buckets"},
      {"24 leaf-bag 2 bucket", 24.0, "leaf-bag 2 bucket"},
      {" 24 leaf-bag, ", 24.0, "leaf-bag"},
      {"24", 24.0, ""},
  }));
  CAPTURE(text);
  const CountedWords counted = read_counted_words(text);
  CHECK(counted.number == number);
  CHECK(counted.words == words);
}

TEST_CASE("a count is a number like any other", "[text]") {
  CHECK_THROWS_MATCHES(read_counted_words(" "), TextError, Says("is empty", "a number"));
  CHECK_THROWS_MATCHES(read_counted_words("leaf-bag"), TextError, Says("does not begin with a number", "a number"));
  CHECK_THROWS_MATCHES(read_counted_words("-3 leaf-bag"), TextError, Says("is negative", "zero or more"));
  CHECK_THROWS_MATCHES(read_counted_words("1e12/1e-300 leaf-bag"), TextError, Says("is beyond", "a million million"));
}

TEST_CASE("names are compared without case, separators and plural", "[text]") {
  const auto [name, plain] = GENERATE(table<std::string, std::string>({
      {"leaf-bag", "leafbag"},
      {"Leaf Bags", "leafbag"},
      {"leaf_bag.", "leafbag"},
      {"grass", "grass"},
      {"½-bushel baskets", "1/2bushelbasket"},
      {"gas", "gas"},
      {"bags", "bag"},
      {"boxes", "box"},
      {"", ""},
  }));
  CHECK(plain_name(name) == plain);
}

TEST_CASE("an x is between two sides with and without spaces", "[text]") {
  for (const char* text : {"3x4 ft", "3 x 4 ft", "3x 4 ft", "3 x4 ft", "3 by 4 ft"}) {
    CAPTURE(text);
    const std::vector<std::string> sides = sides_in(text);
    REQUIRE(sides.size() == 2);
    CHECK(read_length(sides[0]).value() == Approx(3.0 * 0.3048));
    CHECK(read_length(sides[1]).value() == Approx(4.0 * 0.3048));
  }
  CHECK(sides_in("3 xl bags").size() == 1);
}

// Printing.

TEST_CASE("numbers are printed to so many digits, without exponents or trailing zeros", "[text][print]") {
  const auto [value, digits, text] = GENERATE(table<double, int, std::string>({
      {0.0, 3, "0"},
      {-0.0, 3, "0"},
      {1.0, 6, "1"},
      {99.96, 3, "100"},
      {99.94, 3, "99.9"},
      {9.996, 3, "10"},
      {0.7716, 3, "0.772"},
      {1234.5678, 6, "1234.57"},
      {1e6, 3, "1000000"},
      {1234567.0, 3, "1230000"},
      {1234567.0, 7, "1234567"},
      {999600.0, 3, "1000000"},
      {0.000123, 3, "0.000123"},
      {0.000123, 2, "0.00012"},
      {1e-13, 3, "0.0000000000001"},
      {-2.5, 2, "-2.5"},
      {-0.0004, 1, "-0.0004"},
      {-1234567.0, 2, "-1200000"},
      {1e-20, 3, "0"},
      {-1e-20, 3, "0"},
  }));
  CAPTURE(value, digits);
  CHECK(print_number(value, digits) == text);
}

TEST_CASE("what is not finite is not printed", "[text][print]") {
  const double value =
      GENERATE(std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity(), std::numeric_limits<double>::quiet_NaN());
  CHECK_THROWS_AS(print_number(value, 3), DomainError);
}

TEST_CASE("a quantity is printed in a unit of its own dimension only", "[text][print]") {
  CHECK(print_in(1.0 * unit::m3, "yd3", 3) == "1.31 yd3");
  CHECK(print_in(0.0 * unit::kg, "lb", 3) == "0 lb");
  CHECK_THROWS_MATCHES(print_in(1.0 * unit::m, "yd3", 3), TextError, Says("\"yd3\" is not a unit of a length", "ft, in, yd"));
  CHECK_THROWS_MATCHES(print_in(1.0 * unit::m3, "yd", 3), TextError, Says("\"yd\" is not a unit of a volume", "yd3, ft3"));
}

TEST_CASE("text to quantity to text is the same text in every unit", "[text][print]") {
  const double magnitude = GENERATE(take(100, random(-4.0, 6.0)));
  const std::string number = print_number(std::pow(10.0, magnitude), 12);
  for (const UnitName& unit : unit_names()) {
    const std::string text = number + " " + std::string(unit.symbol);
    CAPTURE(text);
    CHECK(reprinted(unit, text, 12) == text);
  }
}

TEST_CASE("a rounded print read again gives the same print", "[text][print]") {
  const std::string number = GENERATE("0", "1/3", "2/3", "99.96", "999.5", "0.000123", "1234567", "3 1/2", "0.45359237");
  const int digits = GENERATE(1, 2, 3, 6);
  for (const UnitName& unit : unit_names()) {
    const std::string once = reprinted(unit, number + " " + std::string(unit.symbol), digits);
    CAPTURE(number, digits, once);
    CHECK(reprinted(unit, once, digits) == once);
  }
}

// The locale.

namespace {

struct CommaForPoint : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

/// Sets the locale of C and C++ streams back where it was.
class LocaleKept {
 public:
  LocaleKept() = default;
  LocaleKept(const LocaleKept&) = delete;
  LocaleKept& operator=(const LocaleKept&) = delete;
  ~LocaleKept() {
    std::locale::global(cpp_);
    std::setlocale(LC_ALL, c_.c_str());
  }

 private:
  std::string c_ = std::setlocale(LC_ALL, nullptr);
  std::locale cpp_;
};

/// Read and printed again: everything that a locale could spoil.
std::vector<std::string> samples() {
  return {
      print_in(read_volume("1,234.5 yd3"), "yd3", 6),
      print_in(read_volume("1234567.25 L"), "L", 9),
      print_in(read_length("12 INCHES"), "in", 6),
      print_in(read_duration("1.5 MINUTES"), "min", 6),
      print_number(si_number(read_water("0.5 L")), 3),
      print_number(si_number(read_bulk_density("350.5 lb/yd3")), 9),
      print_number(si_number(read_carbon_to_nitrogen("18.75:1")), 6),
      print_number(read_temperature("-12.5 °C").celsius(), 6),
      print_number(read_percentage("2.4 %"), 6),
      print_number(1234567.891, 10),
      plain_name("BIN-ID"),
  };
}

}  // namespace

TEST_CASE("the streams' locale does not matter", "[text][locale]") {
  const std::vector<std::string> expected{"1234.5 yd3", "1234567.25 L", "12 in", "1.5 min",     "0.5",  "207.943386",
                                          "18.75",      "-12.5",        "0.024", "1234567.891", "binid"};
  CHECK(samples() == expected);

  const LocaleKept kept;
  std::locale::global(std::locale(std::locale::classic(), new CommaForPoint));
  CHECK(samples() == expected);
  CHECK_THROWS_AS(read_volume("2,5 yd3"), TextError);
}

TEST_CASE("the program's locale does not matter", "[text][locale]") {
  const std::vector<std::string> expected = samples();

  // German has a decimal comma; Turkish has no i for an I. Only locales that are installed can be tried.
  const char* name = GENERATE("C.UTF-8", "de_DE.UTF-8", "tr_TR.UTF-8");
  const LocaleKept kept;
  if (std::setlocale(LC_ALL, name) == nullptr) {
    WARN(name << " is not installed");
    return;
  }
  CHECK(samples() == expected);
  CHECK_THROWS_AS(read_volume("2,5 yd3"), TextError);
}
