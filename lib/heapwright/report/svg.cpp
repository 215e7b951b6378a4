#include "heapwright/report/svg.hpp"

#include <fmt/format.h>

#include <array>
#include <cctype>

#include "heapwright/report/layout.hpp"

namespace heapwright::svg {

std::string framed(double width, double height, const std::string& title, const std::string& in_words, const std::string& inside) {
  return fmt::format(
      "<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\" font-family=\"Georgia, serif\" font-size=\"13\">\n"
      "<title>{}</title>\n<desc>{}</desc>\n{}</svg>\n",
      width, height, escaped(title + ". " + in_words), escaped(title), escaped(in_words), inside);
}

std::string line(double x1, double y1, double x2, double y2, std::string_view stroke, double width) {
  return fmt::format("<line x1=\"{:.1f}\" y1=\"{:.1f}\" x2=\"{:.1f}\" y2=\"{:.1f}\" stroke=\"{}\" stroke-width=\"{}\"/>\n", x1, y1, x2, y2,
                     stroke, width);
}

std::string text(double x, double y, std::string_view anchor, const std::string& words, double size) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\" font-size=\"{}\">{}</text>\n", x, y, anchor, size, escaped(words));
}

std::string text_on_fill(double x, double y, const std::string& words) {
  return fmt::format(
      "<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"middle\" stroke=\"#fff\" stroke-width=\"4\" paint-order=\"stroke\" "
      "fill=\"#111\">{}</text>\n",
      x, y, escaped(words));
}

std::string box(double x, double y, double width, double height, const std::string& fill) {
  return fmt::format("<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\" stroke=\"#111\"/>\n", x, y, width,
                     height, fill);
}

std::string fill_definitions(const std::string& name) {
  return fmt::format(
      "<defs>\n"
      "<pattern id=\"{0}-2\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\"><rect width=\"7\" height=\"7\" fill=\"#fff\"/>"
      "<path d=\"M-1 8L8 -1M-1 1L1 -1M6 8L8 6\" stroke=\"#111\"/></pattern>\n"
      "<pattern id=\"{0}-4\" width=\"8\" height=\"8\" patternUnits=\"userSpaceOnUse\"><rect width=\"8\" height=\"8\" fill=\"#fff\"/>"
      "<circle cx=\"4\" cy=\"4\" r=\"1.7\" fill=\"#111\"/></pattern>\n"
      "<pattern id=\"{0}-6\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\"><rect width=\"6\" height=\"6\" fill=\"#fff\"/>"
      "<path d=\"M0 3H6\" stroke=\"#111\"/></pattern>\n"
      "</defs>\n",
      name);
}

std::string fill(const std::string& name, std::size_t part) {
  constexpr std::array<std::string_view, fills> plain{"#d4d4d4", "#767676", "", "#fff", "", "#2b2b2b", ""};
  const std::size_t which = part % fills;
  return plain.at(which).empty() ? fmt::format("url(#{}-{})", name, which) : std::string(plain.at(which));
}

std::string id_of(std::string_view title) {
  std::string id = "c";
  for (const char c : title) id += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '-';
  return id;
}

}  // namespace heapwright::svg
