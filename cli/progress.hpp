#pragma once
/// How far a forecast, or a class's handouts, have come, for who waits for it.

#include <chrono>

namespace heapwright::cli {

/// A line on a terminal once it takes more than half a second, wiped when all is done, or when it ends before.
class ProgressLine {
 public:
  ProgressLine() = default;
  /// @param doing "making the handouts"
  /// @param behind a word behind the numbers
  ProgressLine(const char* doing, const char* behind) : doing_(doing), behind_(behind) {}
  ~ProgressLine() { wipe(); }
  ProgressLine(const ProgressLine&) = default;
  ProgressLine& operator=(const ProgressLine&) = default;
  void operator()(int done, int of) const;

 private:
  void wipe() const;

  const char* doing_ = "letting the pile rot";
  const char* behind_ = "times ";
  std::chrono::steady_clock::time_point begun_ = std::chrono::steady_clock::now();
  mutable bool is_shown_ = false;
};

}  // namespace heapwright::cli
