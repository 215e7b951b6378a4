#pragma once
/// Whether a row of a table is meant by a name.

#include <algorithm>
#include <string>

#include "heapwright/units/text.hpp"

namespace heapwright {

/// Whether a row's id, its name or one of the names that people give it is a name in its plain form (plain_name()).
template <class Row>
bool is_called(const Row& row, const std::string& plain) {
  if (plain_name(row.id) == plain || plain_name(row.name) == plain) return true;
  return std::any_of(row.also.begin(), row.also.end(), [&](const std::string& name) { return plain_name(name) == plain; });
}

}  // namespace heapwright
