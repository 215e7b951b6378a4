#include "heapwright/report/columns.hpp"

#include <algorithm>

#include "heapwright/report/show.hpp"

namespace heapwright {

std::size_t width_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

std::string padded(const std::string& text, std::size_t width) {
  return text + std::string(width > width_of(text) ? width - width_of(text) : 0, ' ');
}

std::string right(const std::string& text, std::size_t width) {
  return std::string(width > width_of(text) ? width - width_of(text) : 0, ' ') + text;
}

std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t width) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    if (row.size() == 1) continue;  // it heads those below, across all columns
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], width_of(row[i]));
  }
  std::string text;
  for (const auto& row : rows) {
    std::string line = " ";
    std::size_t last_column = 0;
    for (std::size_t i = 0; i < row.size(); ++i) {
      last_column = width_of(line) + 1;
      line += " " + padded(row[i], row.size() == 1 ? 0 : widths[i] + 1);
    }
    line.resize(line.find_last_not_of(' ') + 1);
    text += width_of(line) <= width ? line + "\n" : wrap(line, std::min(last_column, width / 2), width);
  }
  return text;
}

}  // namespace heapwright
