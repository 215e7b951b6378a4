#include "own_folder.hpp"

#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

#include "command.hpp"
#include "scratch_file.hpp"

namespace heapwright::cli {

OwnFolder::OwnFolder(const std::string& option, const std::string& path, const std::function<bool(const std::string&)>& begins_as_ours)
    : path_(path) {
  constexpr mode_t for_its_owner = 0700;  // what is in it is personal
  const auto fail = [&] {
    throw TextError(option + path + " cannot be used: " + std::generic_category().message(errno),
                    "name a folder, or check that you may write there");
  };
  std::error_code trouble;
  if (std::filesystem::exists(path, trouble) && !std::filesystem::is_directory(path, trouble))
    throw TextError(option + path + " is a file", "name a folder, which is made where there is none");
  if (mkdir(path.c_str(), for_its_owner) != 0 && errno != EEXIST) fail();
  descriptor_ = open(path.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor_ < 0) fail();
  if (flock(descriptor_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {  // a file system may know no locks
    close(descriptor_);
    throw TextError(option + path + ": another run writes there now", "let it end, or name another folder");
  }
  remove_scratch_files(path, begins_as_ours);
}

OwnFolder::~OwnFolder() { close(descriptor_); }

std::vector<std::string> OwnFolder::files() const {
  std::vector<std::string> names;
  std::error_code trouble;
  for (const std::filesystem::directory_entry& entry : std::filesystem::directory_iterator(path_, trouble)) {
    if (!entry.is_symlink(trouble) && entry.is_regular_file(trouble)) names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::string OwnFolder::path_of(const std::string& file) const { return (std::filesystem::path(path_) / file).string(); }

}  // namespace heapwright::cli
