#pragma once
/// Columns of a CSV file by their names.

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include "heapwright/input/csv.hpp"
#include "heapwright/units/temperature.hpp"

namespace heapwright {

/// "air degF", "core °C", "edge deg F", "air (F)": the scale at the end of a column's name.
std::optional<TemperatureScale> scale_at_end(std::string_view name);
/// The name before it: "core" of "core degF"; all of a name that is nothing else.
std::string_view without_scale(std::string_view name);

/// The columns with a name of some kind, from left to right.
template <class Is>
std::vector<std::size_t> columns_that(Is is, const Csv& csv) {
  std::vector<std::size_t> columns;
  for (std::size_t column = 0; column < csv.header().size(); ++column) {
    if (is(csv.header()[column])) columns.push_back(column);
  }
  return columns;
}

/// The one column of a name, spelt any way; none or two are problems.
/// @param wanted what the first row would be: "write the columns' names in the first row: time,core degF"
std::optional<std::size_t> column_called(std::string_view name, Csv& csv, const char* wanted);

/// Whether half of the names have a tab or a semicolon in them: the fields are parted by tabs, or by two signs.
bool is_parted_otherwise(const Csv& csv);

/// Whether the first row has names at all, parted by commas or by semicolons: not when a field of it is a row's date or time already.
/// @param is_row_start whether a text is what each row below begins with
template <class IsRowStart>
bool has_names(IsRowStart is_row_start, Csv& csv, const char* wanted) {
  if (csv.flawed()) return false;
  if (!columns_that(is_row_start, csv).empty()) {
    csv.problem_of_header("there are no names above the rows", wanted);
    return false;
  }
  if (is_parted_otherwise(csv)) {
    csv.problem_of_header("the columns are parted by tabs, or by more than one sign",
                          std::string("save it as CSV, parted by commas, and ") + wanted);
    return false;
  }
  return true;
}

}  // namespace heapwright
