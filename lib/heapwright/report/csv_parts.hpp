#pragma once
/// The parts that tables for a spreadsheet share. Not installed: users of the library get text.

#include <string>

namespace heapwright {

/// A person's text as a cell of CSV: in quotes by RFC 4180, and with an apostrophe before what a spreadsheet would take for a formula.
std::string csv_cell(const std::string& text);

}  // namespace heapwright
