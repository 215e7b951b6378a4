#include <fmt/format.h>

#include "heapwright/report/layout.hpp"

namespace heapwright {
namespace {

constexpr std::string_view black = "stroke=\"#111\" stroke-width=\"2\" fill=\"none\"";

std::string framed(double width, double height, const std::string& label, const std::string& inside) {
  return fmt::format(
      "<svg viewBox=\"0 0 {} {}\" role=\"img\" aria-label=\"{}\" font-family=\"Georgia, serif\" font-size=\"15\">\n{}</svg>\n", width,
      height, label, inside);
}

/// From one point to another, with a stroke across each end.
std::string measure(double x1, double y1, double x2, double y2) {
  constexpr double half_stroke = 5.0;
  const bool is_level = y1 == y2;
  const double across = is_level ? 0.0 : half_stroke;
  const double up = is_level ? half_stroke : 0.0;
  std::string lines = fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#111\"/>\n", x1, y1, x2, y2);
  for (const auto& [x, y] : {std::pair(x1, y1), std::pair(x2, y2)})
    lines += fmt::format("<line x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" stroke=\"#111\"/>\n", x - across, y - up, x + across, y + up);
  return lines;
}

std::string words_at(double x, double y, std::string_view anchor, const std::string& words) {
  return fmt::format("<text x=\"{}\" y=\"{}\" text-anchor=\"{}\">{}</text>\n", x, y, anchor, words);
}

class DrawingOf {
 public:
  DrawingOf(const Show& show, std::string label) : show_(show), label_(std::move(label)) {}

  /// From above, the barrow's heap in the middle and a shovel's throws from it.
  std::string operator()(const SquareOfGround& square) const {
    const std::string side = escaped(show_.about_length(square.side));
    return framed(320, 190, label_,
                  fmt::format("<rect x=\"90\" y=\"10\" width=\"140\" height=\"140\" {}/>\n<circle cx=\"160\" cy=\"80\" r=\"14\" "
                              "fill=\"#bbb\" stroke=\"#111\"/>\n<path d=\"M160 62V24M160 98V136M142 80H104M178 80H216M147 67L114 34M173 "
                              "67L206 34M147 93L114 126M173 93L206 126\" stroke=\"#111\" stroke-dasharray=\"3 4\"/>\n",
                              black) +
                      measure(90, 166, 230, 166) + words_at(160, 184, "middle", side) + measure(248, 10, 248, 150) +
                      words_at(258, 85, "start", side));
  }

  /// From the side.
  std::string operator()(const ConeOnGround& cone) const {
    return framed(
        320, 120, label_,
        fmt::format("<path d=\"M20 84L130 14L240 84Z\" fill=\"#ddd\" stroke=\"#111\" stroke-width=\"2\"/>\n<line x1=\"6\" y1=\"84\" "
                    "x2=\"254\" y2=\"84\" stroke=\"#111\"/>\n") +
            measure(20, 98, 240, 98) + words_at(130, 116, "middle", escaped(show_.about_length(cone.across))) + measure(262, 14, 262, 84) +
            words_at(272, 54, "start", escaped(show_.about_length(cone.high))));
  }

  std::string operator()(const TrueThickness& thickness) const {
    const double inches = value_in(unit::inch, thickness.depth);
    return fmt::format(
        "<svg class=\"true-size\" style=\"width:2in;height:{0:.4f}in\" viewBox=\"0 0 2 {0:.4f}\" role=\"img\" aria-label=\"{1}\">\n<rect "
        "width=\"2\" height=\"{0:.4f}\" fill=\"#111\"/>\n</svg>\n",
        inches, label_);
  }

 private:
  const Show& show_;
  std::string label_;
};

}  // namespace

std::string svg_of(const Drawing& drawing, const Show& show) {
  return std::visit(DrawingOf(show, escaped(show.words(drawing.in_words))), drawing.of);
}

}  // namespace heapwright
