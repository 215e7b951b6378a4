#pragma once
/// Pages laid out: for a screen, and as HTML. Units and rounding happen here; what is said, and how deep, the page has decided.

#include <string>
#include <vector>

#include "heapwright/page/page.hpp"
#include "heapwright/report/show.hpp"

namespace heapwright {

/// A screen, or a pipe.
struct Screen {
  std::size_t width = 80;    ///< in characters, at least narrowest_screen
  Depth depth = Depth::act;  ///< the deepest sections that are shown
  bool plots = false;        ///< whether it shows block characters, so that charts are plotted
};
inline constexpr std::size_t narrowest_screen = 40;

/// A page as plain text, no line wider than the screen but for a single longer word.
std::string text_of(const Page& page, const Show& show, const Screen& screen);

/// All of a page as one HTML file: no script, nothing to fetch, readable on a phone and printed in black and white.
std::string html_of(const Page& page, const Show& show);

/// Pages that are printed each on a side of its own, as one HTML file.
std::string html_of_sheets(const std::string& title, const std::vector<Page>& sheets, const Show& show);

/// A handout as one HTML file: its sides in 12 points, on US Letter and on A4 each a side.
std::string html_of_handout(const std::string& title, const std::vector<Page>& sides, const Show& show);
/// An HTML file of ours, up to what it shows, that, and what is behind it: many handouts become one file.
struct HtmlParts {
  std::string head;
  std::string shown;
  std::string foot;
};
/// @throws DomainError for a text that is no file of ours
HtmlParts parts_of_html(const std::string& html);

/// A drawing as inline SVG, in black and white.
std::string svg_of(const Drawing& drawing, const Show& show);
/// A chart as inline SVG, readable without color.
std::string svg_of(const Chart& chart, const Show& show);
std::string svg_of(const ShareBars& bars, const Show& show);
std::string svg_of(const Bars& bars, const Show& show);
std::string svg_of(const PairChart& chart, const Show& show);

/// Text as it stands in HTML and SVG.
std::string escaped(std::string_view text);

}  // namespace heapwright
