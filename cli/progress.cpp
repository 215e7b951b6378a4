#include "progress.hpp"

#include <cstdio>
#include <unistd.h>

namespace heapwright::cli {

void ProgressLine::operator()(int done, int of) const {
  if (isatty(STDERR_FILENO) == 0) return;
  if (std::chrono::steady_clock::now() - begun_ < std::chrono::milliseconds(500)) return;
  std::fprintf(stderr, done < of ? "\rletting the pile rot, %d of %d times " : "\r\033[K", done, of);
}

}  // namespace heapwright::cli
