#include "heapwright/report/marked.hpp"

#include <fmt/format.h>

namespace heapwright {
namespace {

constexpr std::string_view first_line_of_html = "<!DOCTYPE html>\n";
constexpr std::string_view mark_opened = "<!-- made of ";
constexpr std::string_view mark_closed = " -->\n";
constexpr std::string_view last_line_of_html = "</html>\n";

}  // namespace

std::string marked(const std::string& html, const std::string& made_of) {
  return fmt::format("{}{}{}{}{}", first_line_of_html, mark_opened, made_of, mark_closed, html.substr(first_line_of_html.size()));
}

bool begins_marked(std::string_view text) {
  if (!text.starts_with(first_line_of_html)) return false;
  text.remove_prefix(first_line_of_html.size());
  return text.starts_with(mark_opened);
}

std::optional<std::string> mark_of(std::string_view html) {
  if (!begins_marked(html) || !html.ends_with(last_line_of_html)) return std::nullopt;
  html.remove_prefix(first_line_of_html.size() + mark_opened.size());
  const std::size_t end = html.find(mark_closed);
  constexpr std::size_t longest_mark = 100;
  if (end == std::string_view::npos || end > longest_mark) return std::nullopt;
  return std::string(html.substr(0, end));
}

}  // namespace heapwright
