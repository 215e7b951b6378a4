#include "heapwright/input/file.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <string_view>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

#include "heapwright/input/printable.hpp"
#include "heapwright/input/problems.hpp"

namespace heapwright {
namespace {

[[noreturn]] void fail(const std::string& path, std::string what, std::string hint) {
  throw InputError({Problem{{path, 0, 0, {}}, {}, std::move(what), std::move(hint)}});
}

/// With what the system says of it.
[[noreturn]] void fail_to(const std::string& what, const std::string& path) {
  fail(path, "the file cannot be " + what + ": " + std::generic_category().message(errno), "check that you may read it");
}

[[noreturn]] void fail_to_open(const std::string& path) {
  std::error_code trouble;
  if (errno != ENOENT) fail_to("opened", path);
  if (std::filesystem::is_symlink(path, trouble))
    fail(path, "this is a link to a file that is not there", "put that file back, or name another");
  fail(path, "there is no such file", "check the name and the folder");
}

/// A file that is open to be read.
class OpenFile {
 public:
  /// Not blocking: a pipe would be waited for.
  explicit OpenFile(const std::string& path) : path_(path), descriptor_(open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC)) {
    if (descriptor_ < 0) fail_to_open(path_);
  }
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile() { close(descriptor_); }

  void check_kind(const std::string& name_one) const {
    struct stat status {};
    if (fstat(descriptor_, &status) != 0) fail_to("read", path_);
    if (S_ISDIR(status.st_mode)) fail(path_, "this is a folder, not a file", name_one + " in it");
    if (!S_ISREG(status.st_mode)) fail(path_, "this is a pipe or a device, not a file", "save it to a file first, and " + name_one);
  }

  /// One byte more than is allowed at most, so that a longer file (or one that grows and grows) is known as such without reading it all.
  std::string read_up_to(std::size_t most) const {
    constexpr std::size_t piece = 1U << 16U;
    std::string text;
    while (text.size() < most) {
      const std::size_t had = text.size();
      text.resize(std::min(had + piece, most));
      const ssize_t got = read(descriptor_, text.data() + had, text.size() - had);
      if (got < 0 && errno != EINTR) fail_to("read", path_);
      text.resize(had + static_cast<std::size_t>(std::max<ssize_t>(got, 0)));
      if (got == 0) break;
    }
    return text;
  }

 private:
  const std::string& path_;
  const int descriptor_;
};

[[noreturn]] void fail_at(const std::string& path, const std::string& text, std::size_t at) {
  const std::size_t line_end = std::min(text.find('\n', at), text.size());
  const std::size_t before = at == 0 ? std::string::npos : text.rfind('\n', at - 1);
  const std::size_t line_start = before == std::string::npos ? 0 : before + 1;
  const auto first = text.begin();
  const auto place = [&](std::size_t to) { return first + static_cast<std::ptrdiff_t>(to); };
  const auto line = std::count(first, place(at), '\n') + 1;
  const auto column = std::count_if(place(line_start), place(at), [](char c) { return !is_continuation_byte(c); }) + 1;
  const Position where{path, static_cast<int>(line), static_cast<int>(column), text.substr(line_start, line_end - line_start)};
  throw InputError({Problem{where, {}, "this is not UTF-8", "save it as UTF-8; of a spreadsheet as \"CSV UTF-8\""}});
}

void check_text(const std::string& path, const std::string& text, const std::string& name_one) {
  for (const std::string_view mark : {"\xFF\xFE", "\xFE\xFF"}) {
    if (text.starts_with(mark)) fail(path, "the file is saved as UTF-16", "save it as UTF-8");
  }
  if (text.find('\0') != std::string::npos) fail(path, "this is not a text file", name_one);
  const std::size_t at = bytes_of_utf8(text);
  if (at < text.size()) fail_at(path, text, at);
}

}  // namespace

std::string contents_of(const std::string& path, const FileKind& kind) {
  constexpr std::size_t mebibyte = 1U << 20U;
  const std::string name_one = "name a " + kind.ending + " file";
  const OpenFile file(path);
  file.check_kind(name_one);
  std::string text = file.read_up_to(kind.largest + 1);
  if (text.size() > kind.largest) fail(path, "the file is larger than " + std::to_string(kind.largest / mebibyte) + " MiB", kind.usual);
  check_text(path, text, name_one);
  return text;
}

std::string without_byte_order_mark(std::string text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.starts_with(byte_order_mark)) text.erase(0, byte_order_mark.size());
  return text;
}

}  // namespace heapwright
