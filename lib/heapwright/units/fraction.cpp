#include "heapwright/units/fraction.hpp"

#include "heapwright/units/text.hpp"

namespace heapwright::detail {

void refuse_fraction(double value) {
  const std::string given = value >= -1e12 && value <= 1e12 ? print_number(100.0 * value, 6) + " %" : "no number";
  throw DomainError("a share must be between 0 and 100 %, not " + given);
}

}  // namespace heapwright::detail
