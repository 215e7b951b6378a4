#pragma once
/// What a maturity test measures, and its values: text to quantity and back.

#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// Microbes of a mass of compost as the laboratory took it, by their most probable number.
using MicrobeCount = decltype(1.0 / unit::gram);

/// A plain number is a pH, a ratio of like things, or a share of a control, which may be more than one.
using TestValue =
    std::variant<double, TemperatureDifference, CarbonNitrogenRatio, RespirationRate, OxygenUptakeRate, OxygenUptakeRateInWater,
                 NitrogenDryBasis, CarbonDryBasis, OrganicMatterDryBasis, MoistureWetBasis, ElectricConductivity, Length, MicrobeCount>;

/// What is measured, and with it the units that a value may have. Values compare only where they are of one type: oxygen taken up in
/// water never compares with oxygen taken up in the pile.
enum class TestQuantity {
  temperature_rise,       ///< "12 degC", "22 degF": a difference
  carbon_to_nitrogen,     ///< "18:1"
  carbon_dioxide,         ///< "7 mgC/gOM/day", "16 mgCO2/gOM/day"
  oxygen,                 ///< "12 mmolO2/kgOM/h", "400 mgO2/kgOM/h", by a moist sample
  oxygen_in_water,        ///< "0.9 mgO2/gOM/h", by one stirred in water
  nitrogen_ratio,         ///< "0.3", of ammonium nitrogen to nitrate nitrogen
  ammonium_content,       ///< "300 mg/kg", "0.03 %", nitrogen of dry matter
  nitrogen_content,       ///< "1.2 %", of dry matter
  acid_content,           ///< "200 mg/kg", of dry matter
  carbon_content,         ///< "0.5 %", of dry matter
  organic_matter,         ///< "40 %", of dry matter
  moisture,               ///< "45 %", wet basis
  share_of_control,       ///< "95 %", may be above 100 %
  ph,                     ///< "7.4"
  electric_conductivity,  ///< "2.1 dS/m"
  size,                   ///< "3/8 in"
  microbe_count,          ///< "388 MPN/g", "3 MPN/4g"
};

/// Each with its word in criteria.toml.
const std::vector<std::pair<std::string, TestQuantity>>& measured_words();

/// @throws TextError for a text that is no number with one of its units, and for a value that no compost has
TestValue read_test_value(TestQuantity measured, std::string_view text);
/// @param text what the value was read from @throws TextError for a value that no compost has
void check_test_value(TestQuantity measured, const TestValue& value, std::string_view text);

/// A unit as units are compared: in lower case, without spaces, with a stroke for "per".
std::string plain_unit(std::string_view unit);
/// A plain unit without what says that it is of dry matter: "mg/kg dry weight" is "mg/kg".
std::string without_dry_basis(std::string_view plain_unit);
/// A count in a plain unit of most probable numbers, of dry matter or of nothing in particular; nothing for other units.
std::optional<MicrobeCount> microbe_count(double number, std::string_view plain_unit);

/// A value as a number in the unit that laboratories tell it in; shares from 0 to 1 and other plain numbers have the unit "1".
struct ValueInUnit {
  double number;
  std::string_view unit;
};
ValueInUnit in_usual_unit(TestQuantity measured, const TestValue& value);

/// How two values of one type lie to each other, those within rounding of their units being equal; unordered where the types differ.
std::partial_ordering compare(const TestValue& a, const TestValue& b);

/// Molecules of CO2 given off for each of O2 taken up, as where sugars burn; common practice, no source.
inline constexpr double respiratory_quotient = 1.0;
/// kg C/(kg OM s) = mol O2/(kg OM s) × quotient × 0.012011 kg C/mol, and back: 1 mmol O2/kg OM/h is 0.288 mg CO2-C/g OM/day. Any finite
/// rate; both sides per dry organic matter. The uptake is of moist compost in air: that of a slurry in water does not convert.
RespirationRate to_respiration(OxygenUptakeRate uptake);
OxygenUptakeRate to_oxygen_uptake(RespirationRate respiration);

}  // namespace heapwright
