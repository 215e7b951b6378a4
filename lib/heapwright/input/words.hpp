#pragma once
/// Words for months and other small readings that several rooms share.

#include <chrono>
#include <string_view>

namespace heapwright {

/// "Oct" or "October". @throws TextError
std::chrono::month read_month(std::string_view text);
/// "Oct".
std::string_view month_name(std::chrono::month month);

}  // namespace heapwright
