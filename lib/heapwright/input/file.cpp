#include "heapwright/input/file.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string_view>
#include <system_error>

#include "heapwright/input/problems.hpp"

namespace heapwright {
namespace {

[[noreturn]] void fail(const std::string& path, std::string what, std::string hint) {
  throw InputError({Problem{{path, 0, 0, {}}, {}, std::move(what), std::move(hint)}});
}

/// One byte more than is allowed at most, so that a longer file (or a device without end) is known as such without reading it all.
std::string read_up_to(std::ifstream& stream, std::size_t most) {
  constexpr std::size_t piece = 1U << 16U;
  std::string text;
  while (stream && text.size() < most) {
    const std::size_t had = text.size();
    text.resize(std::min(had + piece, most));
    stream.read(text.data() + had, static_cast<std::streamsize>(text.size() - had));
    text.resize(had + static_cast<std::size_t>(stream.gcount()));
  }
  return text;
}

}  // namespace

std::string contents_of(const std::string& path, const FileKind& kind) {
  constexpr std::size_t mebibyte = 1U << 20U;
  const std::string name_one = "name a " + kind.ending + " file";
  std::error_code trouble;
  const std::filesystem::file_status status = std::filesystem::status(path, trouble);
  if (!std::filesystem::exists(status)) fail(path, "there is no such file", "check the name and the folder");
  if (std::filesystem::is_fifo(status) || std::filesystem::is_socket(status)) fail(path, "this is not a file", name_one);
  if (std::filesystem::is_directory(status)) fail(path, "this is a folder, not a file", name_one + " in it");
  std::ifstream stream(path, std::ios::binary);
  if (!stream) fail(path, "the file cannot be opened", "check that you may read it");
  std::string text = read_up_to(stream, kind.largest + 1);
  if (stream.bad()) fail(path, "the file cannot be read", "check that you may read it");
  if (text.size() > kind.largest) fail(path, "the file is larger than " + std::to_string(kind.largest / mebibyte) + " MiB", kind.usual);
  if (text.find('\0') != std::string::npos) fail(path, "this is not a text file", name_one);
  return text;
}

std::string without_byte_order_mark(std::string text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
  return text;
}

}  // namespace heapwright
