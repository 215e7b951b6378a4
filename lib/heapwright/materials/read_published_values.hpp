#pragma once
/// Values from TOML: a text, a table of typical, low and high with its source, or a list of such.

#include "heapwright/input/document.hpp"
#include "heapwright/materials/published_value.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {

/// Each with its word in the tables.
const std::vector<std::pair<std::string, Evidence>>& evidence_words();
/// Those that a range can be known by which its source does not give.
const std::vector<std::pair<std::string, Evidence>>& range_evidence_words();

/// Half a unit of the last digit of the first number in a text, relative to it: of "18.75:1" 0.005/18.75.
double relative_rounding(std::string_view text);

/// A name that is neither empty nor of more than one line. @throws TextError
std::string read_name(std::string_view text);
/// The names of a list at a key; none where it is absent.
std::vector<std::string> read_names(Table& table, std::string_view key);
/// A bulk density above zero. @throws TextError
BulkDensity read_some_density(std::string_view text);
/// The same of what is bone-dry.
DryBulkDensity read_dry_density(std::string_view text);

/// One value: a text alone is the typical figure, the user's own. Low, typical and high out of order are a problem.
/// @param read the reader of the quantity
template <class Read>
auto read_published_value(const Value& value, Read read) {
  using Quantity = std::decay_t<decltype(read(std::string_view()))>;
  PublishedValue<Quantity> published;
  if (!value.is_table()) {
    published.typical = value.read(read);
    if (published.typical) published.typed = *value.text();
    published.rounding = relative_rounding(published.typed);
    return published;
  }
  Table table = value.table();
  published.typical = table.read("typical", read);
  if (published.typical) published.typed = *table.text("typical");
  published.rounding = relative_rounding(published.typed);
  published.low = table.read("low", read);
  published.high = table.read("high", read);
  published.source = table.text("source").value_or("");
  published.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::own);
  published.range_evidence = table.one_of("range_evidence", range_evidence_words());
  published.what = table.text("what").value_or("");
  published.note = table.text("note").value_or("");
  published.outlier = table.flag("outlier").value_or(false);
  table.finish();
  const bool out_of_order = (published.low && published.typical && *published.low > *published.typical) ||
                            (published.typical && published.high && *published.typical > *published.high) ||
                            (published.low && published.high && *published.low > *published.high);
  if (out_of_order) value.problem("low, typical and high are out of order", "low ≤ typical ≤ high");
  const bool whole = published.low && published.typical && published.high;
  if (published.range_evidence && !whole)
    value.problem("range_evidence says whose low and high are, and not all three figures are there", "give typical, low and high");
  return published;
}

/// All values at a key; none where it is absent.
template <class Read>
auto read_published_values(Table& table, std::string_view key, Read read) {
  using Quantity = std::decay_t<decltype(read(std::string_view()))>;
  PublishedValues<Quantity> values;
  for (const Value& value : table.list(key)) values.push_back(read_published_value(value, read));
  return values;
}

}  // namespace heapwright
