#include "heapwright/time/written_time.hpp"

#include <utility>

#include "heapwright/error.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

using std::chrono::minutes;

constexpr const char* right_time = "write year-month-day and time: 2026-11-12T08:00";
constexpr minutes widest_offset = std::chrono::hours(14);

/// Takes what is at the front of a text.
class Front {
 public:
  explicit Front(std::string_view text) : left_(text) {}

  bool done() const { return left_.empty(); }
  bool takes(char c) {
    if (!left_.starts_with(c)) return false;
    left_.remove_prefix(1);
    return true;
  }
  std::string_view take(std::size_t count) {
    const std::string_view taken = left_.substr(0, count);
    left_.remove_prefix(taken.size());
    return taken;
  }
  bool begins_with_digit() const { return !left_.empty() && left_.front() >= '0' && left_.front() <= '9'; }
  /// Two digits below some number.
  std::optional<int> take_two(int below) {
    if (!begins_with_digit()) return std::nullopt;
    const int ten = take(1).front() - '0';
    if (!begins_with_digit()) return std::nullopt;
    const int number = 10 * ten + (take(1).front() - '0');
    return number < below ? std::optional(number) : std::nullopt;
  }

 private:
  std::string_view left_;
};

/// The half of the day at the end of a clock's words, taken off: 0 for am, 12 for pm.
std::optional<int> take_half_of_day(std::string& clock) {
  for (const auto& [word, hours] : {std::pair<std::string_view, int>{"am", 0}, {"a.m.", 0}, {"pm", 12}, {"p.m.", 12}}) {
    if (!clock.ends_with(word)) continue;
    clock.resize(clock.size() - word.size());
    return hours;
  }
  return std::nullopt;
}

std::string in_small_letters_without_spaces(std::string_view text) {
  std::string small;
  for (const char c : text) {
    if (c != ' ') small += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return small;
}

/// The minutes and seconds that stand after an hour.
std::optional<std::chrono::seconds> take_rest_of_clock(Front& front, int hour) {
  if (!front.takes(':')) return std::nullopt;
  const auto minute = front.take_two(60);
  if (!minute) return std::nullopt;
  int second = 0;
  if (front.takes(':')) {
    const auto written = front.take_two(60);
    if (!written) return std::nullopt;
    second = *written;
    if (front.takes('.')) {
      if (!front.begins_with_digit()) return std::nullopt;
      while (front.begins_with_digit()) front.take(1);
    }
  }
  return std::chrono::hours(hour) + minutes(*minute) + std::chrono::seconds(second);
}

std::optional<std::chrono::seconds> take_clock(Front& front) {
  const auto hour = front.take_two(24);
  return hour ? take_rest_of_clock(front, *hour) : std::nullopt;
}

/// @return false where what stands there is no offset
bool take_offset(Front& front, std::optional<minutes>& offset) {
  if (front.done()) return true;
  if (front.takes('Z') || front.takes('z')) {
    offset = minutes(0);
    return front.done();
  }
  const int sign = front.takes('+') ? 1 : front.takes('-') ? -1 : 0;
  if (sign == 0) return false;
  const auto hours = front.take_two(24);
  if (!hours) return false;
  int rest = 0;
  if (!front.done()) {
    front.takes(':');
    const auto written = front.take_two(60);
    if (!written) return false;
    rest = *written;
  }
  offset = sign * (std::chrono::hours(*hours) + minutes(rest));
  return front.done() && *offset <= widest_offset && *offset >= -widest_offset;
}

std::optional<WrittenTime> time_as_written(std::string_view text) {
  Front front(text);
  const std::string_view day = front.take(10);
  if (!is_date(day)) return std::nullopt;
  const std::chrono::sys_days date = read_date(day);
  if (front.done()) return WrittenTime{date + std::chrono::hours(12), std::nullopt};
  if (!front.takes('T') && !front.takes('t') && !front.takes(' ')) return std::nullopt;
  const auto clock = take_clock(front);
  if (!clock) return std::nullopt;
  WrittenTime time{date + *clock, std::nullopt};
  return take_offset(front, time.offset) ? std::optional(time) : std::nullopt;
}

}  // namespace

WrittenTime read_time(std::string_view text) {
  if (const auto time = time_as_written(text)) return *time;
  if (text.size() >= 10) read_date(text.substr(0, 10));  // where the day is at fault, it says so
  throw TextError("\"" + std::string(text) + "\" is no time", right_time);
}

std::chrono::seconds read_clock(std::string_view text) {
  std::string clock = in_small_letters_without_spaces(text);
  const std::optional<int> half = take_half_of_day(clock);
  if (clock.find(':') == std::string::npos && half) clock += ":00";
  if (clock.find(':') == 1) clock.insert(0, "0");
  Front front(clock);
  const auto since_midnight = take_clock(front);
  const bool wrong_half = half && since_midnight && (*since_midnight < std::chrono::hours(1) || *since_midnight >= std::chrono::hours(13));
  if (!since_midnight || !front.done() || wrong_half)
    throw TextError("\"" + std::string(text) + "\" is no time of day", "write it 08:00, or 8:00 AM");
  if (!half) return *since_midnight;
  return *since_midnight % std::chrono::hours(12) + std::chrono::hours(*half);
}

bool is_time(std::string_view text) { return time_as_written(text).has_value(); }

std::string print_time(const WrittenTime& time) {
  const auto day = std::chrono::floor<std::chrono::days>(time.shown);
  const std::chrono::hh_mm_ss clock(time.shown - day);
  const auto two = [](auto number) {
    const std::string digits = std::to_string(number.count());
    return digits.size() < 2 ? "0" + digits : digits;
  };
  std::string text = print_date(Date(day)) + "T" + two(clock.hours()) + ":" + two(clock.minutes());
  if (clock.seconds().count() != 0) text += ":" + two(clock.seconds());
  if (!time.offset) return text;
  if (time.offset->count() == 0) return text + "Z";
  const minutes size = std::chrono::abs(*time.offset);
  const auto hours = std::chrono::floor<std::chrono::hours>(size);
  return text + (time.offset->count() < 0 ? "-" : "+") + two(hours) + ":" + two(size - hours);
}

}  // namespace heapwright
