#include <fmt/format.h>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg.hpp"

namespace heapwright {
namespace {

constexpr double bars_width = 640.0;
constexpr double bar_from = 92.0;
constexpr double bar_to = 628.0;
constexpr double row_height = 34.0;
constexpr double bar_height = 24.0;
constexpr double room_for_a_label = 0.075;  // of the bar: "12 %"
constexpr double legend_line = 22.0;

std::string bar_of(const ShareBars& bars, std::size_t whole, const std::string& name) {
  const double y = row_height * static_cast<double>(whole) + 6.0;
  std::string inside = svg::text(bar_from - 8.0, y + 17.0, "end", bars.wholes[whole]);
  std::string labels;
  double from = 0.0;
  for (std::size_t part = 0; part < bars.parts.size(); ++part) {
    const double share = bars.parts[part].shares[whole];
    const double x = bar_from + (bar_to - bar_from) * from;
    const double width = (bar_to - bar_from) * share;
    if (share > 0.0) inside += svg::box(x, y, width, bar_height, svg::fill(name, part));
    if (share >= room_for_a_label) labels += svg::text_on_fill(x + 0.5 * width, y + 17.0, fmt::format("{:.0f} %", 100.0 * share));
    from += share;
  }
  return inside + labels;
}

std::string legend_of(const ShareBars& bars, double y, const std::string& name) {
  std::string inside;
  constexpr double half = 0.5 * (bar_to - bar_from);
  for (std::size_t part = 0; part < bars.parts.size(); ++part) {
    const double x = bar_from + (part % 2 == 0 ? 0.0 : half);
    const double line = y + legend_line * static_cast<double>(part / 2);
    inside += svg::box(x, line, 18.0, 14.0, svg::fill(name, part)) + svg::text(x + 26.0, line + 12.0, "start", bars.parts[part].name);
  }
  return inside;
}

}  // namespace

std::string svg_of(const ShareBars& bars, const Show& show) {
  if (bars.parts.empty()) return {};
  const std::string name = svg::id_of(bars.title);
  std::string inside = svg::fill_definitions(name);
  for (std::size_t whole = 0; whole < bars.wholes.size(); ++whole) inside += bar_of(bars, whole, name);
  const double legend = row_height * static_cast<double>(bars.wholes.size()) + 10.0;
  inside += legend_of(bars, legend, name);
  const double height = legend + legend_line * static_cast<double>((bars.parts.size() + 1) / 2) + 4.0;
  return svg::framed(bars_width, height, bars.title, show.words(bars.in_words), inside);
}

}  // namespace heapwright
