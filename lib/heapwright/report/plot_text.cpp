#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/plot_text_parts.hpp"
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

constexpr int plot_rows = 6;

/// The foot of the lowest line, and how many degrees each line is high.
struct Rungs {
  double low;
  double step;
};

/// Lines of no less than a step, and of so much that the hottest day is on them.
Rungs rungs_of(double coldest, double hottest, double step) {
  constexpr double wider = 5.0;
  Rungs rungs{step * std::floor(coldest / step), step};
  while (hottest > rungs.low + plot_rows * rungs.step) {
    rungs.step += wider;
    rungs.low = rungs.step * std::floor(coldest / rungs.step);
  }
  return rungs;
}

}  // namespace

std::string plot_of(const Chart& chart, const Show& show, std::size_t width) {
  constexpr std::size_t axis = 8;
  if (chart.points.empty() || width < axis + 20) return {};
  const bool fahrenheit = show.in_us_units();
  const std::vector<Week> weeks = weeks_of(chart, fahrenheit, width - axis - 1);
  const auto [coldest, hottest] =
      std::minmax_element(weeks.begin(), weeks.end(), [](const Week& a, const Week& b) { return a.degrees < b.degrees; });
  const Rungs rungs = rungs_of(coldest->degrees, hottest->degrees, fahrenheit ? 25.0 : 15.0);
  std::string text = wrap(chart.title, 0, width);
  for (int row = plot_rows - 1; row >= 0; --row) {
    const double base = rungs.low + rungs.step * row;
    std::string line = fmt::format("{:>5.0f} {} ", base, fahrenheit ? "°F" : "°C");
    for (const Week& week : weeks) {
      const double part = std::clamp((week.degrees - base) / rungs.step, 0.0, 1.0);
      line += eighths_high.at(static_cast<std::size_t>(std::lround(8.0 * part)));
    }
    while (line.ends_with(' ')) line.pop_back();
    text += line + "\n";
  }
  const std::string key =
      chart.readings.empty() ? "" : wrap("Bars: the forecast core. The page of --html has the readings on it too.", 0, width);
  return text + std::string(axis + 1, ' ') + months_line(weeks) + "\n" + key;
}

std::string plot_of(const ShareBars& bars, std::size_t width) {
  if (bars.parts.empty() || bars.wholes.empty()) return {};
  std::size_t widest = 0;
  for (const ShareBars::Part& part : bars.parts) widest = std::max(widest, width_of(part.name));
  constexpr std::size_t most = 16;
  constexpr std::size_t least = 9;
  if (widest + least * bars.wholes.size() > width) return {};
  const std::size_t each = std::min(most, (width - widest) / bars.wholes.size());
  const std::size_t bar = each - 7;
  std::string text = wrap(bars.title, 0, width) + std::string(widest, ' ');
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

namespace {

constexpr std::array<std::string_view, 4> shades{"█", "░", "▓", "▒"};

Volume sum_of_parts(const Bars::Bar& bar) {
  Volume whole;
  for (const Volume& part : bar.parts) whole += part;
  return whole;
}

/// Of one part to an eighth of a character, of several to the character, each in its shade.
std::string bar_in_shades(const Bars& bars, const Bars::Bar& bar, Volume most, double room) {
  if (bars.part_names.empty()) return bar_of(room * static_cast<double>(sum_of_parts(bar) / most));
  std::string shaded;
  Volume so_far;
  long drawn = 0;
  for (std::size_t part = 0; part < bar.parts.size(); ++part) {
    so_far += bar.parts[part];
    const long end = std::lround(room * static_cast<double>(so_far / most));
    for (; drawn < end; ++drawn) shaded += shades.at(part % shades.size());
  }
  return shaded;
}

std::string key_of_shades(const Bars& bars, std::size_t width) {
  if (bars.part_names.empty()) return {};
  std::string key;
  for (std::size_t part = 0; part < bars.part_names.size(); ++part)
    key += fmt::format("{}{} {}", part == 0 ? "" : "  ", shades.at(part % shades.size()), bars.part_names[part]);
  return wrap(key, 0, width);
}

}  // namespace

std::string plot_of(const Bars& bars, const Show& show, std::size_t width) {
  Volume most;
  std::size_t widest = 0;
  for (const Bars::Bar& bar : bars.bars) {
    most = std::max(most, sum_of_parts(bar));
    widest = std::max(widest, width_of(show.words(bar.name)));
  }
  constexpr std::size_t room = 24;
  if (!is_positive(most) || widest + room + 20 > width) return {};
  std::string text = wrap(bars.title, 0, width);
  for (const Bars::Bar& bar : bars.bars) {
    const std::string drawn = bar_in_shades(bars, bar, most, static_cast<double>(room));
    const std::string line = fmt::format("{}  {}{}", padded(show.words(bar.name), widest), drawn, drawn.empty() ? "" : " ");
    text += wrap(line + show.words(bar.says), widest + 2, width);
  }
  return text + key_of_shades(bars, width);
}

}  // namespace heapwright
