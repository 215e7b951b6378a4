#include <array>
#include <string>
#include <utility>

#include "heapwright/error.hpp"
#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/pile/description.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using Replacement = std::pair<std::string_view, std::string_view>;

/// "every", "weekly" in place of "evry", "wekly".
void spell_first_word(std::string& text) {
  constexpr std::size_t long_enough = 4;
  const std::string first = text.substr(0, text.find(' '));
  for (const std::string_view word : {"every", "weekly", "monthly", "daily", "fortnight"}) {
    if (first.size() >= long_enough && edit_distance(first, word) == 1) replace_first_word(text, first, word);
  }
}

/// Words for how often, and what each is.
std::string interval_in_digits(std::string text) {
  const std::string said = text;
  constexpr auto words = std::to_array<Replacement>({{"other", "2"},
                                                     {"second", "2"},
                                                     {"3rd", "3"},
                                                     {"third", "3"},
                                                     {"fortnightly", "2 weeks"},
                                                     {"fortnight", "2 weeks"},
                                                     {"daily", "1 day"},
                                                     {"weekly", "1 week"},
                                                     {"monthly", "30 days"},
                                                     {"yearly", "365 days"},
                                                     {"year", "365 days"},
                                                     {"twice a month", "15 days"},
                                                     {"twice a week", "3.5 days"},
                                                     {"twice a year", "180 days"},
                                                     {"2 times a week", "3.5 days"},
                                                     {"2 times a month", "15 days"},
                                                     {"3 times a week", "2.33 days"},
                                                     {"saturday", "1 week"},
                                                     {"weekend", "1 week"}});
  spell_first_word(text);
  drop_any_front(text, {"every ", "once every ", "once a ", "once per ", "1x a ", "1x/", "1 time a ", "1 times a ", "each ", "a "});
  text = plain_answer(text);
  spell_first_word(text);
  for (const auto& [word, meaning] : words) replace_first_word(text, word, meaning);
  if (!has_digit(text) && !text.starts_with("half")) {
    if (!is_quantity("1 " + text, Dimension::duration) && text != "month" && text != "months")
      throw TextError(in_quotes(said) + " does not say how often", "write every 2 weeks");
    text = "1 " + text;
  }
  for (const std::string_view month : {" months", " month"}) {
    if (!text.ends_with(month)) continue;
    const std::string number = text.substr(0, text.size() - month.size());
    if (number == "half") return "15 days";
    if (is_bare_number(number)) return print_number(30.0 * read_counted_words(number).number, 4) + " days";
  }
  return text;
}

}  // namespace

/// "14", "every two weeks", "weekly", "once a month".
Reply read_interval_answer(const Question& question, const std::string& said) {
  constexpr auto nevers = std::to_array<std::string_view>({"0", "no", "none", "nope", "never", "not at all", "i won't", "won't",
                                                           "won't turn it", "i don't turn it", "don't turn it", "not going to", "i don't"});
  if (is_one_of(said, nevers)) return none();
  if (said == "biweekly" || said == "bi-weekly")
    throw TextError("biweekly is every 2 weeks, or twice a week", "write every 2 weeks, or 3 days");
  std::string text = interval_in_digits(middle_of(said));
  constexpr double least_bare = 3.0;  // of a bare number nobody knows whether it is days or weeks
  const auto number = is_bare_number(text) ? counted_words(text) : std::nullopt;
  if (number && number->number > 0.0 && number->number < least_bare)
    throw TextError(in_quotes(said) + " what, days or weeks?", "write every 2 weeks");
  text = with_unit(text, question.bare);
  if (!is_positive(read_duration(text))) return none();
  read_turning(text);
  return some({text});
}

}  // namespace heapwright
