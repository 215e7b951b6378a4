#pragma once
/// What somebody typed, in one plain form, whoever typed it.

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace heapwright {

/// Small letters, single spaces, no control characters, signs as ASCII has them, numbers in digits ("twenty five" is "25", "a couple dozen"
/// 24), without words that only say that it is not exact ("about", "or so", "20ish", "20+").
std::string plain_answer(std::string_view said);

/// "dunno", "no idea", "?".
bool is_do_not_know(const std::string& plain);
/// "0", "none", "no lawn".
bool is_nothing(const std::string& plain);

/// Two numbers that somebody hesitates between, and what they count: "20-25 bags", "5 or 6 buckets", "between 10 and 12 bags".
struct TwoNumbers {
  std::string low;
  std::string high;
  std::string unit;  ///< empty where none is said
};
/// Nothing for other texts, and where the second number is not the larger.
std::optional<TwoNumbers> two_numbers(const std::string& plain);

/// The parts between separators, each plain.
std::vector<std::string> split(const std::string& text, const std::vector<std::string>& separators);

/// Whether a text is one of some words.
template <std::size_t n>
bool is_one_of(const std::string& plain, const std::array<std::string_view, n>& words) {
  return std::find(words.begin(), words.end(), plain) != words.end();
}

/// Whether any character is a digit.
bool has_digit(const std::string& plain);
/// "12", "1/2", "2½": without a unit.
bool is_bare_number(std::string plain);
/// A number without a unit with one.
std::string with_unit(const std::string& plain, const std::string& unit);

/// Of two numbers that somebody hesitates between the middle, "22.5 bags"; other texts as they are.
std::string middle_of(const std::string& plain);

/// The words behind a number; empty where there is none.
std::string unit_behind(const std::string& plain);
/// The sides of a lawn, a bin or a pile. Those without a unit have the one that another side has, else the question's: "36 inches by 36 by
/// 36".
std::vector<std::string> sides_of(const std::string& plain, const std::string& bare);

/// "20 bags" between quotation marks.
std::string in_quotes(const std::string& said);
/// Every place of a text in another; and of each of several.
void replace_all(std::string& text, std::string_view from, std::string_view to);
void replace_each(std::string& text, const std::vector<std::string_view>& words, std::string_view by);
/// Takes the first of some words off the front, if one is there.
bool drop_any_front(std::string& text, const std::vector<std::string_view>& words);
/// The first word of a text replaced, where it is that.
void replace_first_word(std::string& text, std::string_view word, std::string_view by);

}  // namespace heapwright
