#pragma once
/// The jobs of a topdressing, or the one order of it, as a table for a spreadsheet.

#include <string>

#include "heapwright/lawn/jobs.hpp"

namespace heapwright {

/// A line a drop, as CSV (RFC 4180) in SI units; costs in the yard's own money, empty without prices.
std::string csv_of_jobs(const DressedJobs& jobs);
/// A line an item of the order; the headings are the keys of the JSON. Only the headings where every offer is out of date.
std::string csv_of_order(const Ordering& ordering);

}  // namespace heapwright
