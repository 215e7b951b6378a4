// Every unit that the library reads, against GNU units (https://www.gnu.org/software/units/), a table of units that others keep.
#include <catch2/catch.hpp>

#include <cstdio>
#include <map>
#include <memory>
#include <sstream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/units/text.hpp"

using namespace heapwright;

namespace {

// Both tables are exact; 1e-9 is far above the rounding of doubles and far below any other unit of the
// same name (a survey foot is 2e-6 longer).
const double tolerance = 1e-9;

using Unit = std::pair<Dimension, std::string_view>;

/// How GNU units calls each unit of ours.
const std::map<Unit, std::string>& gnu_names() {
  using enum Dimension;
  static const std::map<Unit, std::string> names{
      {{length, "ft"}, "foot"},       {{length, "in"}, "inch"},       {{length, "yd"}, "yard"},         {{length, "m"}, "meter"},
      {{length, "cm"}, "centimeter"}, {{length, "mm"}, "millimeter"}, {{area, "ft2"}, "foot^2"},        {{area, "yd2"}, "yard^2"},
      {{area, "acre"}, "intacre"},    {{area, "m2"}, "meter^2"},      {{area, "ha"}, "hectare"},        {{volume, "yd3"}, "yard^3"},
      {{volume, "ft3"}, "foot^3"},    {{volume, "gal"}, "usgallon"},  {{volume, "bushel"}, "usbushel"}, {{volume, "m3"}, "meter^3"},
      {{volume, "L"}, "liter"},       {{mass, "lb"}, "pound"},        {{mass, "oz"}, "ounce"},          {{mass, "short_ton"}, "shortton"},
      {{mass, "kg"}, "kilogram"},     {{mass, "g"}, "gram"},          {{mass, "t"}, "tonne"},           {{duration, "days"}, "day"},
      {{duration, "weeks"}, "week"},  {{duration, "h"}, "hour"},      {{duration, "min"}, "minute"},
  };
  return names;
}

/// A unit without a name there is an unaccounted row, and that is an error.
const std::string& gnu_name(const UnitName& unit) {
  const auto found = gnu_names().find({unit.dimension, unit.symbol});
  if (found == gnu_names().end()) FAIL("no GNU units expression for \"" << unit.symbol << "\"");
  return found->second;
}

std::string si_unit(Dimension dimension) {
  switch (dimension) {
    case Dimension::length: return "m";
    case Dimension::area: return "m^2";
    case Dimension::volume: return "m^3";
    case Dimension::mass: return "kg";
    case Dimension::duration: return "s";
  }
  FAIL("a dimension that this test does not know");
  return {};
}

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

/// One text, what the library makes of it, and the same put to GNU units: so many `wanted` in `expression`.
struct Row {
  std::string text;
  double ours;
  std::string expression;
  std::string wanted;
};

/// The answers of one run of the program, a line each.
std::vector<std::string> ask_gnu_units(const std::vector<Row>& rows) {
  std::string command = "LC_ALL=C UNITS_ENGLISH=US units --terse --output-format '%.15g' 2>&1 <<'END'\n";
  for (const Row& row : rows) command += row.expression + "\n" + row.wanted + "\n";
  command += "END\n";

  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  REQUIRE(pipe);
  std::string output;
  for (int c = std::fgetc(pipe.get()); c != EOF; c = std::fgetc(pipe.get())) output += static_cast<char>(c);

  std::vector<std::string> answers;
  std::istringstream lines(output);
  for (std::string line; std::getline(lines, line);) answers.push_back(line);
  return answers;
}

void check(const std::vector<Row>& rows) {
  const std::vector<std::string> answers = ask_gnu_units(rows);
  if (answers.size() != rows.size())
    FAIL(rows.size() << " questions and " << answers.size() << " answers, the first: " << (answers.empty() ? "" : answers.front()));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(rows[i].text, rows[i].expression, rows[i].wanted, answers[i]);
    std::istringstream answer(answers[i]);
    double theirs = 0.0;
    REQUIRE(answer >> theirs);
    REQUIRE(answer.eof());
    CHECK_THAT(rows[i].ours, Catch::WithinRel(theirs, tolerance));
  }
}

/// Every unit of mass over every unit of another dimension: "7 lb/yd3".
template <class Read>
std::vector<Row> masses_per(Dimension below, const std::string& count, Read read) {
  std::vector<Row> rows;
  for (const UnitName& mass : unit_names()) {
    if (mass.dimension != Dimension::mass) continue;
    for (const UnitName& other : unit_names()) {
      if (other.dimension != below) continue;
      const std::string text = "7 " + std::string(mass.symbol) + "/" + count + std::string(other.symbol);
      const std::string expression = "7 " + gnu_name(mass) + " / (" + (count.empty() ? "1" : count) + " " + gnu_name(other) + ")";
      rows.push_back({text, si_number(read(text)), expression, "kg/" + si_unit(below)});
    }
  }
  return rows;
}

}  // namespace

TEST_CASE("each unit in each of its spellings is GNU units' own", "[reference]") {
  std::vector<Row> rows;
  for (const UnitName& unit : unit_names()) {
    const auto add = [&](std::string_view spelling) {
      const std::string text = "7.25 " + std::string(spelling);
      rows.push_back({text, read_in_si(unit.dimension, text), "7.25 " + gnu_name(unit), si_unit(unit.dimension)});
    };
    add(unit.symbol);
    for (const std::string_view spelling : unit.spellings) add(spelling);
  }
  check(rows);
}

TEST_CASE("this table has no unit that the library has not", "[reference]") { CHECK(gnu_names().size() == unit_names().size()); }

TEST_CASE("each weight per volume and per area is GNU units' own", "[reference]") {
  check(masses_per(Dimension::volume, "", read_bulk_density));
  check(masses_per(Dimension::volume, "", read_particle_density));
  check(masses_per(Dimension::area, "", read_mass_per_area));
  check(masses_per(Dimension::area, "1000", read_mass_per_area));
}

TEST_CASE("compounds in words are GNU units' own", "[reference]") {
  check({
      {"350 pounds per cubic yard", si_number(read_bulk_density("350 pounds per cubic yard")), "350 pound / yard^3", "kg/m^3"},
      {"3 lbs per 1,000 sq ft", si_number(read_mass_per_area("3 lbs per 1,000 sq ft")), "3 pound / (1000 foot^2)", "kg/m^2"},
      {"60 ft 6 1/2 in", si_number(read_length("60 ft 6 1/2 in")), "60 foot + 6.5 inch", "m"},
      {"half an acre", si_number(read_area("half an acre")), "0.5 intacre", "m^2"},
      {"3 1/2 yards", si_number(read_volume("3 1/2 yards")), "3.5 yard^3", "m^3"},
      {"5 gal of water", si_number(read_water("5 gal")), "5 usgallon 1000 kg/m^3", "kg"},
      {"55 %", read_percentage("55 %"), "55 percent", "1"},
      {"1/4 in on 1000 ft2", si_number(read_length("1/4 in") * read_area("1000 ft2")), "1|4 inch 1000 foot^2", "m^3"},
  });
}

TEST_CASE("temperatures are GNU units' own", "[reference]") {
  std::vector<Row> rows;
  for (const std::string& degrees : std::vector<std::string>{"-90", "-40", "-17.5", "0", "32", "98.6", "131", "170"}) {
    rows.push_back({degrees + " degF", read_temperature(degrees + " degF").kelvin(), "tempF(" + degrees + ")", "K"});
    rows.push_back({degrees + " degC", read_temperature(degrees + " degC").kelvin(), "tempC(" + degrees + ")", "K"});
  }
  check(rows);
}
