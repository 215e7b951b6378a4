#pragma once
/// The yard file that answers come to.

#include <string>
#include <vector>

#include "heapwright/guide/interview.hpp"
#include "heapwright/guide/said_load.hpp"

namespace heapwright {

/// A yard file, with a comment wherever something was not known. read_yard_text() accepts it. A pile without a date is built today.
std::string yard_text(const Replies& answers, Date today);

/// A yard file to fill in, with a comment at each key.
std::string starter_yard_text();

/// A yard file with loads at its end, a [[load]] each. What was there stays byte for byte; what is new ends its lines as the file does.
std::string with_loads(std::string file, const std::vector<SaidLoad>& loads);

}  // namespace heapwright
