#pragma once
/// The text of a file, with guards against what no person would write by hand.

#include <cstddef>
#include <string>

namespace heapwright {

/// What a file should be, for the errors.
struct FileKind {
  std::size_t largest;  ///< bytes, whole mebibytes
  std::string ending;   ///< ".toml"
  std::string usual;    ///< "a yard file is a page or two of text"
};

/// The whole file. @throws InputError where there is none, where it cannot be read or is larger than allowed, or no text in UTF-8
std::string contents_of(const std::string& path, const FileKind& kind);

/// The text without the byte-order mark that some editors put before it.
std::string without_byte_order_mark(std::string text);

}  // namespace heapwright
