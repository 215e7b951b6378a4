#include "heapwright/units/decimal.hpp"

#include <cmath>
#include <fast_float/fast_float.h>

namespace heapwright {

// Not strtod, which follows the program's locale, and not std::from_chars, which libc++ 14 lacks for doubles.
std::optional<double> decimal_of(std::string_view digits) {
  double value = 0.0;
  const auto [end, trouble] = fast_float::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (trouble != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace heapwright
