#include "heapwright/report/icalendar.hpp"

#include <fmt/format.h>

#include "heapwright/input/printable.hpp"
#include "heapwright/page/season_parts.hpp"

namespace heapwright {
namespace {

/// RFC 5545 3.3.11: text, which has no control characters.
std::string escaped_text(const std::string& text) {
  std::string safe;
  for (const char letter : printable(text)) {
    if (letter == '\n') {
      safe += "\\n";
      continue;
    }
    if (letter == '\\' || letter == ';' || letter == ',') safe += '\\';
    safe += letter;
  }
  return safe;
}

bool is_inside_a_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }  // of UTF-8

/// RFC 5545 3.1: no line longer than 75 bytes, the next begins with a space; no character is broken.
std::string folded(std::string_view line) {
  constexpr std::size_t longest = 75;
  std::string text;
  std::size_t room = longest;
  while (line.size() > room) {
    std::size_t end = room;
    while (is_inside_a_character(line[end])) --end;
    text.append(line.substr(0, end)).append("\r\n ");
    line.remove_prefix(end);
    room = longest - 1;
  }
  return text.append(line).append("\r\n");
}

std::string day_text(Date day) {
  return fmt::format("{:04}{:02}{:02}", static_cast<int>(day.year()), static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()));
}

Date day_after(Date day) { return Date(std::chrono::sys_days(day) + std::chrono::days(1)); }

std::string event_of(const CalendarChore& chore, Date written, const Materials& materials, const Show& show) {
  std::string event = folded("BEGIN:VEVENT");
  event += folded(fmt::format("UID:{}-{}-{}@heapwright", chore.what.id, chore.batch, day_text(chore.from)));
  event += folded(fmt::format("DTSTAMP:{}T000000Z", day_text(written)));
  event += folded(fmt::format("DTSTART;VALUE=DATE:{}", day_text(chore.from)));
  event += folded(fmt::format("DTEND;VALUE=DATE:{}", day_text(day_after(chore.every ? chore.from : chore.to))));
  if (chore.every) event += folded(fmt::format("RRULE:FREQ=DAILY;INTERVAL={};UNTIL={}", chore.every->count(), day_text(chore.to)));
  event += folded(fmt::format("SUMMARY:{}", escaped_text(show.words(title_words(chore)))));
  const std::string about = chore.about ? " The day follows from a forecast: look at the pile." : "";
  event += folded(fmt::format("DESCRIPTION:{}",
                              escaped_text(fmt::format("{}. Why: {} ({}).{}", show.words(chore_words(chore, materials)), chore.what.why,
                                                       source_in_short(materials, chore.what.source, chore.what.evidence), about))));
  event += folded("TRANSP:TRANSPARENT");
  return event + folded("END:VEVENT");
}

}  // namespace

std::string icalendar_of(const std::string& title, const std::vector<CalendarChore>& chores, Date written, const Materials& materials,
                         const Show& show) {
  std::string text = folded("BEGIN:VCALENDAR") + folded("VERSION:2.0") + folded("PRODID:-//heapwright//compost calendar//EN");
  if (!title.empty()) text += folded(fmt::format("X-WR-CALNAME:{}", escaped_text(title)));
  for (const CalendarChore& chore : chores) text += event_of(chore, written, materials, show);
  return text + folded("END:VCALENDAR");
}

}  // namespace heapwright
