#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg_parts.hpp"

namespace heapwright {
namespace {

constexpr double pair_left = 56.0;
constexpr double pair_right = svg::sheet_width - svg::margin;
constexpr double panel_height = 110.0;

/// All of the first at the left.
double x_of(double share_of_first) { return pair_right - (pair_right - pair_left) * share_of_first; }

/// One figure over the share of the first, with its window as a band.
struct Panel {
  std::string name;
  double low;  ///< of its axis
  double high;
  double window_low;
  double window_high;
  double step;
  std::string unit;
};

double y_of(const Panel& one, double edge, double value) {
  return edge + panel_height * (one.high - std::clamp(value, one.low, one.high)) / (one.high - one.low);
}

/// As far as the axis goes: what leaves it does so at its edge.
std::string curve_of(const Panel& one, double edge, const PairChart& chart,
                     const std::function<std::optional<double>(const PairChart::Point&)>& value) {
  std::string points;
  const auto add = [&](double share, double at) { points += fmt::format("{:.1f},{:.1f} ", x_of(share), y_of(one, edge, at)); };
  const auto is_on_axis = [&](double at) { return at >= one.low && at <= one.high; };
  std::optional<double> before;
  double share_before = 0.0;
  for (const PairChart::Point& point : chart.points) {
    std::optional<double> at = value(point);
    if (at && !std::isfinite(*at)) at.reset();
    if (at && before && is_on_axis(*at) != is_on_axis(*before)) {
      const double bound = std::max(*at, *before) > one.high ? one.high : one.low;
      add(share_before + (point.share_of_first - share_before) * (bound - *before) / (*at - *before), bound);
    }
    if (at && is_on_axis(*at)) add(point.share_of_first, *at);
    before = at;
    share_before = point.share_of_first;
  }
  return points;
}

std::string panel_of(const Panel& one, double edge, const PairChart& chart,
                     const std::function<std::optional<double>(const PairChart::Point&)>& value) {
  std::string inside;
  const double upper = y_of(one, edge, one.window_high);
  inside += fmt::format("<rect x=\"{}\" y=\"{:.1f}\" width=\"{}\" height=\"{:.1f}\" fill=\"#dcdcdc\"/>\n", pair_left, upper,
                        pair_right - pair_left, y_of(one, edge, one.window_low) - upper);
  for (double tick = one.low; tick <= one.high + 1e-9; tick += one.step) {
    inside += svg::line(pair_left, y_of(one, edge, tick), pair_right, y_of(one, edge, tick), "#bbb");
    inside += svg::text(pair_left - 6.0, y_of(one, edge, tick) + 4.0, "end", fmt::format("{:.0f}{}", tick, one.unit));
  }
  inside += fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"#111\" stroke-width=\"2\"/>\n", curve_of(one, edge, chart, value));
  inside += svg::text(svg::margin, edge - 12.0, "start", one.name);
  return inside;
}

}  // namespace

std::string svg_of(const PairChart& chart, const Show& show) {
  if (chart.points.empty()) return {};
  const Panel ratio{"C:N ratio, gray where it works", 0.0, 80.0, chart.ratio.low.value(), chart.ratio.high.value(), 20.0, ""};
  const Panel moisture{"Moisture without water, gray where it works", 0.0,  100.0, 100.0 * chart.moisture.low.value(),
                       100.0 * chart.moisture.high.value(),           25.0, " %"};
  constexpr double first_top = 30.0;
  constexpr double second_top = first_top + panel_height + 42.0;
  std::string inside = panel_of(ratio, first_top, chart, [](const PairChart::Point& point) -> std::optional<double> {
    return point.ratio ? std::optional(point.ratio->value()) : std::nullopt;
  });
  inside +=
      panel_of(moisture, second_top, chart, [](const PairChart::Point& point) { return std::optional(100.0 * point.moisture.value()); });
  const double axis = second_top + panel_height;
  for (const auto& [first, second] : {std::pair(1, 0), std::pair(3, 1), std::pair(1, 1), std::pair(1, 3), std::pair(0, 1)}) {
    const double x = x_of(static_cast<double>(first) / (first + second));
    inside += svg::line(x, axis, x, axis + 5.0) + svg::text(x, axis + 19.0,
                                                            first == 0    ? "end"
                                                            : second == 0 ? "start"
                                                                          : "middle",
                                                            fmt::format("{} : {}", first, second));
  }
  constexpr double half = 0.5 * svg::sheet_width - 2.0 * svg::margin;
  inside += svg::text(svg::margin, axis + 37.0, "start", svg::shortened("only " + chart.first_name, half)) +
            svg::text(pair_right, axis + 37.0, "end", svg::shortened("only " + chart.second_name, half)) +
            svg::text(0.5 * svg::sheet_width, axis + 55.0, "middle", "parts by loose volume, the first to the second");
  return svg::framed(svg::sheet_width, axis + 62.0, chart.title, show.words(chart.in_words), inside);
}

}  // namespace heapwright
