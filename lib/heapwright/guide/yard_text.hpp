#pragma once
/// The yard file that answers come to.

#include <string>

#include "heapwright/guide/interview.hpp"

namespace heapwright {

/// A yard file, with a comment wherever something was not known. read_yard_text() accepts it. A pile without a date is built today.
std::string yard_text(const Replies& answers, Date today);

/// A yard file to fill in, with a comment at each key.
std::string starter_yard_text();

}  // namespace heapwright
