#include "heapwright/input/columns.hpp"

#include <algorithm>

#include "heapwright/units/text.hpp"

namespace heapwright {

namespace {

struct ScaleAt {
  TemperatureScale scale;
  std::size_t begin;
};

std::optional<ScaleAt> find_scale(std::string_view name) {
  while (name.ends_with(')') || name.ends_with(']')) name.remove_suffix(1);
  for (std::size_t begin = 0; begin < name.size(); ++begin) {
    const bool a_word_begins = begin == 0 || std::string_view(" _([").find(name[begin - 1]) != std::string_view::npos;
    if (!a_word_begins) continue;
    if (const auto scale = temperature_scale(name.substr(begin))) return ScaleAt{*scale, begin};
  }
  return std::nullopt;
}

}  // namespace

std::optional<TemperatureScale> scale_at_end(std::string_view name) {
  const std::optional<ScaleAt> found = find_scale(name);
  return found ? std::optional(found->scale) : std::nullopt;
}

std::string_view without_scale(std::string_view name) {
  const std::optional<ScaleAt> found = find_scale(name);
  const std::string_view before = found ? name.substr(0, found->begin) : name;
  const std::size_t last = before.find_last_not_of(" _([");
  return last == std::string_view::npos ? name : before.substr(0, last + 1);
}

bool is_parted_otherwise(const Csv& csv) {
  const auto has_another_sign = [](const std::string& name) { return name.find_first_of(";\t") != std::string::npos; };
  return 2 * std::count_if(csv.header().begin(), csv.header().end(), has_another_sign) >= std::ssize(csv.header());
}

std::optional<std::size_t> column_called(std::string_view name, Csv& csv, const char* wanted) {
  const std::vector<std::size_t> called = columns_that([&](const std::string& header) { return plain_name(header) == name; }, csv);
  if (called.empty()) csv.problem_of_header("no column is named \"" + std::string(name) + "\"", wanted);
  if (called.size() > 1) csv.problem_of_column(called[1], "is a second column of that name", "leave one");
  return called.size() == 1 ? std::optional(called.front()) : std::nullopt;
}

}  // namespace heapwright
