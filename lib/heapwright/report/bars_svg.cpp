#include <fmt/format.h>

#include <algorithm>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg.hpp"

namespace heapwright {
namespace {

constexpr double bars_sheet = 640.0;
constexpr double from_x = 150.0;
constexpr double to_x = 470.0;  // what a bar says stands to its right
constexpr double line_height = 26.0;
constexpr double bar_thickness = 18.0;

Volume longest(const Bars& bars) {
  Volume most;
  for (const Bars::Bar& bar : bars.bars) {
    Volume whole;
    for (const Volume& part : bar.parts) whole += part;
    most = std::max(most, whole);
  }
  return most;
}

}  // namespace

std::string svg_of(const Bars& bars, const Show& show) {
  const Volume most = longest(bars);
  if (!is_positive(most)) return {};
  const std::string name = svg::id_of(bars.title);
  std::string inside = svg::fill_definitions(name);
  double y = 6.0;
  for (const Bars::Bar& bar : bars.bars) {
    inside += svg::text(from_x - 8.0, y + 14.0, "end", show.words(bar.name));
    double x = from_x;
    for (std::size_t part = 0; part < bar.parts.size(); ++part) {
      const double width = (to_x - from_x) * static_cast<double>(bar.parts[part] / most);
      if (width > 0.0) inside += svg::box(x, y, width, bar_thickness, svg::fill(name, part));
      x += width;
    }
    inside += svg::text(x + 8.0, y + 14.0, "start", show.words(bar.says));
    y += line_height;
  }
  inside += svg::line(from_x, 2.0, from_x, y);
  for (std::size_t part = 0; part < bars.part_names.size(); ++part) {
    const double x = from_x + 230.0 * static_cast<double>(part % 2);
    const double at = y + 8.0 + 22.0 * static_cast<double>(part / 2);
    inside += svg::box(x, at, 18.0, 14.0, svg::fill(name, part)) + svg::text(x + 26.0, at + 12.0, "start", bars.part_names[part]);
  }
  const double legend = bars.part_names.empty() ? 0.0 : 12.0 + 22.0 * static_cast<double>((bars.part_names.size() + 1) / 2);
  return svg::framed(bars_sheet, y + legend + 4.0, bars.title, show.words(bars.in_words), inside);
}

}  // namespace heapwright
