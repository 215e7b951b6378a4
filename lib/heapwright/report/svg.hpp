#pragma once
/// What all charts share: their frame, their lines and words, and fills that differ without color. Not installed.

#include <cstddef>
#include <string>
#include <string_view>

namespace heapwright::svg {

/// A chart in its frame, with its title and what it shows in words, for those who do not see it. All texts are escaped here.
std::string framed(double width, double height, const std::string& title, const std::string& in_words, const std::string& inside);

std::string line(double x1, double y1, double x2, double y2, std::string_view stroke = "#111", double width = 1.0);
/// @param anchor "start", "middle" or "end"
std::string text(double x, double y, std::string_view anchor, const std::string& words, double size = 13.0);
/// A text that stays readable on any fill.
std::string text_on_fill(double x, double y, const std::string& words);
std::string box(double x, double y, double width, double height, const std::string& fill);

/// How many fills there are; a part beyond them looks like one before it.
inline constexpr std::size_t fills = 7;
/// The definitions of the fills, under ids that begin with a name of the chart's own.
std::string fill_definitions(const std::string& name);
std::string fill(const std::string& name, std::size_t part);
/// A name that may begin ids, of a title.
std::string id_of(std::string_view title);

}  // namespace heapwright::svg
