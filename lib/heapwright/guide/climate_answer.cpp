#include <algorithm>
#include <string>
#include <vector>

#include "heapwright/error.hpp"
#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// "zone 6", "USDA 5b": the coldest night of a year, which says nothing of summer.
bool is_hardiness_zone(const std::string& said) {
  if (said.find("zone") != std::string::npos || said.find("usda") != std::string::npos) return true;
  return said.size() <= 3 && has_digit(said) && (said.ends_with('a') || said.ends_with('b'));
}

/// "43215", "43215-1234".
bool is_zip_code(const std::string& said) {
  constexpr std::size_t digits = 5;
  const std::size_t end = std::min(said.find_first_not_of("0123456789"), said.size());
  return end == digits && (end == said.size() || said[end] == '-');
}

std::string words_for_it(const std::vector<NamedClimate>& climates) {
  std::string names;
  for (const NamedClimate& climate : climates) names += (names.empty() ? "" : "; ") + climate.id + " (" + climate.name + ")";
  return names + ". Or the mean temperatures of the coldest and the warmest month: 30 and 76";
}

[[noreturn]] void refuse_climate(const std::string& said, const std::vector<NamedClimate>& climates) {
  throw TextError(in_quotes(said) + " is neither a state, nor a winter by name, nor two temperatures",
                  "write your state: Ohio. Or a word for it: " + words_for_it(climates));
}

[[noreturn]] void refuse_part_of_state(const std::string& said, const std::vector<NamedClimate>& climates) {
  throw TextError(in_quotes(said) + " has other winters than most of its state, which is all that we have a row for",
                  "how cold are they there? Write a word for it: " + words_for_it(climates));
}

}  // namespace

/// "30 and 76": the coldest and the warmest month; the name of a winter; or a US state.
/// @param typed as it was typed: "OR" is a state and "or" is none
Reply read_climate_answer(const Question& question, std::string said, std::string_view typed, const std::vector<NamedClimate>& climates) {
  for (const NamedClimate& climate : climates) {
    if (is_called(climate, plain_name(said)) || is_called(climate, plain_name(typed))) return some({climate.id});
  }
  if (const auto named = state_named(climates, typed))
    return {{named->state->name}, {"some"}, {}, "like " + named->climate->id + ": " + named->climate->name + "; judged by us"};
  if (is_apart_from_its_state(climates, typed)) refuse_part_of_state(said, climates);
  if (is_zip_code(said)) throw TextError("a ZIP code tells us no state", "which state is it in? write for example Ohio");
  if (is_hardiness_zone(said))
    throw TextError("a hardiness zone is only the coldest night of the year", "which state is it in? write for example Ohio");
  replace_each(said, {" in january", " in july", "january ", "july ", "jan. ", "jan ", "jul "}, "");
  replace_each(said, {"°", " degrees", " deg"}, "");
  std::vector<std::string> temperatures = split(said, {" and ", " to ", ", ", ",", " / ", "/"});
  if (temperatures.size() == 1) temperatures = split(said, {" "});
  if (temperatures.size() != 2) refuse_climate(said, climates);
  const auto is_bare = [](const std::string& text) { return !text.empty() && text.find_first_not_of("0123456789.-") == std::string::npos; };
  std::string unit = question.bare;
  if (!is_bare(temperatures[1])) {
    const std::string last = plain_answer(temperatures[1].substr(temperatures[1].find_last_of("0123456789.") + 1));
    if (!last.empty()) unit = last;
  }
  for (std::string& temperature : temperatures) {
    if (is_bare(temperature)) temperature += " " + unit;
    if (!has_digit(temperature)) refuse_climate(said, climates);
    const TemperaturePoint mean = read_temperature(temperature);
    if (!is_a_monthly_mean(mean)) throw TextError(in_quotes(temperature) + " is no month's mean on this earth", "write °F: 30 and 76");
  }
  constexpr double widest_year = 45.0;  // K between two months' means; wider are single days. Judged
  if (read_temperature(temperatures[1]).celsius() - read_temperature(temperatures[0]).celsius() > widest_year)
    throw TextError(in_quotes(said) + " are days, it seems, and the mean of a month is wanted",
                    "write your state: Ohio, or the means of January and July: 30 and 76");
  if (read_temperature(temperatures[0]) > read_temperature(temperatures[1]))
    throw TextError("the coldest month is warmer than the warmest", "write the colder one first: 30 and 76");
  return some(temperatures);
}

}  // namespace heapwright
