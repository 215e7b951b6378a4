#include "progress.hpp"

#include <cstdio>
#include <unistd.h>

namespace heapwright::cli {

void ProgressLine::operator()(int done, int of) const {
  if (isatty(STDERR_FILENO) == 0) return;
  if (std::chrono::steady_clock::now() - begun_ < std::chrono::milliseconds(500)) return;
  if (done >= of) return wipe();
  std::fprintf(stderr, "\r%s, %d of %d %s", doing_, done, of, behind_);
  is_shown_ = true;
}

void ProgressLine::wipe() const {
  if (is_shown_) std::fprintf(stderr, "\r\033[K");
  is_shown_ = false;
}

}  // namespace heapwright::cli
