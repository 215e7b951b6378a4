#include "heapwright/report/plot_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/text.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

constexpr std::array<std::string_view, 9> eighths_high{" ", "▁", "▂", "▃", "▄", "▅", "▆", "▇", "█"};
constexpr std::array<std::string_view, 9> eighths_wide{"", "▏", "▎", "▍", "▌", "▋", "▊", "▉", "█"};

/// A bar of so many characters, to an eighth.
std::string bar_of(double characters) {
  const int eighths = static_cast<int>(std::lround(std::max(0.0, characters) * 8.0));
  std::string bar;
  for (int i = 0; i < eighths / 8; ++i) bar += eighths_wide[8];
  return bar + std::string(eighths_wide.at(static_cast<std::size_t>(eighths % 8)));
}

std::string padded_bar(double characters, std::size_t width) {
  const std::string bar = bar_of(characters);
  const std::size_t shown = static_cast<std::size_t>(std::ceil(static_cast<double>(std::lround(std::max(0.0, characters) * 8.0)) / 8.0));
  return bar + std::string(width > shown ? width - shown : 0, ' ');
}

struct Week {
  Date date;
  double degrees;
};

std::vector<Week> weeks_of(const Chart& chart, bool fahrenheit, std::size_t most) {
  const std::size_t every = std::max<std::size_t>(7, (chart.points.size() + most - 1) / most);
  std::vector<Week> weeks;
  for (std::size_t day = 0; day < chart.points.size(); day += every) {
    const TemperaturePoint core = chart.points[day].likely;
    weeks.push_back({chart.points[day].date, fahrenheit ? core.fahrenheit() : core.celsius()});
  }
  return weeks;
}

/// The first letters of months under their weeks.
std::string months_line(const std::vector<Week>& weeks) {
  std::string line(weeks.size(), ' ');
  std::size_t free_from = 0;
  for (std::size_t i = 0; i < weeks.size(); ++i) {
    const bool begins = i == 0 || weeks[i].date.month() != weeks[i - 1].date.month();
    if (!begins || i < free_from) continue;
    const std::string name(std::string(month_name(weeks[i].date.month())).substr(0, 3));
    if (i + name.size() > weeks.size()) break;
    line.replace(i, name.size(), name);
    free_from = i + name.size() + 1;
  }
  while (line.ends_with(' ')) line.pop_back();
  return line;
}

}  // namespace

std::string plot_of(const Chart& chart, const Show& show, std::size_t width) {
  constexpr std::size_t axis = 8;
  constexpr int rows = 6;
  if (chart.points.empty() || width < axis + 20) return {};
  const bool fahrenheit = show.in_us_units();
  const double step = fahrenheit ? 25.0 : 15.0;
  const std::vector<Week> weeks = weeks_of(chart, fahrenheit, width - axis - 1);
  const double low =
      step *
      std::floor(std::min_element(weeks.begin(), weeks.end(), [](const Week& a, const Week& b) { return a.degrees < b.degrees; })->degrees /
                 step);
  std::string text = chart.title + "\n";
  for (int row = rows - 1; row >= 0; --row) {
    const double base = low + step * row;
    std::string line = fmt::format("{:>5.0f} {} ", base, fahrenheit ? "°F" : "°C");
    for (const Week& week : weeks) {
      const double part = std::clamp((week.degrees - base) / step, 0.0, 1.0);
      line += eighths_high.at(static_cast<std::size_t>(std::lround(8.0 * part)));
    }
    while (line.ends_with(' ')) line.pop_back();
    text += line + "\n";
  }
  return text + std::string(axis + 1, ' ') + months_line(weeks) + "\n";
}

std::string plot_of(const ShareBars& bars, std::size_t width) {
  if (bars.parts.empty() || bars.wholes.empty()) return {};
  std::size_t widest = 0;
  for (const ShareBars::Part& part : bars.parts) widest = std::max(widest, width_of(part.name));
  const std::size_t each = std::min<std::size_t>(16, (width - widest) / bars.wholes.size());
  if (each < 9) return {};
  const std::size_t bar = each - 7;
  std::string text = bars.title + "\n" + std::string(widest, ' ');
  for (const std::string& whole : bars.wholes) text += fmt::format("  {}", padded(whole, each - 2));
  while (text.ends_with(' ')) text.pop_back();
  text += "\n";
  for (const ShareBars::Part& part : bars.parts) {
    std::string line = padded(part.name, widest);
    for (const double share : part.shares)
      line += fmt::format("  {}{}", padded_bar(share * static_cast<double>(bar), bar), padded(fmt::format("{:>3.0f} %", 100.0 * share), 5));
    while (line.ends_with(' ')) line.pop_back();
    text += line + "\n";
  }
  return text;
}

std::string plot_of(const Bars& bars, const Show& show, std::size_t width) {
  Volume most;
  std::size_t widest = 0;
  for (const Bars::Bar& bar : bars.bars) {
    Volume whole;
    for (const Volume& part : bar.parts) whole += part;
    most = std::max(most, whole);
    widest = std::max(widest, width_of(show.words(bar.name)));
  }
  constexpr std::size_t room = 24;
  if (!is_positive(most) || widest + room + 20 > width) return {};
  std::string text = bars.title + "\n";
  for (const Bars::Bar& bar : bars.bars) {
    Volume whole;
    for (const Volume& part : bar.parts) whole += part;
    const std::string line =
        fmt::format("{}  {}{}", padded(show.words(bar.name), widest), bar_of(static_cast<double>(whole / most) * static_cast<double>(room)),
                    is_positive(whole) ? " " : "");
    text += wrap(line + show.words(bar.says), widest + 2, width);
  }
  return text;
}

}  // namespace heapwright
