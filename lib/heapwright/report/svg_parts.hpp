#pragma once
/// What all charts share: their frame, their lines and words, and fills that differ without color. Not installed.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace heapwright::svg {

/// Every chart is as wide, so that its words are as large: on a phone of 360 px a text of 13 is 10 px high.
inline constexpr double sheet_width = 400.0;
inline constexpr double margin = 8.0;
inline constexpr double text_size = 13.0;

/// A chart in its frame, with its title and what it shows in words, for those who do not see it. All texts are escaped here.
std::string framed(double width, double height, const std::string& title, const std::string& in_words, const std::string& inside);

/// In px of the chart, from its upper left corner.
std::string line(double x1, double y1, double x2, double y2, std::string_view stroke = "#111", double width = 1.0);
/// @param anchor "start", "middle" or "end"
std::string text(double x, double y, std::string_view anchor, const std::string& words, double size = text_size);
/// A text on a plate of white, which stays readable on any fill.
std::string text_on_fill(double x, double y, const std::string& words);

/// How wide a text may come out. Fonts differ: this is that of a wide one.
double room_for(std::string_view words, double size = text_size);
/// The widest of some texts, and no wider than so much.
double room_for(const std::vector<std::string>& words, double most);
/// A text that fits, its end left out where it must be.
std::string shortened(std::string_view words, double room, double size = text_size);

/// How many fills there are; a part beyond them looks like one before it.
inline constexpr std::size_t fills = 8;
/// A box with the fill of a part: plain, or hatched by lines of its own, so that nothing in a page is named and no chart rests on another.
std::string box(double x, double y, double width, double height, std::size_t part = 0);

/// Which part has which fill, in two columns where the names are short.
struct Legend {
  std::string inside;
  double height = 0.0;
};
Legend legend(const std::vector<std::string>& names, double y);

}  // namespace heapwright::svg
