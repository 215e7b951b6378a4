#include "heapwright/input/printable.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <functional>

#include "heapwright/input/problems.hpp"

namespace heapwright {
namespace {

struct Character {
  char32_t code;  ///< 0, a control character, for a byte that is not UTF-8
  std::size_t bytes;
};

/// RFC 3629: the shortest form alone, up to U+10FFFF, without surrogates. @pre the text is not empty
Character first_of(std::string_view text) {
  const auto lead = static_cast<unsigned char>(text.front());
  if (lead < 0x80) return {lead, 1};
  const std::size_t bytes = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (lead < 0xC2 || lead > 0xF4 || text.size() < bytes) return {0, 1};
  char32_t code = lead & (0x7FU >> bytes);
  for (const char c : text.substr(1, bytes - 1)) {
    if (!is_continuation_byte(c)) return {0, 1};
    code = code << 6U | (static_cast<unsigned char>(c) & 0x3FU);
  }
  constexpr std::array<char32_t, 5> least{0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < least.at(bytes) || code > 0x10FFFF || surrogate) return {0, 1};
  return {code, bytes};
}

bool is_plain(char c) { return (c >= ' ' && c <= '~') || c == '\n' || c == '\t'; }

bool is_printable(char32_t code) {
  struct Range {
    char32_t first, last;
  };
  constexpr std::array<Range, 7> refused{
      {{0x00, 0x1F}, {0x7F, 0x9F}, {0x061C, 0x061C}, {0x200E, 0x200F}, {0x2028, 0x2029}, {0x202A, 0x202E}, {0x2066, 0x2069}}};
  return std::none_of(refused.begin(), refused.end(), [&](const Range& range) { return code >= range.first && code <= range.last; });
}

std::string with_others_as(std::string_view text, const std::function<std::string(char32_t)>& shown) {
  std::string safe;
  safe.reserve(text.size());
  while (true) {
    const auto plain = static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), is_plain) - text.begin());
    safe += text.substr(0, plain);  // most texts are of nothing else
    text.remove_prefix(plain);
    if (text.empty()) return safe;
    const Character next = first_of(text);
    if (is_printable(next.code)) {
      safe += text.substr(0, next.bytes);
    } else {
      safe += shown(next.code);
    }
    text.remove_prefix(next.bytes);
  }
}

}  // namespace

std::size_t bytes_of_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const Character next = first_of(text.substr(at));
    if (next.code == 0 && text[at] != '\0') return at;
    at += next.bytes;
  }
  return at;
}

std::string printable(std::string_view text) {
  return with_others_as(text, [](char32_t) { return "\xEF\xBF\xBD"; });
}

std::string printable_json(std::string_view json) {
  return with_others_as(json, [](char32_t code) {
    std::array<char, 8> escape{};
    std::snprintf(escape.data(), escape.size(), "\\u%04x", static_cast<unsigned>(code & 0xFFFFU));
    return std::string(escape.data());
  });
}

}  // namespace heapwright
