#include "heapwright/maturity/test_value.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double milli = 1e-3;
constexpr double hour = 3600.0;
constexpr double day = 24.0 * hour;
constexpr double carbon_kg_per_mol = 0.012011;
constexpr double carbon_dioxide_kg_per_mol = 0.044009;
constexpr double oxygen_kg_per_mol = 0.031998;

[[noreturn]] void refuse(std::string_view text, std::string_view why, std::string_view hint) {
  throw TextError("\"" + std::string(text) + "\" " + std::string(why), "write " + std::string(hint));
}

std::string_view example(TestQuantity measured) {
  switch (measured) {
    case TestQuantity::temperature_rise: return "how far it warms up above the air: \"12 degC\" or \"22 degF\"";
    case TestQuantity::carbon_to_nitrogen: return "\"18:1\"";
    case TestQuantity::carbon_dioxide: return "CO2 given off: \"7 mgC/gOM/day\" or \"16 mgCO2/gOM/day\"";
    case TestQuantity::oxygen: return "oxygen taken up: \"12 mmolO2/kgOM/h\", or name the test oxygen-uptake-in-water";
    case TestQuantity::oxygen_in_water: return "oxygen taken up in water: \"0.9 mgO2/gOM/h\"";
    case TestQuantity::nitrogen_ratio: return "ammonium nitrogen over nitrate nitrogen as a plain number: \"0.3\"";
    case TestQuantity::ammonium_content: return "\"300 mg/kg\" or \"0.03 %\", of dry matter";
    case TestQuantity::nitrogen_content: return "\"1.2 %\", of dry matter";
    case TestQuantity::acid_content: return "\"300 mg/kg\" or \"0.03 %\", of dry matter";
    case TestQuantity::carbon_content: return "\"0.5 %\" or \"5000 mg/kg\", of dry matter";
    case TestQuantity::organic_matter: return "\"40 %\", of dry matter";
    case TestQuantity::moisture: return "\"45 %\", of the compost as it is";
    case TestQuantity::share_of_control: return "\"95 %\", of the control";
    case TestQuantity::ph: return "a plain number: \"7.4\"";
    case TestQuantity::electric_conductivity: return "\"2.1 dS/m\"";
    case TestQuantity::size: return "the screen it passes: \"3/8 in\" or \"10 mm\"";
    case TestQuantity::microbe_count: return "\"388 MPN/g\" or \"3 MPN/4g\"";
  }
  return {};
}

/// The text of a number and its unit. The unit has no spaces, hyphens and capitals left.
CountedWords number_and_unit(std::string_view text) {
  const CountedWords words = read_counted_words(text);
  return {words.number, plain_unit(words.words)};
}

std::optional<std::pair<double, std::string_view>> begins_with(std::string_view words,
                                                               const std::vector<std::pair<std::string_view, double>>& units) {
  for (const auto& [unit, size] : units) {
    if (words.starts_with(unit)) return std::pair{size, words.substr(unit.size())};
  }
  return std::nullopt;
}

enum class Gas { carbon, carbon_dioxide, oxygen };

/// "mgC/gOM/day" in its three parts.
struct RateUnit {
  Gas gas;
  bool in_moles;
  bool per_gram;  ///< of organic matter, not per kilogram
  double si;      ///< kg or mol of the gas per kg organic matter and second
};

std::optional<std::array<std::string_view, 3>> three_parts(std::string_view unit) {
  const std::size_t first = unit.find('/');
  const std::size_t second = unit.find('/', first == std::string_view::npos ? first : first + 1);
  if (second == std::string_view::npos || unit.find('/', second + 1) != std::string_view::npos) return std::nullopt;
  return std::array{unit.substr(0, first), unit.substr(first + 1, second - first - 1), unit.substr(second + 1)};
}

std::optional<Gas> gas_named(std::string_view name) {
  if (name == "c" || name == "co2c" || name == "cco2") return Gas::carbon;
  if (name == "co2") return Gas::carbon_dioxide;
  if (name == "o2") return Gas::oxygen;
  return std::nullopt;
}

std::optional<double> time_named(std::string_view name) {
  if (name == "d" || name == "day") return day;
  if (name == "h" || name == "hr" || name == "hour") return hour;
  return std::nullopt;
}

std::optional<RateUnit> rate_unit(std::string_view unit) {
  const auto parts = three_parts(unit);
  if (!parts) return std::nullopt;
  const auto amount = begins_with((*parts)[0], {{"mmol", milli}, {"mol", 1.0}, {"mg", milli * milli}, {"g", milli}});
  const auto matter = begins_with((*parts)[1], {{"kg", 1.0}, {"g", milli}});
  const std::optional<double> time = time_named((*parts)[2]);
  if (!amount || !matter || !time) return std::nullopt;
  const std::optional<Gas> gas = gas_named(amount->second);
  const bool of_organic_matter = matter->second == "om" || matter->second == "vs" || matter->second == "organicmatter";
  if (!gas || !of_organic_matter) return std::nullopt;
  return RateUnit{*gas, (*parts)[0].find("mol") != std::string_view::npos, matter->first < 1.0, amount->first / matter->first / *time};
}

double moles_per_unit(const RateUnit& unit) {
  if (unit.in_moles) return 1.0;
  switch (unit.gas) {
    case Gas::carbon: return 1.0 / carbon_kg_per_mol;
    case Gas::carbon_dioxide: return 1.0 / carbon_dioxide_kg_per_mol;
    case Gas::oxygen: return 1.0 / oxygen_kg_per_mol;
  }
  return 0.0;
}

TestValue read_rate(TestQuantity measured, std::string_view text) {
  const CountedWords words = number_and_unit(text);
  const std::optional<RateUnit> unit = rate_unit(words.words);
  if (!unit) refuse(text, words.words.empty() ? "has no unit" : "is not a rate of breathing of organic matter", example(measured));
  const bool oxygen = unit->gas == Gas::oxygen;
  if (oxygen && measured == TestQuantity::carbon_dioxide)
    throw TextError("\"" + std::string(text) + "\" is oxygen taken up, not CO2 given off",
                    "name the test oxygen-uptake, or write " + std::string(example(measured)));
  if (!oxygen && measured != TestQuantity::carbon_dioxide)
    throw TextError("\"" + std::string(text) + "\" is CO2 given off, not oxygen taken up",
                    "name the test co2-respiration, or write " + std::string(example(measured)));
  // Laboratories tell what was stirred in water by the gram, what was not by the kilogram: the other way round may be the other test.
  if (measured == TestQuantity::oxygen && !unit->in_moles && unit->per_gram)
    throw TextError("\"" + std::string(text) + "\" may be of a sample stirred in water, which is another test",
                    "name the test oxygen-uptake-in-water, or write it in mmolO2/kgOM/h or mgO2/kgOM/h");
  if (measured == TestQuantity::oxygen_in_water)
    return from_si<OxygenUptakeRateInWater>(words.number * unit->si * (unit->in_moles ? oxygen_kg_per_mol : 1.0));
  const double moles = words.number * unit->si * moles_per_unit(*unit);
  if (oxygen) return from_si<OxygenUptakeRate>(moles);
  return from_si<RespirationRate>(moles * carbon_kg_per_mol);
}

bool is_percent(std::string_view unit) { return unit == "%" || unit == "percent" || unit == "pct"; }

/// A share of dry matter in percent, mg/kg, ppm or g/kg.
double read_content(TestQuantity measured, std::string_view text) {
  const auto [number, told_unit] = number_and_unit(text);
  const CountedWords words{number, without_dry_basis(told_unit)};
  if (is_percent(words.words)) return words.number / 100.0;
  if (words.words == "mg/kg" || words.words == "ppm") return words.number * milli * milli;
  if (words.words == "g/kg") return words.number * milli;
  refuse(text, words.words.empty() ? "has no unit: a share is given in percent, or in mg/kg" : "is not a share of dry matter",
         example(measured));
}

double read_plain(TestQuantity measured, std::string_view text) {
  const CountedWords words = number_and_unit(text);
  const bool to_one = measured == TestQuantity::nitrogen_ratio && words.words == ":1";
  const bool named = measured == TestQuantity::ph && words.words == "ph";
  if (!words.words.empty() && !to_one && !named) refuse(text, "is not a plain number", example(measured));
  return words.number;
}

MicrobeCount read_microbe_count(std::string_view text) {
  const CountedWords words = number_and_unit(text);
  if (const auto count = microbe_count(words.number, words.words)) return *count;
  refuse(text, words.words.empty() ? "has no unit" : "is not a most probable number of microbes", example(TestQuantity::microbe_count));
}

double read_share_of_control(std::string_view text) {
  const CountedWords words = number_and_unit(text);
  if (!is_percent(words.words))
    refuse(text, words.words.empty() ? "has no unit" : "is not a percentage", example(TestQuantity::share_of_control));
  return words.number / 100.0;
}

constexpr double siemens_per_m_in_decisiemens = 0.1;

ElectricConductivity read_conductivity(std::string_view text) {
  const CountedWords words = number_and_unit(text);
  const std::vector<std::pair<std::string_view, double>> units{{"ds/m", 1.0},  {"ms/cm", 1.0},   {"mmho/cm", 1.0}, {"mmhos/cm", 1.0},
                                                               {"ms/m", 0.01}, {"us/cm", 0.001}, {"µs/cm", 0.001}, {"s/m", 10.0}};
  for (const auto& [unit, decisiemens] : units) {
    if (words.words == unit) return words.number * decisiemens * siemens_per_m_in_decisiemens * unit::siemens_per_m;
  }
  refuse(text, words.words.empty() ? "has no unit" : "is not an electric conductivity", example(TestQuantity::electric_conductivity));
}

TemperatureDifference read_rise(std::string_view text) {
  try {
    return read_temperature_difference(text);
  } catch (const TextError& error) {
    throw TextError(error.what(), "write " + std::string(example(TestQuantity::temperature_rise)));
  }
}

/// "100 % under 3/8 in", as a sieve is told: all of it passes.
Length read_size_passed(std::string_view text) {
  std::string plain(text);
  for (const std::string_view all : {"100 %", "100%", "100 percent"}) {
    if (!plain.starts_with(all)) continue;
    plain.erase(0, all.size());
    for (const std::string_view passes : {"under", "below", "through", "passing", "passes", "less than", "<"}) {
      const std::size_t begin = plain.find_first_not_of(' ');
      if (begin != std::string::npos && std::string_view(plain).substr(begin).starts_with(passes))
        return read_length(std::string_view(plain).substr(begin + passes.size()));
    }
  }
  return read_length(text);
}

/// Laboratories print a C:N ratio as "14".
CarbonNitrogenRatio read_ratio(std::string_view text) {
  const bool is_plain = !text.empty() && text.find_first_not_of("0123456789.") == std::string_view::npos;
  return read_carbon_to_nitrogen(std::string(text) + (is_plain ? ":1" : ""));
}

TestValue read_any(TestQuantity measured, std::string_view text) {
  switch (measured) {
    case TestQuantity::temperature_rise: return read_rise(text);
    case TestQuantity::carbon_to_nitrogen: return read_ratio(text);
    case TestQuantity::carbon_dioxide:
    case TestQuantity::oxygen:
    case TestQuantity::oxygen_in_water: return read_rate(measured, text);
    case TestQuantity::nitrogen_ratio:
    case TestQuantity::ph: return read_plain(measured, text);
    case TestQuantity::ammonium_content:
    case TestQuantity::nitrogen_content: return nitrogen_dry_basis(read_content(measured, text));
    case TestQuantity::acid_content: return organic_dry_basis(read_content(measured, text));
    case TestQuantity::carbon_content: return carbon_dry_basis(read_content(measured, text));
    case TestQuantity::organic_matter: return read_organic_dry_basis(text);
    case TestQuantity::moisture: return read_moisture_wet_basis(text);
    case TestQuantity::share_of_control: return read_share_of_control(text);
    case TestQuantity::electric_conductivity: return read_conductivity(text);
    case TestQuantity::size: return read_size_passed(text);
    case TestQuantity::microbe_count: return read_microbe_count(text);
  }
  throw DomainError("nothing of the kind is measured");
}

struct Extent {
  double low;
  double high;
  const char* words;
};

/// What any compost or fresh material can show, in the usual unit; past it a text is a slip. Judged. Nothing comes up more than twice as
/// well as in a control that is sound.
Extent possible(TestQuantity measured) {
  switch (measured) {
    case TestQuantity::temperature_rise: return {0.0, 80.0, "from 0 to 80 degC"};
    case TestQuantity::carbon_to_nitrogen: return {1.0, 1000.0, "from 1:1 to 1000:1"};
    case TestQuantity::carbon_dioxide: return {0.0, 200.0, "from 0 to 200 mgC/gOM/day"};
    case TestQuantity::oxygen: return {0.0, 1000.0, "from 0 to 1000 mmolO2/kgOM/h"};
    case TestQuantity::oxygen_in_water: return {0.0, 100.0, "from 0 to 100 mgO2/gOM/h"};
    case TestQuantity::nitrogen_ratio: return {0.0, 1e6, "from 0 to 1,000,000"};
    case TestQuantity::ammonium_content:
    case TestQuantity::acid_content: return {0.0, 100'000.0, "from 0 to 100,000 mg/kg"};
    case TestQuantity::nitrogen_content: return {0.0, 0.47, "from 0 to 47 %, that of urea"};
    case TestQuantity::carbon_content: return {0.0, 0.8, "from 0 to 80 %, that of charcoal"};
    case TestQuantity::organic_matter: return {0.0, 1.0, "from 0 to 100 %"};
    case TestQuantity::moisture: return {0.01, 0.99, "from 1 to 99 %"};
    case TestQuantity::share_of_control: return {0.0, 2.0, "from 0 to 200 %"};
    case TestQuantity::ph: return {1.0, 14.0, "from 1 to 14"};
    case TestQuantity::electric_conductivity: return {0.0, 100.0, "from 0 to 100 dS/m"};
    case TestQuantity::size: return {0.0, 300.0, "from 0 to 300 mm"};
    case TestQuantity::microbe_count: return {0.0, 1e12, "from 0 to 1e12 MPN/g"};
  }
  return {0.0, 0.0, ""};
}

/// The number in SI, whatever is measured.
double si_of(const TestValue& value) {
  return std::visit(
      [](const auto& quantity) {
        if constexpr (std::is_same_v<std::decay_t<decltype(quantity)>, double>) {
          return quantity;
        } else {
          return si_number(quantity);
        }
      },
      value);
}

}  // namespace

const std::vector<std::pair<std::string, TestQuantity>>& measured_words() {
  static const std::vector<std::pair<std::string, TestQuantity>> words{{"temperature-rise", TestQuantity::temperature_rise},
                                                                       {"carbon-to-nitrogen", TestQuantity::carbon_to_nitrogen},
                                                                       {"carbon-dioxide", TestQuantity::carbon_dioxide},
                                                                       {"oxygen", TestQuantity::oxygen},
                                                                       {"oxygen-in-water", TestQuantity::oxygen_in_water},
                                                                       {"nitrogen-ratio", TestQuantity::nitrogen_ratio},
                                                                       {"ammonium-content", TestQuantity::ammonium_content},
                                                                       {"nitrogen-content", TestQuantity::nitrogen_content},
                                                                       {"acid-content", TestQuantity::acid_content},
                                                                       {"carbon-content", TestQuantity::carbon_content},
                                                                       {"organic-matter", TestQuantity::organic_matter},
                                                                       {"moisture", TestQuantity::moisture},
                                                                       {"share-of-control", TestQuantity::share_of_control},
                                                                       {"ph", TestQuantity::ph},
                                                                       {"electric-conductivity", TestQuantity::electric_conductivity},
                                                                       {"size", TestQuantity::size},
                                                                       {"microbe-count", TestQuantity::microbe_count}};
  return words;
}

std::string plain_unit(std::string_view unit) {
  std::string words(unit);
  for (std::size_t at = words.find(" per "); at != std::string::npos; at = words.find(" per ")) words.replace(at, 5, "/");
  return plain_name(words);
}

std::string without_dry_basis(std::string_view plain_unit) {
  std::string unit(plain_unit);
  if (unit.ends_with("gt") || unit.ends_with("%t")) unit.pop_back();  // "MPN/g TS", in the singular
  for (const std::string_view basis :
       {"oftotalsolid", "totalsolid", "ofdrymatter", "drymatter", "dm", "dryweight", "drywt", "dw", "drybasi", "db", "ofdry", "dry"}) {
    if (unit.size() > basis.size() && unit.ends_with(basis)) return unit.substr(0, unit.size() - basis.size());
  }
  return unit;
}

std::optional<MicrobeCount> microbe_count(double number, std::string_view plain_unit) {
  const std::string unit = without_dry_basis(plain_unit);
  if (unit == "mpn/g") return number / unit::gram;
  if (unit == "mpn/4g") return number / (4.0 * unit::gram);
  return std::nullopt;
}

ValueInUnit in_usual_unit(TestQuantity measured, const TestValue& value) {
  const double si = si_of(value);
  switch (measured) {
    case TestQuantity::temperature_rise: return {si, "degC"};
    case TestQuantity::carbon_dioxide: return {si / milli * day, "mgC/gOM/day"};
    case TestQuantity::oxygen: return {si / milli * hour, "mmolO2/kgOM/h"};
    case TestQuantity::oxygen_in_water: return {si / milli * hour, "mgO2/gOM/h"};
    case TestQuantity::ammonium_content:
    case TestQuantity::acid_content: return {si / (milli * milli), "mg/kg"};
    case TestQuantity::electric_conductivity: return {si / siemens_per_m_in_decisiemens, "dS/m"};
    case TestQuantity::size: return {si / milli, "mm"};
    case TestQuantity::microbe_count: return {si * milli, "MPN/g"};
    case TestQuantity::carbon_to_nitrogen:
    case TestQuantity::nitrogen_ratio:
    case TestQuantity::nitrogen_content:
    case TestQuantity::carbon_content:
    case TestQuantity::organic_matter:
    case TestQuantity::moisture:
    case TestQuantity::share_of_control:
    case TestQuantity::ph: return {si, "1"};
  }
  return {si, "1"};
}

void check_test_value(TestQuantity measured, const TestValue& value, std::string_view text) {
  const double number = in_usual_unit(measured, value).number;
  const Extent extent = possible(measured);
  if (!(number >= extent.low && number <= extent.high))
    refuse(text, "is more or less than any compost has", std::string(example(measured)) + "; " + extent.words + " is read");
}

TestValue read_test_value(TestQuantity measured, std::string_view text) {
  TestValue value = read_any(measured, text);
  check_test_value(measured, value, text);
  return value;
}

std::partial_ordering compare(const TestValue& a, const TestValue& b) {
  if (a.index() != b.index()) return std::partial_ordering::unordered;
  constexpr double rounding = 1e-9;  // "36 degF" is 20 °C
  const double one = si_of(a);
  const double other = si_of(b);
  if (std::abs(one - other) <= rounding * std::max(std::abs(one), std::abs(other))) return std::partial_ordering::equivalent;
  if (one < other) return std::partial_ordering::less;
  if (one > other) return std::partial_ordering::greater;
  return std::partial_ordering::unordered;
}

RespirationRate to_respiration(OxygenUptakeRate uptake) {
  return from_si<RespirationRate>(si_number(uptake) * respiratory_quotient * carbon_kg_per_mol);
}

OxygenUptakeRate to_oxygen_uptake(RespirationRate respiration) {
  return from_si<OxygenUptakeRate>(si_number(respiration) / carbon_kg_per_mol / respiratory_quotient);
}

}  // namespace heapwright
