#pragma once
#include <optional>
#include <string_view>

namespace heapwright {

/// The number that plain decimal digits write ("12", "-0.5", "1e3"), whatever the program's locale; nothing for other texts and for what
/// a double cannot hold.
std::optional<double> decimal_of(std::string_view digits);

}  // namespace heapwright
