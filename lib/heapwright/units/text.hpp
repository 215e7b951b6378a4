#pragma once
/// Text to quantity: "3 1/2 yd3", "1/4 in", "55 %", "30:1", "131 degF", as people write them.
///
/// Every dimensional text names its unit; a bare number is refused with what was expected. Plurals, spaces,
/// hyphens and points in unit names, "sq ft", "cu yd", `'` and `"`, halves and quarters in words and signs, thousands
/// commas and sums such as "60 ft 6 in" are read. Zero is an amount; a negative number is refused,
/// and so are nan, inf, "ton" (short or metric?) and imperial gallons. Nothing depends on the locale.
/// All readers throw TextError with what is wrong and what would be right.

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "heapwright/units/fraction.hpp"
#include "heapwright/units/quantities.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// What units there are of in unit_names().
enum class Dimension { length, area, volume, mass, duration };

/// A unit that the tool reads and prints: its symbol, its size in SI and its other spellings
/// (lower case, singular, without spaces, hyphens and points).
struct UnitName {
  std::string_view symbol;
  Dimension dimension;
  double si;
  std::vector<std::string_view> spellings;
};

/// All units, each dimension in the order in which errors list them.
const std::vector<UnitName>& unit_names();

/// A quantity in any unit of its dimension, from 0. @throws TextError
Length read_length(std::string_view text);
/// "60 ft by 30 ft", "3 x 3 x 3 ft": its sides, each with its unit, the last one's where it has none; all of the text where it has no
/// sides.
std::vector<std::string> sides_in(std::string_view text);
Area read_area(std::string_view text);
Volume read_volume(std::string_view text);  ///< "yards" are cubic yards here
Mass read_mass(std::string_view text);
Duration read_duration(std::string_view text);
WaterMass read_water(std::string_view text);  ///< a mass, or a volume at 1000 kg/m³

/// A volume or a mass, whichever its unit says.
/// @param also_known names that could stand in the unit's place too, for the hint at an unknown one
std::variant<Volume, Mass> read_volume_or_mass(std::string_view text, const std::vector<std::string>& also_known = {});

/// Whether a text is a number of units of a dimension, or a sum of such. @throws TextError for a number that is none: "1/0 ft"
bool is_quantity(std::string_view text, Dimension dimension);

/// Likewise, a measure over another. @throws TextError
BulkDensity read_bulk_density(std::string_view text);          ///< "350 lb/yd3", "475 kg/m3"
ParticleDensity read_particle_density(std::string_view text);  ///< "1400 kg/m3", of dry solids
MassPerArea read_mass_per_area(std::string_view text);         ///< "3 lb/1000ft2"

TemperaturePoint read_temperature(std::string_view text);  ///< "131 degF", "55 degC"; may be below zero
/// "degF", "°C", "degrees Fahrenheit"; nothing for other words.
std::optional<TemperatureScale> temperature_scale(std::string_view words);
/// How far two temperatures lie apart: "46 degF" is 46 steps of that scale, with no zero of its own; zero or more.
TemperatureDifference read_temperature_difference(std::string_view text);

CarbonNitrogenRatio read_carbon_to_nitrogen(std::string_view text);  ///< "30:1"

/// A percentage between 0 and 100 as a fraction. @throws TextError for bare numbers and outside the range
double read_percentage(std::string_view text);

/// A percentage of the basis that the name says, as read_percentage() has it. @throws TextError
MoistureWetBasis read_moisture_wet_basis(std::string_view text);
CarbonDryBasis read_carbon_dry_basis(std::string_view text);
NitrogenDryBasis read_nitrogen_dry_basis(std::string_view text);
OrganicMatterDryBasis read_organic_dry_basis(std::string_view text);
PhosphateDryBasis read_phosphate_dry_basis(std::string_view text);
PotashDryBasis read_potash_dry_basis(std::string_view text);

/// A share as a percentage, "38 %". @throws TextError
template <class Basis>
Fraction<Basis> read_fraction(std::string_view text) {
  return Fraction<Basis>::of(read_percentage(text));
}

/// A number whose unit stands elsewhere, as in a column with its unit at the head: "-12.5". May be below zero.
double read_number(std::string_view text);

/// The first number of a text and the words behind it: "24 leaf-bag" is {24, "leaf-bag"}; for amounts in named containers.
struct CountedWords {
  double number;
  std::string words;
};
CountedWords read_counted_words(std::string_view text);
/// The same, and nothing where the text does not begin with a number.
std::optional<CountedWords> counted_words(std::string_view text);

/// The same form for comparing names: lower case, without spaces, hyphens, points and underscores, and singular.
std::string plain_name(std::string_view name);

/// A number as a person wants to read it: so many significant digits, no exponent, no trailing zeros. @throws DomainError for nan and inf
std::string print_number(double value, int significant_digits);

/// A share as a percentage, "38 %": of a fraction, or of a mass in a mass.
std::string print_percent(double share, int significant_digits);
/// The same of a quantity that is a mass in a mass.
template <class Unit>
std::string print_percent(const boost::units::quantity<Unit, double>& share, int significant_digits) {
  return print_percent(si_number(share), significant_digits);
}
/// "30:1".
std::string print_ratio(CarbonNitrogenRatio ratio, int significant_digits);
/// "475 kg/m3".
std::string print_density(BulkDensity density, int significant_digits);

/// A quantity as text in one of unit_names() of its dimension: print_in(v, "yd3", 3) is "0.772 yd3".
/// @throws TextError where the unit is not one of that dimension
std::string print_in(Length value, std::string_view symbol, int significant_digits);
std::string print_in(Area value, std::string_view symbol, int significant_digits);
std::string print_in(Volume value, std::string_view symbol, int significant_digits);
std::string print_in(Mass value, std::string_view symbol, int significant_digits);
std::string print_in(Duration value, std::string_view symbol, int significant_digits);

}  // namespace heapwright
