#include "heapwright/report/columns.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "heapwright/report/show.hpp"

namespace heapwright {

namespace {

using Row = std::vector<std::string>;

/// The widest cell of each column.
std::vector<std::size_t> widths_of(const std::vector<Row>& rows) {
  std::vector<std::size_t> widths;
  for (const Row& row : rows) {
    if (row.size() == 1) continue;  // it heads those below, across all columns
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width_of(row[i]));
  }
  return widths;
}

std::string row_text(const Row& row, const std::vector<std::size_t>& widths, std::size_t width) {
  std::string line = " ";
  std::size_t last_column = 0;
  for (std::size_t i = 0; i < row.size(); ++i) {
    last_column = width_of(line) + 1;
    line += fmt::format(" {}", padded(row[i], row.size() == 1 ? 0 : widths[i] + 1));
  }
  line.resize(line.find_last_not_of(' ') + 1);
  return width_of(line) <= width ? fmt::format("{}\n", line) : wrap(line, std::min(last_column, width / 2), width);
}

}  // namespace

std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string padded(std::string_view text, std::size_t width) {
  const std::size_t spaces = width - std::min(width, width_of(text));
  return fmt::format("{}{:{}}", text, "", spaces);
}

std::string columns(const std::vector<Row>& rows, std::size_t width) {
  const std::vector<std::size_t> widths = widths_of(rows);
  std::string text;
  for (const Row& row : rows) text += row_text(row, widths, width);
  return text;
}

}  // namespace heapwright
