#include <fmt/format.h>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg_parts.hpp"

namespace heapwright {
namespace {

constexpr double share_row = 32.0;
constexpr double share_height = 24.0;
constexpr double shares_to = svg::sheet_width - svg::margin;
constexpr double most_for_a_whole = 120.0;

std::string bar_of_shares(const ShareBars& bars, std::size_t whole, double bar_from) {
  const double y = share_row * static_cast<double>(whole) + 6.0;
  std::string inside = svg::text(bar_from - 6.0, y + 17.0, "end", svg::shortened(bars.wholes[whole], most_for_a_whole));
  std::string labels;
  double from = 0.0;
  for (std::size_t part = 0; part < bars.parts.size(); ++part) {
    const double share = bars.parts[part].shares[whole];
    const double x = bar_from + (shares_to - bar_from) * from;
    const double width = (shares_to - bar_from) * share;
    const std::string label = fmt::format("{:.0f} %", 100.0 * share);
    if (share > 0.0) inside += svg::box(x, y, width, share_height, part);
    if (width >= svg::room_for(label) + 3.0) labels += svg::text_on_fill(x + 0.5 * width, y + 16.5, label);
    from += share;
  }
  return inside + labels;
}

}  // namespace

std::string svg_of(const ShareBars& bars, const Show& show) {
  if (bars.parts.empty()) return {};
  const double bar_from = svg::margin + svg::room_for(bars.wholes, most_for_a_whole) + 6.0;
  std::string inside;
  for (std::size_t whole = 0; whole < bars.wholes.size(); ++whole) inside += bar_of_shares(bars, whole, bar_from);
  std::vector<std::string> names;
  for (const ShareBars::Part& part : bars.parts) names.push_back(part.name);
  const double below = share_row * static_cast<double>(bars.wholes.size()) + 8.0;
  const svg::Legend legend = svg::legend(names, below);
  return svg::framed(svg::sheet_width, below + legend.height + 2.0, bars.title, show.words(bars.in_words), inside + legend.inside);
}

}  // namespace heapwright
