#pragma once
/// Readings from TOML: a text, a table of typical, low and high with its source, or a list of such.

#include "heapwright/input/document.hpp"
#include "heapwright/materials/reading.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {

const std::vector<std::pair<std::string, Evidence>>& evidence_words();

/// Half a unit of the last digit of the first number in a text, relative to it: of "18.75:1" 0.005/18.75.
double relative_rounding(std::string_view text);

/// A name that is neither empty nor of more than one line. @throws TextError
std::string read_name(std::string_view text);
std::vector<std::string> read_names(Table& table, std::string_view key);
/// A bulk density above zero. @throws TextError
BulkDensity read_some_density(std::string_view text);

template <class Read>
auto read_reading(const Value& value, Read read) {
  using Quantity = std::decay_t<decltype(read(std::string_view()))>;
  Reading<Quantity> reading;
  if (!value.is_table()) {
    reading.typical = value.read(read);
    if (reading.typical) reading.typed = *value.text();
    reading.rounding = relative_rounding(reading.typed);
    return reading;
  }
  Table table = value.table();
  reading.typical = table.read("typical", read);
  if (reading.typical) reading.typed = *table.text("typical");
  reading.rounding = relative_rounding(reading.typed);
  reading.low = table.read("low", read);
  reading.high = table.read("high", read);
  reading.source = table.text("source").value_or("");
  reading.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::own);
  reading.what = table.text("what").value_or("");
  reading.note = table.text("note").value_or("");
  reading.outlier = table.has("outlier") && table.flag("outlier").value_or(false);
  table.finish();
  const bool out_of_order = (reading.low && reading.typical && *reading.low > *reading.typical) ||
                            (reading.typical && reading.high && *reading.typical > *reading.high) ||
                            (reading.low && reading.high && *reading.low > *reading.high);
  if (out_of_order) value.problem("low, typical and high are out of order", "low ≤ typical ≤ high");
  return reading;
}

/// All readings at a key; none where it is absent.
template <class Read>
auto read_readings(Table& table, std::string_view key, Read read) {
  using Quantity = std::decay_t<decltype(read(std::string_view()))>;
  Readings<Quantity> readings;
  for (const Value& value : table.list(key)) readings.push_back(read_reading(value, read));
  return readings;
}

}  // namespace heapwright
