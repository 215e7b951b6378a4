#pragma once
/// Text that steers no terminal and turns no line around, whoever wrote it: what leaves the program goes through here.

#include <string>
#include <string_view>

namespace heapwright {

/// The text with U+FFFD in place of each control character but newline and tab (C0, DEL, C1: a terminal obeys them), of each mark that
/// turns or breaks a line (U+061C, U+200E, U+200F, U+2028 to U+202E, U+2066 to U+2069), and of each byte that is not UTF-8.
std::string printable(std::string_view text);
/// The same of JSON, with backslash-u escapes, which mean the same there.
std::string printable_json(std::string_view json);

/// How many bytes of a text are UTF-8, up to the first that is not.
std::size_t bytes_of_utf8(std::string_view text);

}  // namespace heapwright
