#pragma once
/// How far a forecast, or a class's handouts, have come, for who waits for it.

#include <chrono>

namespace heapwright::cli {

/// A line on a terminal once it takes more than half a second, wiped when all is done.
class ProgressLine {
 public:
  ProgressLine() = default;
  /// @param doing "making the handouts"
  /// @param behind a word behind the numbers
  ProgressLine(const char* doing, const char* behind) : doing_(doing), behind_(behind) {}
  void operator()(int done, int of) const;

 private:
  const char* doing_ = "letting the pile rot";
  const char* behind_ = "times ";
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
};

}  // namespace heapwright::cli
