#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg_parts.hpp"

namespace heapwright::svg {
namespace {

/// The bytes of a character that begins so, in UTF-8.
std::size_t bytes_of_character(char first) {
  const auto byte = static_cast<unsigned char>(first);
  return byte < 0x80 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
}

/// Of the height of its font. Characters of three bytes and more may be as wide as high.
double width_of_character(std::size_t bytes) { return bytes < 3 ? 0.6 : 1.0; }

std::string strokes(const std::string& path, std::string_view how) {
  return path.empty() ? std::string() : fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"#111\"{}/>\n", path, how);
}

std::string slanted(double x, double y, double width, double height) {
  constexpr double apart = 10.0;
  const double right = x + width;
  const double foot = y + height;
  std::string path;
  for (double sum = x + y + 0.5 * apart; sum < right + foot; sum += apart)
    path += fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}", std::max(x, sum - foot), std::min(foot, sum - x), std::min(right, sum - y),
                        std::max(y, sum - right));
  return strokes(path, "");
}

std::string dotted(double x, double y, double width, double height) {
  constexpr double apart = 7.0;
  constexpr double half_a_dot = 1.6;
  std::string path;
  for (double down = y + 0.5 * apart; down < y + height - half_a_dot; down += apart)
    for (double across = x + 0.5 * apart; across < x + width - half_a_dot; across += apart)
      path += fmt::format("M{:.1f} {:.1f}h.01", across, down);
  return strokes(path, " stroke-width=\"3.2\" stroke-linecap=\"round\"");
}

std::string upright(double x, double y, double width, double height) {
  constexpr double apart = 4.0;
  std::string path;
  for (double across = x + apart; across < x + width - 1.0; across += apart)
    path += fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}", across, y, across, y + height);
  return strokes(path, "");
}

std::string level(double x, double y, double width, double height) {
  constexpr double apart = 4.0;
  std::string path;
  for (double down = y + apart; down < y + height - 1.0; down += apart)
    path += fmt::format("M{:.1f} {:.1f}L{:.1f} {:.1f}", x, down, x + width, down);
  return strokes(path, "");
}

}  // namespace

std::string framed(double width, double height, const std::string& title, const std::string& in_words, const std::string& inside) {
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" aria-label=\"{}\" font-family=\"serif\" "
      "font-size=\"{:.0f}\" fill=\"#111\">\n"
      "<title>{}</title>\n<desc>{}</desc>\n<rect width=\"{:.0f}\" height=\"{:.0f}\" fill=\"#fff\"/>\n{}</svg>\n",
      width, height, escaped(title + ". " + in_words), text_size, escaped(title), escaped(in_words), width, height, inside);
}

std::string line(double x1, double y1, double x2, double y2, std::string_view stroke, double width) {
  return fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"{}\" stroke-width=\"{}\"/>\n", x1, y1, x2, y2,
                     stroke, width);
}

std::string text(double x, double y, std::string_view anchor, const std::string& words, double size) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\" font-size=\"{}\">{}</text>\n", x, y, anchor, size, escaped(words));
}

std::string text_on_fill(double x, double y, const std::string& words) {
  const double room = room_for(words) + 2.0;
  return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"16\" fill=\"#fff\"/>\n", x - 0.5 * room, y - 12.5, room) +
         text(x, y, "middle", words);
}

double room_for(std::string_view words, double size) {
  double room = 0.0;
  for (std::size_t at = 0; at < words.size(); at += bytes_of_character(words[at]))
    room += size * width_of_character(bytes_of_character(words[at]));
  return room;
}

double room_for(const std::vector<std::string>& words, double most) {
  double widest = 0.0;
  for (const std::string& one : words) widest = std::max(widest, room_for(one));
  return std::min(widest, most);
}

std::string shortened(std::string_view words, double room, double size) {
  if (room_for(words, size) <= room) return std::string(words);
  const double of_it = room - size * width_of_character(3);
  double so_far = 0.0;
  std::size_t end = 0;
  while (end < words.size()) {
    const std::size_t bytes = bytes_of_character(words[end]);
    so_far += size * width_of_character(bytes);
    if (so_far > of_it) break;
    end += bytes;
  }
  return std::string(words.substr(0, end)) + "…";
}

std::string box(double x, double y, double width, double height, std::size_t part) {
  constexpr std::array<std::string_view, fills> plain{"#d4d4d4", "#767676", "#fff", "#fff", "#fff", "#2b2b2b", "#fff", "#fff"};
  const std::size_t which = part % fills;
  const std::string outlined =
      fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\" stroke=\"#111\"/>\n", x, y, width, height,
                  plain.at(which));
  switch (which) {
    case 2: return outlined + slanted(x, y, width, height);
    case 4: return outlined + dotted(x, y, width, height);
    case 6: return outlined + level(x, y, width, height);
    case 7: return outlined + upright(x, y, width, height);
    default: return outlined;
  }
}

Legend legend(const std::vector<std::string>& names, double y) {
  constexpr double line_height = 21.0;
  constexpr double to_name = 26.0;
  constexpr double whole = sheet_width - 2.0 * margin;
  const bool in_two = to_name + room_for(names, whole) <= 0.5 * whole;
  const std::size_t columns = in_two ? 2 : 1;
  Legend legend;
  for (std::size_t part = 0; part < names.size(); ++part) {
    const double x = margin + (part % columns == 0 ? 0.0 : 0.5 * whole);
    const double top = y + line_height * static_cast<double>(part / columns);
    legend.inside += box(x, top, 18.0, 14.0, part) + text(x + to_name, top + 12.0, "start", shortened(names[part], whole - to_name));
  }
  legend.height = line_height * static_cast<double>((names.size() + columns - 1) / columns);
  return legend;
}

}  // namespace heapwright::svg
