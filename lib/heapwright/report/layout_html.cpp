#include <fmt/format.h>

#include "heapwright/error.hpp"
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
svg { width: 100%; max-width: 34rem; height: auto; }
.working { font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; font-size: 0.85rem; white-space: pre-wrap; overflow-wrap: anywhere; }
.boxes { list-style: none; padding-left: 0; }
.boxes li { padding-left: 1.5em; text-indent: -1.5em; }
.boxes li::before { content: ""; display: inline-block; width: 0.8em; height: 0.8em; margin-right: 0.6em; border: 1.5px solid #111; vertical-align: -0.05em; }
.form { width: 100%; }
.form th { width: 40%; font-weight: normal; }
.form td { border-bottom: 1px solid #111; padding-right: 0; }
.form th { border-bottom: 0; }
.form tr.long, .form tr.long th, .form tr.long td { display: block; width: auto; }
.form tr.long td:empty { height: 1.2em; }
.sheet svg { max-width: 13rem; display: block; }
.sheet figure { margin: 0.4rem 0; }
.sheet .act:first-of-type > p:first-child { font-size: 1.2rem; font-weight: bold; }
svg.true-size { display: block; width: 2in; height: auto; }
@media (min-width: 60rem) {
  main:has(.sheet) { max-width: 60rem; }
}
.handout { font-family: "Times New Roman", "Liberation Serif", Times, serif; }
.handout + .handout { border-top: 2px solid #111; margin-top: 2rem; }
.handout table { width: 100%; }
.handout td:empty { height: 1.6rem; border: 1px solid #999; }
.handout .side > div { border: 0; margin-top: 0; }
.handout .ground { border-top: 1px solid #999; margin-top: 0.8rem; }
@media (min-width: 40rem) {
  .handout dl { display: grid; grid-template-columns: max-content 1fr; column-gap: 1rem; }
  .handout dt { grid-column: 1; }
  .handout dd { grid-column: 2; }
}
@media print, (min-width: 60rem) {
  .columns { columns: 2; column-gap: 1.6rem; }
}
@media print {
  body { font-size: 12pt; }
  main { max-width: none; padding: 0; }
  h2 { break-after: avoid; }
  li, tr, figure, .mind { break-inside: avoid; }
  .scroll { overflow: visible; }
  .sheet { font-size: 10.5pt; line-height: 1.28; }
  .sheet p, .sheet .mind { margin: 0.35rem 0; }
  .sheet li { margin: 0.12rem 0; }
  .sheet .ground { column-span: all; border: 0; margin: 0; font-size: 9pt; }
  @page { margin: 1cm; }
  .sheet .mind p, .sheet dt, .sheet dd { display: inline; }
  .sheet dd::after { content: ""; display: block; }
  .sheet table { margin: 0.25rem 0; break-inside: avoid; }
  .sheet .working { font-size: 7.8pt; margin: 0.35rem 0; }
  .act:has(.room) { break-inside: avoid; }
  .sheet + .sheet, .handout + .handout { break-before: page; border: 0; margin: 0; }
  .handout { font-size: 12pt; line-height: 1.1; }
  .handout h1 { font-size: 15pt; margin: 0 0 4pt; }
  .handout h2, .handout .act h2 { font-size: 12.5pt; margin: 4pt 0 1pt; }
  .handout p, .handout dl, .handout table, .handout ol, .handout ul { margin: 2pt 0; }
  .handout li { margin: 1pt 0; }
  .handout dd { margin: 0; }
  .handout td, .handout th { padding: 0 8pt 0 0; }
  .handout .mind { margin: 3pt 0; padding: 1pt 5pt; border-width: 1.5pt; }
  .handout .mind p { display: inline; }
  .handout .mind p::before { content: "\2022\00a0"; }
  .handout .why:first-child { columns: 2; column-gap: 1.2em; }
  .handout .scroll { break-inside: avoid; }
  .handout .why .mind { border: 0; padding: 0; break-inside: auto; }
  .handout .act td:first-child { width: 36%; }
  .handout td:empty { height: 21pt; border: 1px solid #999; }
  .handout .act td:empty:first-child { width: 14%; }
  .handout .ground { font-size: 10pt; margin-top: 2pt; }
  .handout .ground p { margin: 1pt 0; }
  .handout figure { margin: 0; }
  .handout figcaption { font-weight: bold; }
  .sheet h1 { font-size: 1.3rem; margin: 0 0 0.4rem; }
  .sheet h2, .sheet .act h2 { font-size: 1.05rem; margin: 0.7rem 0 0.2rem; }
}
)";

class HtmlLayout {
 public:
  HtmlLayout(const Show& show, std::size_t working_width) : show_(show), working_width_(working_width) {}

  std::string operator()(const Paragraph& paragraph) const { return fmt::format("<p>{}</p>\n", shown(paragraph.words)); }

  std::string operator()(const Bullets& bullets) const { return list("ul", bullets.items); }
  std::string operator()(const Numbered& numbered) const { return list("ol", numbered.items); }

  std::string operator()(const Labels& labels) const {
    std::string pairs;
    for (const auto& [name, words] : labels.labels) {
      if (!name.empty()) pairs += fmt::format("<dt>{}</dt>\n", escaped(name));  // else one more of the name above
      pairs += fmt::format("<dd>{}</dd>\n", shown(words));
    }
    return fmt::format("<dl>\n{}</dl>\n", pairs);
  }

  std::string operator()(const Grid& grid) const {
    const std::size_t width = width_of(grid);
    std::string rows;
    for (const auto& row : grid.rows) rows += row_of(row, width);
    return fmt::format("<div class=\"scroll\">\n<table>\n{}<tbody>\n{}</tbody>\n</table>\n</div>\n", head_of(grid), rows);
  }

  std::string operator()(const Boxes& boxes) const { return list("ul", boxes.items, " class=\"boxes\""); }

  std::string operator()(const Form& form) const {
    std::string rows;
    for (const auto& [name, given] : form.fields) rows += row_to_fill(shown(name), shown(given));
    return fmt::format("<table class=\"form\">\n<tbody>\n{}</tbody>\n</table>\n", rows);
  }

  std::string operator()(const RoomToWrite& room) const {
    std::string lines;
    for (int line = 0; line < room.lines; ++line) lines += "<br>";
    return fmt::format("<div class=\"room\">{}</div>\n", lines);
  }

  std::string operator()(const Drawing& drawing) const {
    return fmt::format("<figure>\n{}<figcaption>{}</figcaption>\n</figure>\n", svg_of(drawing, show_), shown(drawing.in_words));
  }

  std::string operator()(const Chart& chart) const { return figure(chart); }
  std::string operator()(const ShareBars& bars) const { return figure(bars); }
  std::string operator()(const Bars& bars) const { return figure(bars); }
  std::string operator()(const PairChart& chart) const { return figure(chart); }

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
  /// A question has its answer below it.
  static std::string row_to_fill(const std::string& name, const std::string& given) {
    constexpr std::size_t long_name = 30;
    return fmt::format("<tr{}><th scope=\"row\">{}</th><td>{}</td></tr>\n", name.size() > long_name ? " class=\"long\"" : "", name, given);
  }

  template <class Charted>
  std::string figure(const Charted& chart) const {
    return fmt::format("<figure>\n<figcaption>{}</figcaption>\n{}</figure>\n", escaped(chart.title), svg_of(chart, show_));
  }

  std::string shown(const Words& words) const { return escaped(show_.words(words)); }

  std::string text_of(const WorkedOut& worked_out) const {
    const Page page{{}, {}, {{Depth::act, {}, {worked_out}}}};
    return heapwright::text_of(page, show_, {.width = working_width_});
  }

  std::string list(std::string_view tag, const std::vector<Words>& items, std::string_view of_class = {}) const {
    std::string points;
    for (const Words& item : items) points += fmt::format("<li>{}</li>\n", shown(item));
    return fmt::format("<{0}{2}>\n{1}</{0}>\n", tag, points, of_class);
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
  std::size_t working_width_;  ///< in characters
};

std::string_view class_of(Depth depth) {
  switch (depth) {
    case Depth::act: return "act";
    case Depth::why: return "why";
    case Depth::ground: return "ground";
  }
  return {};
}

/// As wide as half a sheet takes.
constexpr std::size_t working_width_in_columns = 50;

std::string html_of(const Section& section, const Show& show, std::size_t working_width) {
  std::string html;
  if (!section.heading.empty()) html = fmt::format("<h2>{}</h2>\n", escaped(show.words(section.heading)));
  for (const Block& block : section.blocks) html += std::visit(HtmlLayout(show, working_width), block);
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

namespace {

std::string title_of(const Page& page) { return escaped(page.title.empty() ? page.subject : page.title); }

std::string sections_of(const Page& page, const Show& show, std::size_t working_width) {
  std::string sections;
  for (const Section& section : page.sections) sections += html_of(section, show, working_width);
  return sections;
}

/// Pages, each in an article of some class.
std::string articles(const std::vector<Page>& pages, std::string_view of_class, std::string_view inner_class, const Show& show,
                     std::size_t working_width) {
  std::string articles;
  for (const Page& page : pages)
    articles += fmt::format("<article class=\"{}\">\n<h1>{}</h1>\n<div class=\"{}\">\n{}</div>\n</article>\n", of_class, title_of(page),
                            inner_class, sections_of(page, show, working_width));
  return articles;
}

std::string html_begin(const std::string& title) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"en-US\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, "
      "initial-scale=1\">\n<title>{}</title>\n<style>{}</style>\n</head>\n<body>\n<main>\n",
      escaped(title), style);
}

std::string html_end() { return "</main>\n</body>\n</html>\n"; }

}  // namespace

std::string html_of_handout(const std::string& title, const std::vector<Page>& sides, const Show& show) {
  return html_begin(title) + articles(sides, "handout", "side", show, Screen().width) + html_end();
}

std::string html_of_sheets(const std::string& title, const std::vector<Page>& sheets, const Show& show) {
  return html_begin(title) + articles(sheets, "sheet", "columns", show, working_width_in_columns) + html_end();
}

std::string html_of(const Page& page, const Show& show) {
  return fmt::format("{}<h1>{}</h1>\n{}{}", html_begin(page.title.empty() ? page.subject : page.title), title_of(page),
                     sections_of(page, show, Screen().width), html_end());
}

HtmlParts parts_of_html(const std::string& html) {
  constexpr std::string_view opened = "<main>\n";
  const std::size_t begin = html.find(opened);
  const std::size_t end = html.rfind("</main>");
  if (begin == std::string::npos || end == std::string::npos || end < begin) throw DomainError("a page of HTML has its main part");
  const std::size_t inside = begin + opened.size();
  return {html.substr(0, inside), html.substr(inside, end - inside), html.substr(end)};
}

}  // namespace heapwright
