#include <algorithm>
#include <array>
#include <optional>
#include <string>

#include "heapwright/error.hpp"
#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// So many of what is counted: "3", "3 people", "2 adults", "my wife"; nothing where something else is.
std::optional<double> counted(const std::string& said) {
  constexpr auto one = std::to_array<std::string_view>(
      {"me",        "i",         "myself",  "i live alone", "alone",        "my wife",       "my husband", "my spouse",   "my partner",
       "my mom",    "my mother", "my dad",  "my father",    "my son",       "my daughter",   "my friend",  "my roommate", "my brother",
       "my sister", "wife",      "husband", "partner",      "my boyfriend", "my girlfriend", "my kid",     "my grandma"});
  if (is_one_of(said, one)) return 1.0;
  constexpr auto names = std::to_array<std::string_view>(
      {"",          "people", "person", "persons", "of us",     "adults",       "adult",           "kids",    "kid",
       "children",  "child",  "teens",  "teen",    "teenagers", "teenager",     "toddlers",        "toddler", "grown-ups",
       "roommates", "ppl",    "trees",  "tree",    "big trees", "in the house", "in the household"});
  const auto read = counted_words(said);
  if (!read || !is_one_of(read->words, names)) return std::nullopt;
  return read->number;
}

/// "2 adults, 2 kids" of "2 adults 2 kids".
std::string between_counts(const std::string& said) {
  std::string apart;
  for (const char c : said) {
    const bool before_count = c >= '0' && c <= '9' && apart.size() > 1 && apart.back() == ' ' && apart[apart.size() - 2] >= 'a';
    if (before_count) apart.back() = ',';
    if (before_count) apart += ' ';
    apart += c;
  }
  replace_all(apart, " and, ", " and ");
  return apart;
}

/// Its parts, of which each is counted: "2 adults and 2 kids", "2 adults 2 kids", "me, my wife and 3 kids". Animals do not count.
double sum_of_people(const std::string& said, const std::string& hint) {
  double sum = 0.0;
  bool animals = false;
  for (const std::string& part : split(between_counts(said), {" and ", ", ", " + ", " plus "})) {
    const bool is_animal = part.ends_with("dog") || part.ends_with("dogs") || part.ends_with("cat") || part.ends_with("cats");
    animals = animals || is_animal;
    if (is_animal) continue;
    const auto some_of_them = counted(part);
    if (!some_of_them) throw TextError(in_quotes(said) + " is more than a number", hint);
    sum += *some_of_them;
  }
  if (animals && sum == 0.0) throw TextError("how many people?", hint);
  return sum;
}

}  // namespace

/// A number of people or trees, and nothing behind it but what is counted: "3", "2 adults and 2 kids", "just me", "family of 4", "3 or 4".
Reply read_count_answer(std::string said) {
  if (is_nothing(said)) return none();
  const std::string hint = "write one number: 3";
  for (const std::string_view before :
       {"just ", "only ", "the ", "a family of ", "family of ", "we're ", "we are ", "there's ", "there are "}) {
    if (said.starts_with(before)) said = plain_answer(said.substr(before.size()));
  }
  said = plain_answer(said.substr(0, said.find('(')));  // "4 (2 adults, 2 kids)"
  if (said == "both of us") said = "2";
  constexpr double least = 1.0;
  constexpr double most = 1000.0;
  const auto two = two_numbers(said);
  const auto low = two ? counted(two->low) : std::nullopt;
  const auto high = two ? counted(two->high + (two->unit.empty() ? "" : " " + two->unit)) : std::nullopt;
  const double number = low && high ? (*low + *high) / 2.0 : sum_of_people(said, hint);
  if (number == 0.0) return none();
  if (!(number >= least && number <= most)) throw TextError(in_quotes(said) + " is no count from 1 to 1000", hint);
  return some({print_number(number, 4)});
}

}  // namespace heapwright
