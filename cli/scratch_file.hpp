#pragma once
/// A file that is not whole yet, and that does not outlive the run.

#include <cstdio>
#include <filesystem>
#include <functional>
#include <string>
#include <sys/types.h>

namespace heapwright::cli {

/// From now on what ends the run (an interrupt, a request to end, a terminal that closes) takes its scratch files with it.
/// @pre no thread was started
void remove_scratch_files_at_signals();

/// A file of its own in the folder of another, which it is renamed to once it is whole; gone if it is not.
class ScratchFile {
 public:
  /// @throws std::system_error, as all of it
  explicit ScratchFile(std::filesystem::path place);
  ScratchFile(const ScratchFile&) = delete;
  ScratchFile& operator=(const ScratchFile&) = delete;
  ~ScratchFile();

  void add(const std::string& text);
  /// With the mode of what it replaces, else of a new one.
  void put_in_place(mode_t mode_of_new);

 private:
  std::filesystem::path place_;
  std::string name_;
  std::FILE* file_ = nullptr;
};

/// Removes what runs that were killed left of files that were never whole: those with nothing in them, and those that begin as ours do.
void remove_scratch_files(const std::string& folder, const std::function<bool(const std::string&)>& begins_as_ours);

}  // namespace heapwright::cli
