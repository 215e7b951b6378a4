#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <vector>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg_parts.hpp"
#include "heapwright/time/date.hpp"

namespace heapwright {
namespace {

constexpr double chart_left = 56.0;
constexpr double chart_top = 12.0;
constexpr double chart_bottom = 212.0;

double day_number(Date date) { return static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count()); }

/// Of what is to be shown, from the lowest to the highest.
struct Extent {
  double low = 0.0;
  double high = 0.0;
  bool is_empty = true;

  void take(double value) {
    low = is_empty ? value : std::min(low, value);
    high = is_empty ? value : std::max(high, value);
    is_empty = false;
  }
};

Extent days_of_chart(const Chart& chart) {
  Extent days;
  for (const Chart::Point& point : chart.points) days.take(day_number(point.date));
  for (const Chart::Reading& reading : chart.readings) days.take(day_number(reading.date));
  for (const Date turned : chart.turned) days.take(day_number(turned));
  return days;
}

/// Degrees in the person's unit, and where they and the days lie on the sheet.
class Axes {
 public:
  Axes(const Chart& chart, const Show& show) : fahrenheit_(show.in_us_units()), both_(show.in_us_units() && show.in_si_units()) {
    const Extent days = days_of_chart(chart);
    first_ = days.low;
    days_ = std::max(1.0, days.high - days.low);
    Extent shown;
    for (const Chart::Point& point : chart.points) {
      for (const TemperaturePoint core : {point.low, point.likely, point.high}) shown.take(degrees(core));
      if (point.air) shown.take(degrees(*point.air));
    }
    for (const Chart::Reading& reading : chart.readings) shown.take(degrees(reading.core));
    low_ = tick_step() * std::floor(shown.low / tick_step());
    high_ = std::max(low_ + tick_step(), tick_step() * std::ceil(shown.high / tick_step()));
  }

  double degrees(TemperaturePoint point) const { return fahrenheit_ ? point.fahrenheit() : point.celsius(); }
  double x(double day) const { return chart_left + (right_edge() - chart_left) * (day - first_) / days_; }
  double x(Date date) const { return x(day_number(date)); }
  double y(double degrees) const { return chart_bottom - (chart_bottom - chart_top) * (degrees - low_) / (high_ - low_); }
  double y(TemperaturePoint point) const { return y(degrees(point)); }
  /// In both units the other one stands to the right.
  double right_edge() const { return svg::sheet_width - (both_ ? chart_left : 18.0); }
  double tick_step() const { return fahrenheit_ ? 20.0 : 10.0; }
  double low() const { return low_; }
  double high() const { return high_; }
  double first_day() const { return first_; }
  double days() const { return days_; }
  std::string label(double degrees) const { return fmt::format("{:.0f} {}", degrees, fahrenheit_ ? "°F" : "°C"); }
  std::string label_at_right(double degrees) const {
    return both_ ? fmt::format("{:.0f} °C", TemperaturePoint::from_fahrenheit(degrees).celsius()) : std::string();
  }

 private:
  bool fahrenheit_;
  bool both_;
  double first_ = 0.0;
  double days_ = 1.0;
  double low_ = 0.0;
  double high_ = 0.0;
};

std::string degree_lines(const Axes& axes) {
  std::string lines;
  for (double degrees = axes.low(); degrees <= axes.high() + 0.5; degrees += axes.tick_step()) {
    const double y = axes.y(degrees);
    lines += svg::line(chart_left, y, axes.right_edge(), y, "#bbb") + svg::text(chart_left - 6.0, y + 4.0, "end", axes.label(degrees));
    if (const std::string other = axes.label_at_right(degrees); !other.empty())
      lines += svg::text(axes.right_edge() + 6.0, y + 4.0, "start", other);
  }
  return lines;
}

/// Of a few weeks days are named below the sheet, of more the months.
bool is_marked_by_day(const Axes& axes) { return axes.days() <= 70.0; }

/// Each month, or each second, third … where they would crowd; January is always among them.
unsigned months_between_marks(const Axes& axes) {
  constexpr double room = 32.0;
  const double month = 30.4 * (axes.right_edge() - chart_left) / axes.days();
  for (const unsigned months : {1U, 2U, 3U, 6U}) {
    if (months * month >= room) return months;
  }
  return 12;
}

std::vector<Date> marked_days(const Axes& axes) {
  const bool by_day = is_marked_by_day(axes);
  const int step = by_day ? static_cast<int>(std::ceil(axes.days() / 4.0)) : 1;
  const unsigned months = months_between_marks(axes);
  std::vector<Date> days;
  for (int day = 0; day <= static_cast<int>(axes.days()); day += step) {
    const Date date(std::chrono::sys_days(std::chrono::days(static_cast<int>(axes.first_day()) + day)));
    const bool begins_a_month = date.day() == std::chrono::day(1) && (static_cast<unsigned>(date.month()) - 1) % months == 0;
    if (by_day || begins_a_month) days.push_back(date);
  }
  return days;
}

/// The first of each year with the year.
std::string date_marks(const Axes& axes) {
  std::string marks;
  std::optional<std::chrono::year> year;
  for (const Date date : marked_days(axes)) {
    const double x = axes.x(date);
    const std::string month(month_name(date.month()));
    const std::string name = is_marked_by_day(axes) ? fmt::format("{} {}", month, static_cast<unsigned>(date.day())) : month;
    if (x + 0.5 * svg::room_for(name) > svg::sheet_width) continue;
    marks += svg::line(x, chart_bottom, x, chart_bottom + 5.0) + svg::text(x, chart_bottom + 19.0, "middle", name);
    if (year != date.year()) marks += svg::text(x, chart_bottom + 34.0, "middle", fmt::format("{}", static_cast<int>(date.year())));
    year = date.year();
  }
  return marks;
}

std::string point_at(double x, double y) { return fmt::format("{:.1f},{:.1f} ", x, y); }

std::string band(const Chart& chart, const Axes& axes) {
  if (chart.points.empty()) return {};
  std::string points;
  for (const Chart::Point& point : chart.points) points += point_at(axes.x(point.date), axes.y(point.high));
  for (auto point = chart.points.rbegin(); point != chart.points.rend(); ++point)
    points += point_at(axes.x(point->date), axes.y(point->low));
  return fmt::format("<polygon points=\"{}\" fill=\"#dcdcdc\"/>\n", points);
}

std::string polyline(const std::string& points, std::string_view how) {
  return points.empty() ? std::string() : fmt::format("<polyline points=\"{}\" fill=\"none\" stroke=\"#111\" {}/>\n", points, how);
}

constexpr std::string_view core_stroke = "stroke-width=\"2\" stroke-linejoin=\"round\"";
constexpr std::string_view air_stroke = "stroke-width=\"1.4\" stroke-dasharray=\"1.5 4\"";

std::string core_line(const Chart& chart, const Axes& axes) {
  std::string points;
  for (const Chart::Point& point : chart.points) points += point_at(axes.x(point.date), axes.y(point.likely));
  return polyline(points, core_stroke);
}

std::string air_line(const Chart& chart, const Axes& axes) {
  std::string points;
  for (const Chart::Point& point : chart.points) {
    if (point.air) points += point_at(axes.x(point.date), axes.y(*point.air));
  }
  return polyline(points, air_stroke);
}

std::string reading_at(double x, double y) {
  return fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"3\" fill=\"#fff\" stroke=\"#111\"/>\n", x, y);
}

std::string turning_at(double x, double foot) {
  return fmt::format("<path d=\"M{:.1f} {:.1f}l-4.5 9h9z\" fill=\"#111\"/>\n", x, foot - 9.0);
}

std::string dots(const Chart& chart, const Axes& axes) {
  std::string svg;
  for (const Chart::Reading& reading : chart.readings) svg += reading_at(axes.x(reading.date), axes.y(reading.core));
  for (const Date turned : chart.turned) svg += turning_at(axes.x(turned), chart_bottom);
  return svg;
}

/// What its lines and marks are, each beside a sample.
class KeyOfChart {
 public:
  void add(const std::function<std::string(double, double)>& sample, const std::string& name) {
    const double x = svg::margin + (count_ % 2 == 0 ? 0.0 : 0.5 * (svg::sheet_width - 2.0 * svg::margin));
    const double middle = chart_bottom + 52.0 + 20.0 * static_cast<double>(count_ / 2);
    inside_ += sample(x, middle) + svg::text(x + 34.0, middle + 4.5, "start", name);
    ++count_;
  }
  const std::string& inside() const { return inside_; }
  double foot() const { return chart_bottom + 44.0 + 20.0 * static_cast<double>((count_ + 1) / 2); }

 private:
  std::size_t count_ = 0;
  std::string inside_;
};

KeyOfChart key_of(const Chart& chart) {
  KeyOfChart key;
  const auto stroke = [](std::string_view how) {
    return [how](double x, double y) { return polyline(point_at(x, y) + point_at(x + 28.0, y), how); };
  };
  if (!chart.points.empty()) {
    key.add(stroke(core_stroke), "core, most likely");
    key.add([](double x,
               double y) { return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"28\" height=\"12\" fill=\"#dcdcdc\"/>\n", x, y - 6.0); },
            "eight times in ten");
  }
  const bool with_air =
      std::any_of(chart.points.begin(), chart.points.end(), [](const Chart::Point& point) { return point.air.has_value(); });
  if (with_air) key.add(stroke(air_stroke), "air");
  if (!chart.readings.empty()) key.add([](double x, double y) { return reading_at(x + 14.0, y); }, "core, measured");
  if (!chart.turned.empty()) key.add([](double x, double y) { return turning_at(x + 14.0, y + 4.5); }, "turned");
  return key;
}

}  // namespace

std::string svg_of(const Chart& chart, const Show& show) {
  if (chart.points.empty() && chart.readings.empty()) return {};
  const Axes axes(chart, show);
  const KeyOfChart key = key_of(chart);
  const std::string inside = band(chart, axes) + degree_lines(axes) + date_marks(axes) + air_line(chart, axes) + core_line(chart, axes) +
                             dots(chart, axes) + key.inside();
  return svg::framed(svg::sheet_width, key.foot() + 4.0, chart.title, show.words(chart.in_words), inside);
}

}  // namespace heapwright
