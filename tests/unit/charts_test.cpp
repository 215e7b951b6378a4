#include "charts.hpp"

#include <algorithm>
#include <limits>

#include "heapwright/maturity/hottest_of_days.hpp"
#include "heapwright/order/loads.hpp"
#include "heapwright/page/page.hpp"
#include "heapwright/report/columns.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/report/plot_text_parts.hpp"
#include "heapwright/report/svg_parts.hpp"
#include "heapwright/units/shown_units.hpp"

using namespace heapwright;
using charts::Element;
using charts::Svg;

namespace {

using std::chrono::sys_days;

const Show us(ShownUnits::us);
const Show si(ShownUnits::si);
const Show both(ShownUnits::both);
const std::string hostile = "<b>&\"'</b> ]]> \U0001F342 a name that goes on for longer than any sheet has room";
constexpr double rounding = 0.11;  // coordinates are written to a tenth, and two of them are compared

TemperaturePoint celsius(double degrees) { return TemperaturePoint::from_celsius(degrees); }

Date day(int later) { return Date(sys_days(std::chrono::year(2026) / 10 / 24) + std::chrono::days(later)); }

/// A core that warms and cools, ten degrees around it, and the air.
Chart forecast_of_days(int days) {
  Chart chart{"Temperature of its core", {}, {}, {}, "hot, then cold."};
  for (int i = 0; i < days; ++i) {
    const double core = 35.0 + 25.0 * std::sin(0.05 * i);
    chart.points.push_back({day(i), celsius(core - 10.0), celsius(core), celsius(core + 10.0), celsius(5.0)});
  }
  return chart;
}

Chart measured() {
  Chart chart = forecast_of_days(60);
  chart.readings = {{day(1), celsius(40.0)}, {day(9), celsius(66.0)}, {day(12), celsius(48.0)}};
  chart.turned = {day(10), day(20)};
  return chart;
}

ShareBars shares() {
  return {"Each feedstock's share",
          {"volume", "carbon"},
          {{"autumn leaves", {0.6, 0.75}}, {"grass clippings", {0.3, 0.25}}, {"sawdust", {0.1, 0.0}}},
          "leaves most."};
}

Bars bars() {
  return {"Compost for the lawn",
          {"of your own", "to buy"},
          {{"Sep 2027", {0.5 * unit::m3, 1.5 * unit::m3}, Volume(2.0 * unit::m3)},
           {"May 2028", {1.0 * unit::m3, Volume()}, Volume(1.0 * unit::m3)},
           {"Sep 2028", {Volume(), Volume()}, Volume()}},
          "more in September."};
}

PairChart pair() {
  PairChart chart{
      "leaves and clippings, all their mixes", "leaves",          "clippings", {}, {carbon_to_nitrogen(25.0), carbon_to_nitrogen(35.0)},
      {wet_basis(0.5), wet_basis(0.6)},        "right at 2 to 1."};
  for (int i = 0; i <= 20; ++i) {
    const double share = i / 20.0;
    chart.points.push_back({share, carbon_to_nitrogen(17.0 + 40.0 * share), wet_basis(0.8 - 0.4 * share)});
  }
  return chart;
}

/// One of each kind, in some units.
std::vector<std::string> one_of_each(const Show& show) {
  const std::string words = "in words";
  return {svg_of(measured(), show),
          svg_of(shares(), show),
          svg_of(bars(), show),
          svg_of(pair(), show),
          svg_of(Drawing{SquareOfGround{5.0 * unit::m}, words}, show),
          svg_of(Drawing{ConeOnGround{4.3 * unit::m, 1.6 * unit::m}, words}, show),
          svg_of(Drawing{TrueThickness{0.25 * unit::inch}, words}, show)};
}

/// Whether each number is one, and each point in the frame.
void check_frame(const Svg& svg) {
  const std::vector<std::string> across{"x", "x1", "x2", "cx"};
  const std::vector<std::string> down{"y", "y1", "y2", "cy"};
  for (const Element& element : svg.elements()) {
    for (const auto& [name, value] : element.attributes) {
      if (name == "aria-label" || name == "stroke-linejoin") continue;
      CAPTURE(element.name, name, value);
      CHECK(value.find("nan") == std::string::npos);
      CHECK(value.find("inf") == std::string::npos);
      if (std::find(across.begin(), across.end(), name) != across.end()) {
        CHECK(element.number(name) >= 0.0);
        CHECK(element.number(name) <= svg.width());
      }
      if (std::find(down.begin(), down.end(), name) != down.end()) {
        CHECK(element.number(name) >= 0.0);
        CHECK(element.number(name) <= svg.height());
      }
      if (name == "points") {
        const std::vector<double> numbers = Svg::numbers(value);
        REQUIRE(numbers.size() % 2 == 0);
        for (std::size_t i = 0; i < numbers.size(); i += 2) {
          CHECK((numbers[i] >= 0.0 && numbers[i] <= svg.width()));
          CHECK((numbers[i + 1] >= 0.0 && numbers[i + 1] <= svg.height()));
        }
      }
    }
    if (element.name != "rect") continue;
    const double right = (element.attributes.contains("x") ? element.number("x") : 0.0) + element.number("width");
    const double foot = (element.attributes.contains("y") ? element.number("y") : 0.0) + element.number("height");
    CHECK(right <= svg.width() + rounding);
    CHECK(foot <= svg.height() + rounding);
  }
}

/// Boxes with an outline of such a height: the bars, without their legend and the plates of their words.
std::vector<Element> bars_in(const Svg& svg, double height) {
  std::vector<Element> found;
  for (const Element& box : svg.all("rect")) {
    if (box.attributes.contains("stroke") && box.number("height") == height) found.push_back(box);
  }
  return found;
}

struct PointOnSheet {
  double x;
  double y;
};
std::vector<PointOnSheet> points_of(const Element& element) {
  const std::vector<double> numbers = Svg::numbers(element.attributes.at("points"));
  std::vector<PointOnSheet> points;
  for (std::size_t i = 0; i + 1 < numbers.size(); i += 2) points.push_back({numbers[i], numbers[i + 1]});
  return points;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = text.find('\n', at);
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

std::size_t count_of(const std::string& text, std::string_view what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + what.size())) ++count;
  return count;
}

}  // namespace

TEST_CASE("each chart is whole, in its frame, and told in words", "[charts]") {
  for (const Show& show : {us, si, both}) {
    for (const std::string& text : one_of_each(show)) {
      const Svg svg(text);
      CAPTURE(text.substr(0, 200));
      const Element& root = svg.elements().front();
      CHECK(root.name == "svg");
      CHECK(root.is("xmlns", "http://www.w3.org/2000/svg"));
      CHECK(root.is("role", "img"));
      CHECK_FALSE(root.attributes.at("aria-label").empty());
      REQUIRE(svg.all("title").size() == 1);
      REQUIRE(svg.all("desc").size() == 1);
      CHECK_FALSE(svg.all("title").front().text.empty());
      CHECK_FALSE(svg.all("desc").front().text.empty());
      check_frame(svg);
      for (const Element& element : svg.elements()) {
        CHECK_FALSE(element.attributes.contains("id"));  // so that no two charts of a page share one
        CHECK_FALSE(element.attributes.contains("href"));
      }
      CHECK(text.find("url(") == std::string::npos);
    }
  }
}

TEST_CASE("names are escaped, and shortened where they have no room", "[charts]") {
  Chart chart = measured();
  chart.title = hostile;
  chart.in_words = hostile;
  ShareBars share_bars = shares();
  share_bars.title = share_bars.wholes[0] = share_bars.parts[0].name = hostile;
  Bars volumes = bars();
  volumes.title = volumes.part_names[0] = hostile;
  volumes.bars[0].name = volumes.bars[1].says = hostile;
  PairChart mixes = pair();
  mixes.title = mixes.first_name = mixes.second_name = hostile;
  for (const std::string& text : {svg_of(chart, us), svg_of(share_bars, us), svg_of(volumes, us), svg_of(mixes, us)}) {
    const Svg svg(text);
    CHECK(svg.all("title").front().text == hostile);
    CHECK(svg.all("b").empty());
    check_frame(svg);
    for (const Element& words : svg.all("text")) {
      const double room = svg::room_for(words.text);
      const double x = words.number("x");
      const double left = words.is("text-anchor", "start") ? x : words.is("text-anchor", "end") ? x - room : x - 0.5 * room;
      CAPTURE(words.text);
      CHECK(left >= -rounding);
      CHECK(left + room <= svg.width() + rounding);
    }
  }
}

TEST_CASE("a text is shortened between its characters", "[charts]") {
  CHECK(svg::shortened("leaves", 100.0) == "leaves");
  const std::string short_of_snails = svg::shortened("\U0001F40C\U0001F40C\U0001F40C\U0001F40C", 3.0 * svg::text_size);
  CHECK(short_of_snails == "\U0001F40C\U0001F40C…");
  for (double room = 20.0; room < 200.0; room += 7.0) CHECK(svg::room_for(svg::shortened(hostile, room)) <= room);
  CHECK(svg::shortened("", 0.0).empty());
}

TEST_CASE("degrees stand on the axis in the person's unit, in both at either side", "[charts]") {
  const Svg in_us(svg_of(measured(), us));
  CHECK(in_us.says("140 °F"));
  CHECK_FALSE(in_us.says("60 °C"));
  const Svg in_si(svg_of(measured(), si));
  CHECK(in_si.says("60 °C"));
  CHECK_FALSE(in_si.says("140 °F"));
  const Svg in_both(svg_of(measured(), both));
  CHECK(in_both.says("140 °F"));
  CHECK(in_both.says("60 °C"));
  std::map<std::string, double> at;
  for (const Element& text : in_both.all("text")) at[text.text] = text.number("y");
  CHECK(at["140 °F"] == at["60 °C"]);  // 140 °F is 60 °C
  CHECK(Svg(svg_of(bars(), us)).says("2.6 cu yd"));
  CHECK(Svg(svg_of(bars(), si)).says("2 m3"));
  CHECK(Svg(svg_of(pair(), us)).says("50 %"));
}

TEST_CASE("the days of a chart are named, with their year", "[charts]") {
  const Svg weeks(svg_of(forecast_of_days(30), us));
  CHECK(weeks.says("Oct 24"));
  CHECK(weeks.says("2026"));
  const Svg months(svg_of(forecast_of_days(280), us));
  for (const char* name : {"Nov", "Dec", "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "2026", "2027"}) CHECK(months.says(name));
  const Svg years(svg_of(forecast_of_days(1100), us));
  for (const char* name : {"Jan", "2027", "2028", "2029"}) CHECK(years.says(name));
  for (const int days : {1, 2, 3, 40, 71, 75, 100, 400, 700, 1100}) {
    const Svg svg(svg_of(forecast_of_days(days), both));
    std::vector<double> marks;
    for (const Element& text : svg.all("text")) {
      if (text.number("y") == 231.0) marks.push_back(text.number("x"));
    }
    CAPTURE(days);
    CHECK_FALSE(marks.empty());
    for (std::size_t i = 1; i < marks.size(); ++i) CHECK(marks[i] - marks[i - 1] >= svg::room_for("Nov"));
  }
}

TEST_CASE("the band encloses the line, and readings and turnings lie on their days", "[charts]") {
  const Chart chart = measured();
  const Svg svg(svg_of(chart, si));
  const std::vector<PointOnSheet> band = points_of(svg.all("polygon").at(0));
  std::vector<Element> lines = svg.all("polyline");
  const auto is_core = [&](const Element& line) { return line.is("stroke-width", "2") && points_of(line).size() == chart.points.size(); };
  const auto found = std::find_if(lines.begin(), lines.end(), is_core);
  REQUIRE(found != lines.end());
  const std::vector<PointOnSheet> core = points_of(*found);
  REQUIRE(band.size() == 2 * core.size());
  for (std::size_t i = 0; i < core.size(); ++i) {
    const PointOnSheet& high = band[i];
    const PointOnSheet& low = band[band.size() - 1 - i];
    CHECK(high.x == core[i].x);
    CHECK(low.x == core[i].x);
    CHECK(high.y < core[i].y);
    CHECK(core[i].y < low.y);
    CHECK(low.y - core[i].y == Approx(core[i].y - high.y).margin(rounding));  // ten degrees either way
  }
  std::vector<Element> circles = svg.all("circle");
  REQUIRE(circles.size() == chart.readings.size() + 1);  // one in the key
  CHECK(circles[0].number("cx") == core[1].x);
  CHECK(circles[1].number("cy") < circles[0].number("cy"));  // 66 °C over 40 °C
  CHECK(svg.says("core, measured"));
  CHECK(svg.says("turned"));
  CHECK(svg.says("air"));
  CHECK(svg.all("path").size() == chart.turned.size() + 1);
}

TEST_CASE("bars are as long as what they stand for, and all as high", "[charts]") {
  const Svg svg(svg_of(bars(), us));
  const std::vector<Element> boxes = bars_in(svg, 18.0);
  REQUIRE(boxes.size() == 3);  // none for what is nothing
  CHECK(boxes[1].number("width") == Approx(3.0 * boxes[0].number("width")).margin(3.0 * rounding));
  CHECK(boxes[2].number("width") == Approx(2.0 * boxes[0].number("width")).margin(2.0 * rounding));
  CHECK(boxes[1].number("x") == Approx(boxes[0].number("x") + boxes[0].number("width")).margin(rounding));
  CHECK(boxes[2].number("x") == boxes[0].number("x"));
  CHECK(boxes[0].attributes.at("fill") != boxes[1].attributes.at("fill"));
  CHECK(svg.says("of your own"));
  CHECK(svg.says("to buy"));
}

TEST_CASE("shares fill their bar, each with its own fill", "[charts]") {
  const Svg svg(svg_of(shares(), us));
  const std::vector<Element> boxes = bars_in(svg, 24.0);
  REQUIRE(boxes.size() == 5);
  const double whole = boxes[0].number("width") + boxes[1].number("width") + boxes[2].number("width");
  CHECK(boxes[0].number("width") / whole == Approx(0.6).margin(0.001));
  CHECK(boxes[3].number("width") / whole == Approx(0.75).margin(0.001));
  CHECK(boxes[3].number("width") + boxes[4].number("width") == Approx(whole).margin(2.0 * rounding));
  CHECK(svg.says("60 %"));
  CHECK(svg.says("sawdust"));
  std::vector<std::string> looks;
  for (std::size_t part = 0; part < svg::fills; ++part) looks.push_back(svg::box(0.0, 0.0, 40.0, 20.0, part));
  std::sort(looks.begin(), looks.end());
  CHECK(std::unique(looks.begin(), looks.end()) == looks.end());
}

TEST_CASE("hatches stay within their box", "[charts]") {
  for (std::size_t part = 0; part < svg::fills; ++part) {
    for (const double width : {0.0, 0.4, 3.0, 18.0, 310.0}) {
      const Svg svg("<svg>" + svg::box(20.0, 30.0, width, 14.0, part) + "</svg>");
      for (const Element& path : svg.all("path")) {
        std::string place = path.attributes.at("d");
        for (std::size_t step = place.find("h.01"); step != std::string::npos; step = place.find("h.01")) place.erase(step, 4);
        CAPTURE(part, width, place);
        const std::vector<double> numbers = Svg::numbers(place);
        for (std::size_t i = 0; i < numbers.size(); ++i) {
          const bool down = i % 2 == 1;
          CHECK(numbers[i] >= (down ? 30.0 : 20.0) - rounding);
          CHECK(numbers[i] <= (down ? 44.0 : 20.0 + width) + rounding);
        }
      }
    }
  }
}

TEST_CASE("parts without names look alike, as the loads of an order do", "[charts]") {
  OrderLine line;
  line.volume = 12.0 * unit::cubic_yard;
  line.loads = 3;
  const std::vector<Volume> loads = loads_to_draw(line);
  REQUIRE(loads.size() == 3);
  CHECK(value_in(unit::cubic_yard, loads[2]) == Approx(4.0));
  Bars chart{"What comes", {}, {{"school field", loads, Volume(line.volume)}}, "3 loads."};
  const Svg svg(svg_of(chart, us));
  const std::vector<Element> boxes = bars_in(svg, 18.0);
  REQUIRE(boxes.size() == 3);
  CHECK(boxes[0].attributes.at("fill") == boxes[2].attributes.at("fill"));
  CHECK(boxes[0].number("width") == Approx(boxes[2].number("width")).margin(rounding));
  line.loads = 0;  // bags that are carried home
  CHECK(loads_to_draw(line) == std::vector<Volume>{line.volume});
}

TEST_CASE("up to two dozen loads are drawn, more of them as one bar", "[charts][order]") {
  OrderLine line;
  line.volume = 480.0 * unit::cubic_yard;
  line.loads = most_loads_drawn;
  CHECK(loads_to_draw(line).size() == 24);
  line.loads = most_loads_drawn + 1;
  CHECK(loads_to_draw(line) == std::vector<Volume>{line.volume});
  line.loads = 100000000;  // of each of which a list would take most of a gigabyte
  CHECK(loads_to_draw(line).size() == 1);
  CHECK(count_of_loads(line) == 100000000);
  CHECK(value_in(unit::cubic_yard, one_load_of(line)) == Approx(4.8e-6));
}

TEST_CASE("the windows of a mix are bands across their panels", "[charts]") {
  const Svg svg(svg_of(pair(), us));
  std::vector<Element> windows;
  for (const Element& box : svg.all("rect")) {
    if (box.is("fill", "#dcdcdc")) windows.push_back(box);
  }
  REQUIRE(windows.size() == 2);
  CHECK(windows[0].number("height") / 10.0 == Approx(110.0 / 80.0).margin(0.01));   // 25 to 35 of 0 to 80
  CHECK(windows[1].number("height") / 10.0 == Approx(110.0 / 100.0).margin(0.01));  // 50 to 60 of 0 to 100 %
  CHECK(windows[0].number("width") == windows[1].number("width"));
  const std::vector<Element> lines = svg.all("polyline");
  REQUIRE(lines.size() == 2);
  CHECK(points_of(lines[0]).front().x > points_of(lines[0]).back().x);  // all of the first at the left
  CHECK(svg.says("only leaves"));
  CHECK(svg.says("only clippings"));
}

TEST_CASE("a curve that leaves its axis leaves it at the edge", "[charts]") {
  PairChart chart = pair();
  for (PairChart::Point& point : chart.points) point.ratio = carbon_to_nitrogen(20.0 + 400.0 * point.share_of_first);
  const Svg svg(svg_of(chart, us));
  const std::vector<PointOnSheet> curve = points_of(svg.all("polyline").at(0));
  const std::vector<PointOnSheet> whole = points_of(svg.all("polyline").at(1));
  const double across = whole.front().x - whole.back().x;  // none to all of the first
  // It is 20 without the first, and 80, the end of the axis, at 15 %.
  CHECK(curve.back().x == Approx(whole.front().x - 0.15 * across).margin(2.0 * rounding));
  std::map<std::string, double> at;
  for (const Element& text : svg.all("text")) at[text.text] = text.number("y");
  CHECK(curve.back().y == Approx(at["80"] - 4.0).margin(rounding));
  for (PairChart::Point& point : chart.points) point.ratio = carbon_to_nitrogen(500.0);
  CHECK(points_of(Svg(svg_of(chart, us)).all("polyline").at(0)).empty());
}

TEST_CASE("a log that is dense shows the hottest of each day", "[charts]") {
  const auto reading = [](int hours, double degrees) {
    return PileReading{celsius(degrees), WrittenTime{sys_days(day(0)) + std::chrono::hours(hours), std::nullopt}};
  };
  const std::vector<PileReading> days =
      hottest_of_days({reading(0, 40.0), reading(12, 50.0), reading(23, 45.0), reading(24, 30.0), reading(80, 60.0)});
  REQUIRE(days.size() == 3);
  CHECK(days[0].temperature == celsius(50.0));
  CHECK(days[1].temperature == celsius(30.0));
  CHECK(days[2].temperature == celsius(60.0));
  CHECK(hottest_of_days({}).empty());
}

TEST_CASE("a chart of nothing is none, one of a single thing is whole", "[charts]") {
  CHECK(svg_of(Chart{}, us).empty());
  CHECK(svg_of(ShareBars{}, us).empty());
  CHECK(svg_of(Bars{}, us).empty());
  CHECK(svg_of(PairChart{{}, {}, {}, {}, {carbon_to_nitrogen(25.0), carbon_to_nitrogen(35.0)}, {wet_basis(0.5), wet_basis(0.6)}, {}}, us)
            .empty());
  CHECK(svg_of(Bars{"none", {}, {{"a", {Volume()}, "none"}}, {}}, us).empty());
  check_frame(Svg(svg_of(forecast_of_days(1), us)));
  Chart one_reading{"measured", {}, {{day(0), celsius(20.0)}}, {}, "20."};
  check_frame(Svg(svg_of(one_reading, us)));
  CHECK(Svg(svg_of(one_reading, si)).all("polygon").empty());
  one_reading.turned = {day(-400), day(400)};
  check_frame(Svg(svg_of(one_reading, both)));
  Chart flat = forecast_of_days(40);
  for (Chart::Point& point : flat.points) point = {point.date, celsius(0.0), celsius(0.0), celsius(0.0), std::nullopt};
  check_frame(Svg(svg_of(flat, us)));
  CHECK_FALSE(Svg(svg_of(flat, us)).says("air"));
  check_frame(Svg(svg_of(ShareBars{"one", {"volume"}, {{"leaves", {0.0}}}, "none."}, us)));
  PairChart one_mix = pair();
  one_mix.points.resize(1);
  one_mix.points[0].ratio = std::nullopt;
  check_frame(Svg(svg_of(one_mix, us)));
  PairChart endless = pair();  // one of them without nitrogen
  endless.points.back().ratio = carbon_to_nitrogen(std::numeric_limits<double>::infinity());
  endless.points.front().ratio = endless.points.back().ratio;
  check_frame(Svg(svg_of(endless, us)));
}

TEST_CASE("plots keep to the width of the screen", "[charts]") {
  Bars long_names = bars();
  long_names.bars[0].name = "the churchyard, the library and the school field together";
  ShareBars hostile_shares = shares();
  hostile_shares.parts[0].name = hostile;
  for (std::size_t width = narrowest_screen; width <= 120; width += 8) {
    for (const Show& show : {us, si, both}) {
      for (const std::string& text :
           {plot_of(measured(), show, width), plot_of(shares(), width), plot_of(bars(), show, width), plot_of(long_names, show, width),
            plot_of(hostile_shares, width), plot_of(forecast_of_days(1100), show, width), plot_of(forecast_of_days(1), show, width)}) {
        for (const std::string& line : lines_of(text)) {
          CAPTURE(width, line);
          CHECK(width_of(line) <= width);
        }
        CHECK(text.find("nan") == std::string::npos);
      }
    }
  }
  CHECK(plot_of(Chart{}, us, 80).empty());
  CHECK(plot_of(ShareBars{}, 80).empty());
  CHECK(plot_of(Bars{}, us, 80).empty());
}

TEST_CASE("plots show what is there", "[charts]") {
  const std::vector<std::string> lines = lines_of(plot_of(bars(), us, 80));
  REQUIRE(lines.size() == 5);
  CHECK(count_of(lines[1], "█") == 6);  // a quarter of the longest, which is 24 wide
  CHECK(count_of(lines[1], "░") == 18);
  CHECK(count_of(lines[2], "█") == 12);
  CHECK(count_of(lines[3], "█") == 0);
  CHECK(lines[4] == "█ of your own  ░ to buy");
  Chart hottest = forecast_of_days(15);
  hottest.points[7].likely = celsius(85.0);  // 185 °F, in the week that is plotted
  hottest.points[14].likely = celsius(-20.0);
  const std::string plot = plot_of(hottest, us, 80);
  CHECK(plot.find("°F") != std::string::npos);
  const std::string top = lines_of(plot).at(1);
  const double base = std::stod(top);
  const double step = base - std::stod(lines_of(plot).at(2));
  CHECK(base + step >= 185.0);
  CHECK(base < 185.0);
  CHECK(plot.find("Oct") != std::string::npos);
}
