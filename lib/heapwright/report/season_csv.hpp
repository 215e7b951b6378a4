#pragma once
/// A year of supplies as a table for a spreadsheet.

#include <string>

#include "heapwright/plan/season_of_yard.hpp"

namespace heapwright {

/// A line a month and supply, January first, as CSV (RFC 4180) in SI units; the headings are the keys of the JSON.
std::string csv_of_season(const YardSeason& season);

}  // namespace heapwright
