#include "heapwright/maturity/observations.hpp"

#include <algorithm>

#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

std::variant<TemperaturePoint, HandWarmth> read_core(std::string_view text) {
  if (text == "hot") return HandWarmth::hot;
  if (text == "warm") return HandWarmth::warm;
  if (text == "cold") return HandWarmth::cold;
  try {
    return read_temperature(text);
  } catch (const TextError& error) {
    throw TextError(error.what(), error.hint() + ", or by hand \"hot\", \"warm\" or \"cold\"");
  }
}

const std::vector<std::pair<std::string, std::string>> check_words{
    {"no-reheat", "no-reheat"}, {"sealed-bag", "sealed-bag"}, {"seeds", "seeds"}, {"looks", "looks"}};
const std::vector<std::pair<std::string, std::string>> result_words{{"passed", "passed"}, {"failed", "failed"}};

/// A value of a test is always a text, "18:1" or "12 degC", so that its unit stands beside it.
std::string read_test_value(std::string_view text) {
  if (text.find_first_of("0123456789") == std::string_view::npos)
    throw TextError("\"" + std::string(text) + "\" has no number", "write the value with its unit: \"12 degC\", \"18:1\", \"7.4\"");
  return std::string(text);
}

bool is_hot(const CoreReading& reading) {
  if (const HandWarmth* hand = std::get_if<HandWarmth>(&reading.core)) return *hand == HandWarmth::hot;
  return std::get<TemperaturePoint>(reading.core) >= TemperaturePoint::from_fahrenheit(140.0);
}

/// A symptom that is known, or smoke.
std::string read_symptom_name(std::string_view text) {
  if (!is_smoke({std::string(text), std::nullopt})) find_symptom(text);
  return std::string(text);
}

}  // namespace

bool is_smoke(const Noticed& noticed) {
  const std::string plain = plain_name(noticed.symptom);
  for (const std::string_view sign : {"smok", "smould", "smold", "burn", "fire", "flame", "ember", "glow", "char", "scorch"}) {
    if (plain.find(sign) != std::string::npos) return true;
  }
  return false;
}

Facts facts_of(const Observations& seen) {
  Facts facts;
  if (!seen.readings.empty()) facts.insert(Fact::readings);
  if (std::any_of(seen.readings.begin(), seen.readings.end(), is_hot)) facts.insert(Fact::hot);
  if (std::any_of(seen.noticed.begin(), seen.noticed.end(), is_smoke)) facts.insert(Fact::smoke);
  return facts;
}

Observations read_observations(Table& root) {
  Observations seen;
  for (Table& table : root.tables("noticed")) {
    table.require("symptom", "write symptom = \"ammonia-smell\"");
    const auto symptom = table.read("symptom", read_symptom_name);
    const auto date = table.date("date");
    if (symptom) seen.noticed.push_back({*symptom, date});
    table.finish();
  }
  for (Table& table : root.tables("reading")) {
    table.require("core", "write core = \"128 degF\", or \"hot\", \"warm\" or \"cold\" by hand");
    const auto date = table.date("date");
    if (const auto core = table.read("core", read_core)) seen.readings.push_back({date, *core});
    table.finish();
  }
  std::optional<Table> maturity = root.table("maturity");
  if (!maturity) return seen;
  for (Table& table : maturity->tables("test")) {
    table.require("test", "write test = \"self-heating\"");
    table.require("value", "write value = \"12 degC\"");
    const auto test = table.text("test");
    const auto value = table.read("value", read_test_value);
    seen.tests.push_back({test.value_or(""), value.value_or(""), table.date("date")});
    table.finish();
  }
  for (Table& table : maturity->tables("check")) {
    table.require("check", "write check = \"no-reheat\"");
    table.require("result", "write result = \"passed\" or \"failed\"");
    const auto check = table.one_of("check", check_words);
    const auto result = table.one_of("result", result_words);
    seen.checks.push_back({check.value_or(""), result.value_or(""), table.date("date")});
    table.finish();
  }
  maturity->finish();
  return seen;
}

}  // namespace heapwright
