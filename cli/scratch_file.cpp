#include "scratch_file.hpp"

#include <algorithm>
#include <cctype>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <mutex>
#include <set>
#include <string_view>
#include <sys/stat.h>
#include <system_error>
#include <thread>
#include <unistd.h>
#include <utility>

#include "command.hpp"

namespace heapwright::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::string_view scratch_prefix = ".heapwright-unfinished-";
constexpr std::string_view scratch_letters = "XXXXXX";  // as mkstemp wants them

bool is_name_of_scratch(const std::string& name) {
  if (!name.starts_with(scratch_prefix) || name.size() != scratch_prefix.size() + scratch_letters.size()) return false;
  return std::all_of(name.end() - static_cast<std::ptrdiff_t>(scratch_letters.size()), name.end(),
                     [](char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0; });
}

[[noreturn]] void fail() { throw std::system_error(errno, std::generic_category()); }

/// The scratch files that there are. A file comes and goes under the lock, and with it its name.
struct ScratchNames {
  std::mutex mutex;
  std::set<std::string> names;
};

/// It stays when the program ends by itself, for a signal may come even then.
ScratchNames& scratch_names() {
  static auto* const all = new ScratchNames;
  return *all;
}

/// But those that the run was started to take no notice of, as by nohup.
sigset_t signals_that_end() {
  sigset_t signals;
  sigemptyset(&signals);
  for (const int number : {SIGHUP, SIGINT, SIGTERM}) {
    struct sigaction now {};
    if (sigaction(number, nullptr, &now) == 0 && now.sa_handler != SIG_IGN) sigaddset(&signals, number);
  }
  return signals;
}

/// Waits for a signal, and ends the run as if nobody had: so whoever started it is told.
void end_at_signal(sigset_t signals) {
  int number = 0;
  while (sigwait(&signals, &number) != 0) {
  }
  scratch_names().mutex.lock();  // for good: from here on no file comes or goes
  for (const std::string& name : scratch_names().names) unlink(name.c_str());
  std::signal(number, SIG_DFL);
  pthread_sigmask(SIG_UNBLOCK, &signals, nullptr);
  std::raise(number);
}

}  // namespace

void remove_scratch_files_at_signals() {
  const sigset_t signals = signals_that_end();
  scratch_names();
  pthread_sigmask(SIG_BLOCK, &signals, nullptr);  // in this thread, and so in all that it starts
  try {
    std::thread(end_at_signal, signals).detach();
  } catch (const std::system_error&) {  // the system gives no more threads: a signal ends the run as it stands
    pthread_sigmask(SIG_UNBLOCK, &signals, nullptr);
  }
}

ScratchFile::ScratchFile(fs::path place)
    : place_(std::move(place)), name_((place_.parent_path() / scratch_prefix).string() + std::string(scratch_letters)) {
  const std::lock_guard<std::mutex> lock(scratch_names().mutex);
  const int descriptor = mkstemp(name_.data());
  if (descriptor < 0) fail();
  scratch_names().names.insert(name_);
  file_ = fdopen(descriptor, "wb");
}

ScratchFile::~ScratchFile() {
  if (file_ != nullptr) std::fclose(file_);
  if (name_.empty()) return;
  const std::lock_guard<std::mutex> lock(scratch_names().mutex);
  unlink(name_.c_str());
  scratch_names().names.erase(name_);
}

void ScratchFile::add(const std::string& text) {
  if (file_ == nullptr || std::fwrite(text.data(), 1, text.size(), file_) != text.size()) fail();
}

void ScratchFile::put_in_place(mode_t mode_of_new) {
  constexpr mode_t permissions = 0777;
  struct stat replaced {};
  const bool replaces = stat(place_.c_str(), &replaced) == 0;
  if (file_ == nullptr || std::fflush(file_) != 0) fail();
  if (fchmod(fileno(file_), replaces ? replaced.st_mode & permissions : mode_of_new) != 0) fail();
  if (replaces && fsync(fileno(file_)) != 0) fail();  // or a machine that stops now has neither
  if (std::fclose(std::exchange(file_, nullptr)) != 0) fail();
  const std::lock_guard<std::mutex> lock(scratch_names().mutex);
  fs::rename(name_, place_);
  scratch_names().names.erase(std::exchange(name_, {}));
}

void remove_scratch_files(const std::string& folder, const std::function<bool(const std::string&)>& begins_as_ours) {
  std::error_code trouble;
  for (const fs::directory_entry& entry : fs::directory_iterator(folder, trouble)) {
    if (!is_name_of_scratch(entry.path().filename().string()) || entry.is_symlink(trouble)) continue;
    const std::optional<std::string> text = text_of_file(entry.path().string());
    if (text && (text->empty() || begins_as_ours(*text))) fs::remove(entry.path(), trouble);
  }
}

}  // namespace heapwright::cli
