#pragma once
/// A folder that a run fills with files.

#include <functional>
#include <string>
#include <vector>

namespace heapwright::cli {

/// A folder that one run at a time writes to. Where there is none it is made, for its owner alone.
class OwnFolder {
 public:
  /// @throws TextError, which begins with the option's name, where it cannot be had
  /// @param begins_as_ours of a file that a run that was killed did not finish: it is removed
  OwnFolder(const std::string& option, const std::string& path, const std::function<bool(const std::string&)>& begins_as_ours);
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  ~OwnFolder();

  /// The names of its files, in order.
  std::vector<std::string> files() const;
  /// The path of a file in it.
  std::string path_of(const std::string& file) const;

 private:
  std::string path_;
  int descriptor_ = -1;
};

}  // namespace heapwright::cli
