#pragma once
/// The jobs of a topdressing as a table for a spreadsheet.

#include <string>

#include "heapwright/lawn/jobs.hpp"

namespace heapwright {

/// A line a drop, as CSV (RFC 4180) in SI units; costs in the yard's own money, empty without prices.
std::string csv_of_jobs(const DressedJobs& jobs);

}  // namespace heapwright
