#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

constexpr double sheet_width = 640.0;
constexpr double sheet_height = 310.0;
constexpr double left = 52.0;
constexpr double right_edge = 628.0;
constexpr double top = 14.0;
constexpr double bottom = 262.0;

/// Degrees in the person's unit, and where they and the days lie on the sheet.
class Axes {
 public:
  Axes(const Chart& chart, const Show& show) : fahrenheit_(show.in_us_units()), first_(day_of(chart.points.front().date)) {
    days_ = std::max(1.0, day_of(chart.points.back().date) - first_);
    const double step = tick_step();
    low_ = high_ = degrees(chart.points.front().likely);
    for (const Chart::Point& point : chart.points) {
      low_ = std::min(low_, degrees(point.low));
      high_ = std::max(high_, degrees(point.high));
      if (point.air) low_ = std::min(low_, degrees(*point.air));
    }
    for (const Chart::Reading& reading : chart.readings) {
      low_ = std::min(low_, degrees(reading.core));
      high_ = std::max(high_, degrees(reading.core));
    }
    low_ = step * std::floor(low_ / step);
    high_ = std::max(low_ + step, step * std::ceil(high_ / step));
  }

  double degrees(TemperaturePoint point) const { return fahrenheit_ ? point.fahrenheit() : point.celsius(); }
  double x(Date date) const { return left + (right_edge - left) * (day_of(date) - first_) / days_; }
  double y(double degrees) const { return bottom - (bottom - top) * (degrees - low_) / (high_ - low_); }
  double y(TemperaturePoint point) const { return y(degrees(point)); }
  double tick_step() const { return fahrenheit_ ? 20.0 : 10.0; }
  double low() const { return low_; }
  double high() const { return high_; }
  std::string_view unit() const { return fahrenheit_ ? "°F" : "°C"; }

 private:
  static double day_of(Date date) { return static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count()); }

  bool fahrenheit_;
  double first_;
  double days_ = 1.0;
  double low_ = 0.0;
  double high_ = 0.0;
};

std::string degree_lines(const Axes& axes) {
  std::string lines;
  for (double degrees = axes.low(); degrees <= axes.high() + 0.5; degrees += axes.tick_step()) {
    const double y = axes.y(degrees);
    lines +=
        svg::line(left, y, right_edge, y, "#ccc") + svg::text(left - 6.0, y + 4.0, "end", fmt::format("{:.0f} {}", degrees, axes.unit()));
  }
  return lines;
}

/// The first of each month, or of each second, third … where they would crowd.
std::string month_marks(const Chart& chart, const Axes& axes) {
  constexpr double room_for_a_month = 40.0;
  std::string marks;
  double last = 0.0;
  for (const Chart::Point& point : chart.points) {
    const double x = axes.x(point.date);
    if (point.date.day() != std::chrono::day(1) || x < last + room_for_a_month) continue;
    last = x;
    marks += svg::line(x, bottom, x, bottom + 5.0) + svg::text(x, bottom + 20.0, "middle", std::string(month_name(point.date.month())));
  }
  return marks;
}

std::string band(const Chart& chart, const Axes& axes) {
  std::string points;
  for (const Chart::Point& point : chart.points) points += fmt::format("{:.1f},{:.1f} ", axes.x(point.date), axes.y(point.high));
  for (auto point = chart.points.rbegin(); point != chart.points.rend(); ++point)
    points += fmt::format("{:.1f},{:.1f} ", axes.x(point->date), axes.y(point->low));
  return fmt::format("<polygon points=\"{}\" fill=\"#e2e2e2\"/>\n", points);
}

std::string line(const Chart& chart, const Axes& axes) {
  std::string points;
  for (const Chart::Point& point : chart.points) points += fmt::format("{:.1f},{:.1f} ", axes.x(point.date), axes.y(point.likely));
  return fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"#111\" stroke-width=\"2\"/>\n", points);
}

std::string air_line(const Chart& chart, const Axes& axes) {
  std::string points;
  for (const Chart::Point& point : chart.points) {
    if (point.air) points += fmt::format("{:.1f},{:.1f} ", axes.x(point.date), axes.y(*point.air));
  }
  if (points.empty()) return {};
  return fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"#111\" stroke-dasharray=\"2 4\"/>\n", points);
}

std::string dots(const Chart& chart, const Axes& axes) {
  std::string svg;
  for (const Chart::Reading& reading : chart.readings)
    svg += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3\" fill=\"#fff\" stroke=\"#111\"/>\n", axes.x(reading.date),
                       axes.y(reading.core));
  for (const Date turned : chart.turned)
    svg += fmt::format("<path d=\"M{0:.1f} {1:.1f}l-4 8h8z\" fill=\"#111\"/>\n", axes.x(turned), bottom - 8.0);
  return svg;
}

/// What its lines are.
std::string key_of(const Chart& chart) {
  std::string key = "line: the core, most likely; gray: eight times in ten";
  if (chart.points.front().air) key += "; dots: the air";
  if (!chart.readings.empty()) key += "; circles: read";
  if (!chart.turned.empty()) key += "; triangles: turned";
  return svg::text(left, bottom + 40.0, "start", key);
}

}  // namespace

std::string svg_of(const Chart& chart, const Show& show) {
  if (chart.points.empty()) return {};
  const Axes axes(chart, show);
  const std::string inside = band(chart, axes) + degree_lines(axes) + month_marks(chart, axes) + air_line(chart, axes) + line(chart, axes) +
                             dots(chart, axes) + key_of(chart);
  return svg::framed(sheet_width, sheet_height, chart.title, show.words(chart.in_words), inside);
}

}  // namespace heapwright
