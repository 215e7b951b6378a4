#include "heapwright/materials/read_readings.hpp"

#include <algorithm>
#include <cmath>

namespace heapwright {

const std::vector<std::pair<std::string, Evidence>>& evidence_words() {
  static const std::vector<std::pair<std::string, Evidence>> words{
      {"seen", Evidence::seen}, {"secondary", Evidence::secondary}, {"memory", Evidence::memory}, {"judged", Evidence::judged}};
  return words;
}

double relative_rounding(std::string_view text) {
  const std::size_t begin = text.find_first_of("0123456789.");
  if (begin == std::string_view::npos) return 0.0;
  const std::string_view digits = text.substr(begin, text.find_first_not_of("0123456789.", begin) - begin);
  const std::size_t point = digits.find('.');
  const auto decimals = point == std::string_view::npos ? 0 : static_cast<int>(digits.size() - point - 1);
  double value = 0.0;
  for (const char digit : digits) {
    if (digit != '.') value = 10.0 * value + (digit - '0');
  }
  value /= std::pow(10.0, decimals);
  return value > 0.0 ? 0.5 * std::pow(10.0, -decimals) / value : 0.0;
}

BulkDensity read_some_density(std::string_view text) {
  const BulkDensity density = read_bulk_density(text);
  if (!(density.value() > 0.0)) throw TextError("\"" + std::string(text) + "\" is no weight", "write a weight above zero: \"350 lb/yd3\"");
  return density;
}

std::string read_name(std::string_view text) {
  if (text.find_first_not_of(" \t") == std::string_view::npos) throw TextError("a name is empty", "write a name");
  const bool control = std::any_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  if (control) throw TextError("a name has a control character in it", "write it in letters, on one line");
  return std::string(text);
}

std::vector<std::string> read_names(Table& table, std::string_view key) {
  std::vector<std::string> names;
  for (const Value& value : table.list(key)) {
    if (const auto name = value.read(read_name)) names.push_back(*name);
  }
  return names;
}

}  // namespace heapwright
