#pragma once
/// Times as logs write them.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace heapwright {

/// A time of ISO 8601. With an offset from UTC it is a moment; without, what some clock showed.
struct WrittenTime {
  std::chrono::sys_seconds shown;              ///< as written, whatever the offset
  std::optional<std::chrono::minutes> offset;  ///< east of UTC

  /// On the one axis that times of the same kind are compared on: UTC with an offset, else the clock's own.
  std::chrono::sys_seconds at() const { return shown - offset.value_or(std::chrono::minutes(0)); }
  /// That the clock and its calendar showed.
  std::chrono::year_month_day day() const { return std::chrono::floor<std::chrono::days>(shown); }
};

/// "2026-11-12T08:00", "2026-11-12 08:00:30", with "Z", "+01:00" or "-0500" after it or without; of "2026-11-12" alone noon.
/// @throws TextError for what is no time of the calendar and the clock; fractions of a second are passed over
WrittenTime read_time(std::string_view text);
/// Whether read_time() reads a text.
bool is_time(std::string_view text);

/// "8:00", "08:00:30", "8:00 AM", "8 pm": since midnight. @throws TextError
std::chrono::seconds read_clock(std::string_view text);

/// "2026-11-12T08:00", with seconds where there are some and the offset where there is one.
std::string print_time(const WrittenTime& time);

}  // namespace heapwright
