#pragma once
/// Whether a row of a table is meant by a name.

#include <algorithm>
#include <string>
#include <string_view>

#include "heapwright/units/text.hpp"

namespace heapwright {

/// Whether a name in its plain form (plain_name()) is `plain`. Most have another letter soon, which tells it without making that form.
inline bool has_plain_form(std::string_view name, std::string_view plain) {
  const std::size_t most = name.size() < plain.size() ? name.size() : plain.size();
  for (std::size_t i = 0; i < most; ++i) {
    const char small = name[i] >= 'A' && name[i] <= 'Z' ? static_cast<char>(name[i] - 'A' + 'a') : name[i];
    if (small < 'a' || small > 'z') break;
    if (small != plain[i]) return false;
  }
  return plain_name(name) == plain;
}

/// Whether a row's id, its name or one of the names that people give it is a name in its plain form (plain_name()).
template <class Row>
bool is_called(const Row& row, const std::string& plain) {
  if (has_plain_form(row.id, plain) || has_plain_form(row.name, plain)) return true;
  return std::any_of(row.also.begin(), row.also.end(), [&](const std::string& name) { return has_plain_form(name, plain); });
}

}  // namespace heapwright
