#pragma once
/// How far a forecast has come, for who waits for it.

#include <chrono>

namespace heapwright::cli {

/// A line on a terminal once it takes more than half a second, wiped when all is done.
class ProgressLine {
 public:
  void operator()(int done, int of) const;

 private:
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
};

}  // namespace heapwright::cli
