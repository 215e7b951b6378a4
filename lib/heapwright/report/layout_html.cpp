#include <fmt/format.h>

#include "heapwright/report/layout.hpp"

namespace heapwright {
namespace {

/// Ours: a plain sheet of paper, in black and white, that a phone shows in one column.
constexpr std::string_view style = R"(
:root { color-scheme: light; }
body { margin: 0; background: #fff; color: #111; font: 1.06rem/1.5 Georgia, "Times New Roman", serif; }
main { max-width: 44rem; margin: 0 auto; padding: 1rem 1.1rem 3rem; }
h1, h2, p, li, dt, dd { overflow-wrap: anywhere; }
h1, h2, p, li, dt, dd, th, td { unicode-bidi: plaintext; }
h1 { font-size: 1.5rem; line-height: 1.2; margin: 0.6rem 0 1rem; }
h2 { font-size: 1.15rem; line-height: 1.3; margin: 1.6rem 0 0.4rem; }
.act h2 { font-size: 1.3rem; }
.act + .why, .act + .ground, .why + .ground { border-top: 1px solid #999; margin-top: 1.6rem; }
.ground { font-size: 0.94rem; }
ol, ul { margin: 0.3rem 0; padding-left: 1.5rem; }
li { margin: 0.25rem 0; }
dl { margin: 0.8rem 0; }
dt { font-weight: bold; }
dd { margin: 0 0 0.5rem; }
.scroll { overflow-x: auto; }
table { border-collapse: collapse; margin: 0.5rem 0; }
th, td { text-align: left; vertical-align: top; padding: 0.15rem 1rem 0.15rem 0; border-bottom: 1px solid #ccc; }
tr.group th { padding-top: 0.6rem; }
.mind { border: 2px solid #111; padding: 0.4rem 0.8rem; margin: 1rem 0; }
.mind p { margin: 0.2rem 0; }
figure { margin: 1rem 0; }
svg { width: 100%; height: auto; }
.working { font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: 0.85rem; white-space: pre-wrap; overflow-wrap: anywhere; }
@media print {
  body { font-size: 12pt; }
  main { max-width: none; padding: 0; }
  h2 { break-after: avoid; }
  li, tr, figure, .mind { break-inside: avoid; }
}
)";

class HtmlLayout {
 public:
  explicit HtmlLayout(const Show& show) : show_(show) {}

  std::string operator()(const Paragraph& paragraph) const { return fmt::format("<p>{}</p>\n", shown(paragraph.words)); }

  std::string operator()(const Bullets& bullets) const { return list("ul", bullets.items); }
  std::string operator()(const Numbered& numbered) const { return list("ol", numbered.items); }

  std::string operator()(const Labels& labels) const {
    std::string pairs;
    for (const auto& [name, words] : labels.labels) pairs += fmt::format("<dt>{}</dt>\n<dd>{}</dd>\n", escaped(name), shown(words));
    return fmt::format("<dl>\n{}</dl>\n", pairs);
  }

  std::string operator()(const Grid& grid) const {
    const std::size_t width = width_of(grid);
    std::string rows;
    for (const auto& row : grid.rows) rows += row_of(row, width);
    return fmt::format("<div class=\"scroll\">\n<table>\n{}<tbody>\n{}</tbody>\n</table>\n</div>\n", head_of(grid), rows);
  }

  std::string operator()(const Chart& chart) const {
    return fmt::format("<figure>\n{}<figcaption>{}</figcaption>\n</figure>\n", svg_of(chart, show_), escaped(chart.title));
  }

  std::string operator()(const Warnings& warnings) const {
    if (warnings.cautions.empty()) return {};
    std::string cautions;
    for (const Caution& caution : warnings.cautions)
      cautions += fmt::format("<p>{}</p>\n", escaped(warnings.in_short ? caution.in_short : caution.text));
    const std::string_view first = warnings.in_short ? "<p><strong>Mind</strong></p>\n" : "";
    const std::string_view last = warnings.in_short ? "" : "<p>Local rules come first.</p>\n";
    return fmt::format("<div class=\"mind\">\n{}{}{}</div>\n", first, cautions, last);
  }

  std::string operator()(const WorkedOut& worked_out) const {
    return fmt::format("<pre class=\"working\">{}</pre>\n", escaped(text_of(worked_out)));
  }

 private:
  std::string shown(const Words& words) const { return escaped(show_.words(words)); }

  std::string text_of(const WorkedOut& worked_out) const {
    const Page page{{}, {}, {{Depth::act, {}, {worked_out}}}};
    return heapwright::text_of(page, show_, {});
  }

  std::string list(std::string_view tag, const std::vector<Words>& items) const {
    std::string points;
    for (const Words& item : items) points += fmt::format("<li>{}</li>\n", shown(item));
    return fmt::format("<{0}>\n{1}</{0}>\n", tag, points);
  }

  static std::size_t width_of(const Grid& grid) {
    std::size_t width = grid.head.size();
    for (const auto& row : grid.rows) width = std::max(width, row.size());
    return width;
  }

  std::string head_of(const Grid& grid) const {
    if (grid.head.empty()) return {};
    std::string cells;
    for (const Words& cell : grid.head) cells += cell.empty() ? "<td></td>" : fmt::format("<th scope=\"col\">{}</th>", shown(cell));
    return fmt::format("<thead>\n<tr>{}</tr>\n</thead>\n", cells);
  }

  std::string row_of(const std::vector<Words>& row, std::size_t width) const {
    if (row.size() == 1 && width > 1)
      return fmt::format("<tr class=\"group\"><th scope=\"colgroup\" colspan=\"{}\">{}</th></tr>\n", width, shown(row.front()));
    std::string cells;
    for (std::size_t i = 0; i < width; ++i) cells += fmt::format("<td>{}</td>", i < row.size() ? shown(row[i]) : "");
    return fmt::format("<tr>{}</tr>\n", cells);
  }

  const Show& show_;
};

std::string_view class_of(Depth depth) {
  switch (depth) {
    case Depth::act: return "act";
    case Depth::why: return "why";
    case Depth::ground: return "ground";
  }
  return {};
}

std::string html_of(const Section& section, const Show& show) {
  std::string html;
  if (!section.heading.empty()) html = fmt::format("<h2>{}</h2>\n", escaped(show.words(section.heading)));
  for (const Block& block : section.blocks) html += std::visit(HtmlLayout(show), block);
  return fmt::format("<div class=\"{}\">\n{}</div>\n", class_of(section.depth), html);
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    switch (c) {
      case '&': safe += "&amp;"; break;
      case '<': safe += "&lt;"; break;
      case '>': safe += "&gt;"; break;
      case '"': safe += "&quot;"; break;
      case '\'': safe += "&#39;"; break;
      default: safe += c;
    }
  }
  return safe;
}

std::string html_of(const Page& page, const Show& show) {
  const std::string title = escaped(page.title.empty() ? page.subject : page.title);
  std::string sections;
  for (const Section& section : page.sections) sections += html_of(section, show);
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en-US\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, "
      "initial-scale=1\">\n<title>{0}</title>\n<style>{1}</style>\n</head>\n<body>\n<main>\n<h1>{0}</h1>\n{2}"
      "</main>\n</body>\n</html>\n",
      title, style, sections);
}

}  // namespace heapwright
