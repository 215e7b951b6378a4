#pragma once
/// Whether a row of a table is meant by a name.

#include <algorithm>
#include <string>
#include <string_view>

#include "heapwright/units/text.hpp"

namespace heapwright {

/// Whether a name in its plain form (plain_name()) is `plain`. Most begin with another letter, which tells it without making that form.
inline bool has_plain_form(std::string_view name, std::string_view plain) {
  const auto small = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; };
  const char first = name.empty() ? '\0' : small(name.front());
  const bool begins_with_a_letter = first >= 'a' && first <= 'z';
  if (begins_with_a_letter && !plain.starts_with(first)) return false;
  return plain_name(name) == plain;
}

/// Whether a row's id, its name or one of the names that people give it is a name in its plain form (plain_name()).
template <class Row>
bool is_called(const Row& row, const std::string& plain) {
  if (has_plain_form(row.id, plain) || has_plain_form(row.name, plain)) return true;
  return std::any_of(row.also.begin(), row.also.end(), [&](const std::string& name) { return has_plain_form(name, plain); });
}

}  // namespace heapwright
