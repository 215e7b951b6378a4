#include <fmt/format.h>

#include <algorithm>
#include <numeric>

#include "heapwright/report/columns.hpp"
#include "heapwright/report/layout.hpp"
#include "heapwright/report/plot_text_parts.hpp"
#include "heapwright/report/text.hpp"

namespace heapwright {
namespace {

class TextLayout {
 public:
  TextLayout(const Show& show, std::size_t width, bool plots) : show_(show), width_(width), plots_(plots) {}

  std::string operator()(const Paragraph& paragraph) const { return wrap(show_.words(paragraph.words), 0, width_); }

  std::string operator()(const Bullets& bullets) const { return marked("- ", bullets.items); }

  std::string operator()(const Numbered& numbered) const {
    std::string text;
    int number = 0;
    for (const Words& item : numbered.items) text += wrap(fmt::format("{}. {}", ++number, show_.words(item)), 3, width_);
    return text;
  }

  std::string operator()(const Labels& labels) const {
    const std::size_t widest = std::accumulate(labels.labels.begin(), labels.labels.end(), std::size_t{0},
                                               [](std::size_t most, const auto& one) { return std::max(most, width_of(one.name)); });
    std::string text;
    for (const auto& [name, words] : labels.labels)
      text += wrap(fmt::format("{}  {}", padded(name, widest), show_.words(words)), widest + 2, width_);
    return text;
  }

  std::string operator()(const Grid& grid) const {
    Rows rows;
    if (!grid.head.empty()) rows.push_back(row_of(grid.head));
    for (const auto& row : grid.rows) rows.push_back(row_of(row));
    return columns(rows, width_);
  }

  std::string operator()(const Boxes& boxes) const { return marked("[ ] ", boxes.items); }

  std::string operator()(const Form& form) const {
    std::string text;
    for (const auto& [name, given] : form.fields)
      text += wrap(fmt::format("{}: {}", show_.words(name), given.empty() ? "____________" : show_.words(given)), 2, width_);
    return text;
  }

  std::string operator()(const RoomToWrite&) const { return {}; }  // nobody writes on a screen

  std::string operator()(const Drawing& drawing) const { return wrap(show_.words(drawing.in_words), 0, width_); }

  // What a chart shows stands in words or figures beside it.
  std::string operator()(const Chart& chart) const { return plots_ ? plot_of(chart, show_, width_) : std::string(); }
  std::string operator()(const ShareBars& bars) const { return plots_ ? plot_of(bars, width_) : std::string(); }
  std::string operator()(const Bars& bars) const { return plots_ ? plot_of(bars, show_, width_) : std::string(); }
  std::string operator()(const PairChart&) const { return {}; }

  std::string operator()(const Warnings& warnings) const {
    if (warnings.in_short) return in_short(warnings.cautions);
    std::string text;
    for (const Caution& caution : warnings.cautions) text += wrap(fmt::format("- {}", caution.text), 2, width_);
    text += wrap("Local rules come first.", 0, width_);
    return text;
  }

  std::string operator()(const WorkedOut& worked_out) const { return text_of_working(worked_out.working, width_); }

 private:
  using Rows = std::vector<std::vector<std::string>>;

  std::string marked(std::string_view mark, const std::vector<Words>& items) const {
    std::string text;
    for (const Words& item : items) text += wrap(fmt::format("{}{}", mark, show_.words(item)), mark.size(), width_);
    return text;
  }

  std::vector<std::string> row_of(const std::vector<Words>& cells) const {
    std::vector<std::string> row;
    for (const Words& cell : cells) row.push_back(show_.words(cell));
    return row;
  }

  std::string in_short(const std::vector<Caution>& cautions) const {
    if (cautions.empty()) return {};
    std::vector<std::string> shorts;
    for (const Caution& caution : cautions) shorts.push_back(caution.in_short);
    return wrap(fmt::format("Mind: {}", fmt::join(shorts, " ")), 2, width_);
  }

  const Show& show_;
  std::size_t width_;
  bool plots_;
};

std::string text_of(const Section& section, const Show& show, const Screen& screen) {
  std::string text = section.heading.empty() ? "" : wrap(show.words(section.heading), 0, screen.width);
  for (const Block& block : section.blocks) text += std::visit(TextLayout(show, screen.width, screen.plots), block);
  return text;
}

bool has(const Page& page, Depth depth) {
  return std::any_of(page.sections.begin(), page.sections.end(), [&](const Section& section) { return section.depth == depth; });
}

std::string way_to_more(const Page& page, const Screen& screen) {
  const bool to_why = screen.depth < Depth::why && has(page, Depth::why);
  const bool to_all = screen.depth < Depth::ground && has(page, Depth::ground);
  if (!to_why && !to_all) return {};
  const std::string_view all = to_all ? "All, with sources: --all" : "";
  if (screen.depth != Depth::act) return fmt::format("\n{}\n", all);
  return wrap(fmt::format("{}{}", to_why ? "Reasons and other ways: --why. " : "", all), 0, screen.width);
}

}  // namespace

std::string text_of(const Page& page, const Show& show, const Screen& screen) {
  std::string text = page.title.empty() ? "" : wrap(page.title, 0, screen.width);
  bool first = true;
  for (const Section& section : page.sections) {
    if (section.depth > screen.depth) continue;
    if (!first && !section.heading.empty()) text += "\n";
    text += text_of(section, show, screen);
    first = false;
  }
  text += way_to_more(page, screen);
  return text;
}

}  // namespace heapwright
