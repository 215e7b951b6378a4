#include "heapwright/materials/read_published_values.hpp"

#include <algorithm>

#include "heapwright/input/printable.hpp"

namespace heapwright {
namespace {

/// Half a unit of the last digit of "1,000", "15.25" or "1.5e3", relative to the number; of "15 1/2" half of its half.
double rounding_of_number(std::string_view text) {
  double value = 0.0;
  double last_digit = 1.0;
  bool decimals = false;
  std::size_t at = std::min(text.find_first_of("0123456789."), text.size());
  for (; at < text.size() && std::string_view("0123456789.,").find(text[at]) != std::string_view::npos; ++at) {
    if (text[at] == ',') continue;
    if (text[at] == '.') {
      decimals = true;
    } else if (decimals) {
      last_digit /= 10.0;
      value += last_digit * (text[at] - '0');
    } else {
      value = 10.0 * value + (text[at] - '0');
    }
  }
  const std::size_t behind = text.find_first_not_of("0123456789 ", at);
  const bool fraction = behind != std::string_view::npos && text[behind] == '/';
  if (fraction) return 0.25 / std::max(value, 1.0);
  return value > 0.0 ? 0.5 * last_digit / value : 0.0;
}

/// Of a ratio's side; the 1 of "30:1" is exact.
double rounding_of_side(std::string_view text) {
  const std::size_t begin = text.find_first_not_of(' ');
  const std::size_t end = text.find_last_not_of(' ');
  const bool one = begin != std::string_view::npos && text.substr(begin, end - begin + 1) == "1";
  return one ? 0.0 : rounding_of_number(text);
}

}  // namespace

const std::vector<std::pair<std::string, Evidence>>& evidence_words() {
  static const std::vector<std::pair<std::string, Evidence>> words{
      {"seen", Evidence::seen}, {"secondary", Evidence::secondary}, {"memory", Evidence::memory}, {"judged", Evidence::judged}};
  return words;
}

const std::vector<std::pair<std::string, Evidence>>& range_evidence_words() {
  static const std::vector<std::pair<std::string, Evidence>> words{{"memory", Evidence::memory}, {"judged", Evidence::judged}};
  return words;
}

double relative_rounding(std::string_view text) {
  const std::size_t colon = text.find(':');
  if (colon != std::string_view::npos) return rounding_of_side(text.substr(0, colon)) + rounding_of_side(text.substr(colon + 1));
  return rounding_of_number(text);
}

BulkDensity read_some_density(std::string_view text) {
  const BulkDensity density = read_bulk_density(text);
  if (!is_positive(density)) throw TextError("\"" + std::string(text) + "\" is no weight", "write a weight above zero: \"350 lb/yd3\"");
  return density;
}

DryBulkDensity read_dry_density(std::string_view text) { return read_some_density(text) * (unit::kg_dry / unit::kg); }

std::string read_name(std::string_view text) {
  if (text.find_first_not_of(" \t") == std::string_view::npos) throw TextError("a name is empty", "write a name");
  const bool control = text.find_first_of("\n\t") != std::string_view::npos || printable(text) != text;
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
