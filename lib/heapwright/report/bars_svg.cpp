#include <fmt/format.h>

#include <algorithm>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg_parts.hpp"

namespace heapwright {
namespace {

constexpr double bar_thickness = 18.0;
constexpr double bar_row = 26.0;
constexpr double most_for_what_it_says = 190.0;

/// Where the bars of a chart lie on its sheet.
struct PlaceOfBars {
  double from;        ///< x
  double to;          ///< x of the longest; what it says stands to its right
  double name_above;  ///< how high names stand that have no room beside their bars; else 0
};

Volume whole_bar(const Bars::Bar& bar) {
  Volume whole;
  for (const Volume& part : bar.parts) whole += part;
  return whole;
}

PlaceOfBars place_of_bars(const Bars& bars, const Show& show) {
  constexpr double most_beside = 100.0;
  std::vector<std::string> names;
  std::vector<std::string> says;
  for (const Bars::Bar& bar : bars.bars) {
    names.push_back(show.words(bar.name));
    says.push_back(show.words(bar.says));
  }
  const double beside = svg::room_for(names, svg::sheet_width);
  const bool above = beside > most_beside;
  const double to = svg::sheet_width - svg::margin - svg::room_for(says, most_for_what_it_says) - 6.0;
  return {above ? svg::margin : svg::margin + beside + 6.0, to, above ? 18.0 : 0.0};
}

std::string bar_with_words(const Bars& bars, const Bars::Bar& bar, Volume most, const PlaceOfBars& place, double y, const Show& show) {
  const std::string name = show.words(bar.name);
  std::string inside = place.name_above > 0.0
                           ? svg::text(place.from, y - 5.0, "start", svg::shortened(name, svg::sheet_width - 2.0 * svg::margin))
                           : svg::text(place.from - 6.0, y + 14.0, "end", name);
  double x = place.from;
  for (std::size_t part = 0; part < bar.parts.size(); ++part) {
    const double width = (place.to - place.from) * static_cast<double>(bar.parts[part] / most);
    if (width > 0.0) inside += svg::box(x, y, width, bar_thickness, bars.part_names.empty() ? 0 : part);
    x += width;
  }
  return inside + svg::text(x + 6.0, y + 14.0, "start", svg::shortened(show.words(bar.says), most_for_what_it_says));
}

}  // namespace

std::string svg_of(const Bars& bars, const Show& show) {
  Volume most;
  for (const Bars::Bar& bar : bars.bars) most = std::max(most, whole_bar(bar));
  if (!is_positive(most)) return {};
  const PlaceOfBars place = place_of_bars(bars, show);
  std::string inside;
  double y = 4.0;
  for (const Bars::Bar& bar : bars.bars) {
    y += place.name_above;
    inside += bar_with_words(bars, bar, most, place, y, show);
    inside += svg::line(place.from, y - 2.0, place.from, y + bar_thickness + 2.0);
    y += bar_row;
  }
  const svg::Legend legend = svg::legend(bars.part_names, y + 4.0);
  return svg::framed(svg::sheet_width, y + 2.0 + (bars.part_names.empty() ? 0.0 : 4.0 + legend.height), bars.title,
                     show.words(bars.in_words), inside + legend.inside);
}

}  // namespace heapwright
