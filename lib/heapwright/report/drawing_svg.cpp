#include <fmt/format.h>

#include "heapwright/report/layout.hpp"
#include "heapwright/report/svg_parts.hpp"

namespace heapwright {
namespace {

constexpr double drawing_width = 320.0;
constexpr double drawing_text = 15.0;  // it stands small beside words

/// From one point to another, with a stroke across each end.
std::string measure(double x1, double y1, double x2, double y2) {
  constexpr double half_stroke = 5.0;
  const bool is_level = y1 == y2;
  const double across = is_level ? 0.0 : half_stroke;
  const double up = is_level ? half_stroke : 0.0;
  std::string lines = svg::line(x1, y1, x2, y2);
  for (const auto& [x, y] : {std::pair(x1, y1), std::pair(x2, y2)}) lines += svg::line(x - across, y - up, x + across, y + up);
  return lines;
}

class DrawingOf {
 public:
  DrawingOf(const Show& show, std::string in_words) : show_(show), in_words_(std::move(in_words)) {}

  /// From above, the barrow's heap in the middle and a shovel's throws from it.
  std::string operator()(const SquareOfGround& square) const {
    return svg::framed(drawing_width, 190.0, "What one barrow covers", in_words_,
                       "<rect x=\"90\" y=\"10\" width=\"140\" height=\"140\" stroke=\"#111\" stroke-width=\"2\" fill=\"none\"/>\n"
                       "<circle cx=\"160\" cy=\"80\" r=\"14\" fill=\"#bbb\" stroke=\"#111\"/>\n"
                       "<path d=\"M160 62V24M160 98V136M142 80H104M178 80H216M147 67L114 34M173 67L206 34M147 93L114 126M173 93L206 "
                       "126\" stroke=\"#111\" stroke-dasharray=\"3 4\"/>\n" +
                           measure(90.0, 163.0, 230.0, 163.0) +
                           svg::text(160.0, 182.0, "middle", show_.about_length(square.side), drawing_text));
  }

  /// From the side, at the slope of loose compost.
  std::string operator()(const ConeOnGround& cone) const {
    return svg::framed(
        drawing_width, 120.0, "A load where it is tipped", in_words_,
        "<path d=\"M8 80L91 17L174 80Z\" fill=\"#ddd\" stroke=\"#111\" stroke-width=\"2\"/>\n" + svg::line(2.0, 80.0, 184.0, 80.0) +
            measure(8.0, 94.0, 174.0, 94.0) + svg::text(91.0, 112.0, "middle", show_.about_length(cone.across), drawing_text) +
            measure(191.0, 17.0, 191.0, 80.0) + svg::text(199.0, 54.0, "start", show_.about_length(cone.high), drawing_text));
  }

  std::string operator()(const TrueThickness& thickness) const {
    const double inches = value_in(unit::inch, thickness.depth);
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"true-size\" width=\"2in\" height=\"{0:.4f}in\" viewBox=\"0 0 2 {0:.4f}\" "
        "role=\"img\" aria-label=\"{1}\">\n<title>As thick as it is to lie</title>\n<desc>{1}</desc>\n<rect width=\"2\" "
        "height=\"{0:.4f}\" fill=\"#111\"/>\n</svg>\n",
        inches, escaped(in_words_));
  }

 private:
  const Show& show_;
  std::string in_words_;
};

}  // namespace

std::string svg_of(const Drawing& drawing, const Show& show) {
  return std::visit(DrawingOf(show, show.words(drawing.in_words)), drawing.of);
}

}  // namespace heapwright
