#include "heapwright/guide/plain.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include "heapwright/units/decimal.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using Replacement = std::pair<std::string_view, std::string_view>;

bool is_digit(char c) { return c >= '0' && c <= '9'; }

constexpr auto to_nineteen = std::to_array<std::string_view>(
    {"zero", "one",    "two",    "three",    "four",     "five",    "six",     "seven",     "eight",    "nine",
     "ten",  "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"});
constexpr auto tens =
    std::to_array<std::string_view>({"", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"});

template <std::size_t n>
std::optional<int> place_of(const std::string& word, const std::array<std::string_view, n>& words) {
  const auto found = std::find(words.begin(), words.end(), word);
  if (word.empty() || found == words.end()) return std::nullopt;
  return static_cast<int>(found - words.begin());
}

/// Reads numbers in words off a row of them.
class NumberWords {
 public:
  explicit NumberWords(const std::vector<std::string>& words) : words_(words) {}

  bool done() const { return at_ >= words_.size(); }
  /// The number that begins here, or the word.
  std::string next() {
    if (const std::optional<int> number = dozens()) return std::to_string(*number);
    return words_[at_++];
  }

 private:
  std::string word(std::size_t ahead = 0) const { return at_ + ahead < words_.size() ? words_[at_ + ahead] : std::string(); }

  /// "five", "twenty", "twenty five", "twenty-five".
  std::optional<int> below_hundred() {
    const std::string first = word();
    const std::size_t hyphen = first.find('-');
    if (hyphen != std::string::npos) {
      const auto ten = place_of(first.substr(0, hyphen), tens);
      const auto one = place_of(first.substr(hyphen + 1), to_nineteen);
      if (!ten || !one || *one > 9) return std::nullopt;
      ++at_;
      return 10 * *ten + *one;
    }
    if (const auto small = place_of(first, to_nineteen)) {
      ++at_;
      return small;
    }
    const auto ten = place_of(first, tens);
    if (!ten) return std::nullopt;
    ++at_;
    const auto one = place_of(word(), to_nineteen);
    if (!one || *one == 0 || *one > 9) return 10 * *ten;
    ++at_;
    return 10 * *ten + *one;
  }

  /// "a hundred", "two hundred and fifty".
  std::optional<int> hundreds() {
    const std::size_t before = at_;
    const bool a_hundred = (word() == "a" || word() == "one") && word(1) == "hundred";
    const bool hundred_alone = word() == "hundred" && word(1) != "of";  // "hundred pounds"
    std::optional<int> number = a_hundred || hundred_alone ? std::optional(1) : below_hundred();
    if (a_hundred) ++at_;
    if (!number || word() != "hundred") {
      if (a_hundred) at_ = before;
      return number;
    }
    ++at_;
    number = *number * 100;
    const std::size_t after = at_;
    if (word() == "and") ++at_;
    if (const auto more = below_hundred()) return *number + *more;
    at_ = after;
    return number;
  }

  bool take(const std::vector<std::string>& expected) {
    for (std::size_t i = 0; i < expected.size(); ++i) {
      if (word(i) != expected[i]) return false;
    }
    at_ += expected.size();
    return true;
  }

  /// "five thousand", "5k".
  std::optional<int> thousands(std::optional<int> number) {
    if (number && (word() == "thousand" || word() == "grand")) {
      ++at_;
      return *number * 1000;
    }
    return number;
  }

  std::optional<int> dozens() {
    if (take({"half", "a", "dozen"}) || take({"half", "dozen"})) return 6;
    if (take({"a", "dozen"}) || take({"dozen"})) return 12;
    if (take({"a", "thousand"})) return 1000;
    const std::string first = word();
    const bool in_thousands = first.size() > 1 && first.size() < 5 && first.ends_with('k');
    const bool digits = !first.empty() && first.size() < 5 && std::all_of(first.begin(), first.end() - (in_thousands ? 1 : 0), is_digit);
    if (digits && (in_thousands || word(1) == "dozen" || word(1) == "thousand")) {
      const int count = std::stoi(first);
      const bool dozen = !in_thousands && word(1) == "dozen";
      at_ += in_thousands ? 1 : 2;
      return count * (dozen ? 12 : 1000);
    }
    std::optional<int> number;
    if (take({"a", "couple"}) || take({"couple"})) {
      take({"of"});
      number = 2;
    } else {
      number = thousands(hundreds());
    }
    if (number && take({"dozen"})) return 12 * *number;
    return number;
  }

  const std::vector<std::string>& words_;
  std::size_t at_ = 0;
};

std::string numbers_in_digits(const std::string& plain) {
  std::vector<std::string> words;
  for (std::size_t begin = 0; begin <= plain.size();) {
    const std::size_t end = std::min(plain.find(' ', begin), plain.size());
    std::string word = plain.substr(begin, end - begin);
    const bool comma = word.size() > 1 && word.ends_with(',');
    if (comma) word.pop_back();
    words.push_back(std::move(word));
    if (comma) words.emplace_back(",");
    begin = end + 1;
  }
  std::string written;
  for (NumberWords numbers(words); !numbers.done();) {
    const std::string next = numbers.next();
    written += (written.empty() || next == "," ? "" : " ") + next;
  }
  constexpr std::array<Replacement, 2> shares{{{" quarters", "/4"}, {" thirds", "/3"}}};
  constexpr std::array<Replacement, 3> fractions{{{" and a half", " 1/2"}, {" and a quarter", " 1/4"}, {" and three quarters", " 3/4"}}};
  for (const auto& [spelled, digits] : fractions) {
    const std::size_t at = written.find(spelled);
    if (at != std::string::npos && at > 0 && is_digit(written[at - 1])) replace_all(written, spelled, digits);
  }
  for (const auto& [spelled, digits] : shares) {
    const std::size_t at = written.find(spelled);
    if (at != std::string::npos && at > 0 && is_digit(written[at - 1])) written.replace(at, spelled.size(), digits);
  }
  for (const std::string_view of : {" of an ", " of a "}) {
    const std::size_t at = written.find(of);
    if (at != std::string::npos && at > 0 && is_digit(written[at - 1])) written.replace(at, of.size(), " ");
  }
  return written;
}

/// "1 1/2 bag" of "a bag and a half".
std::string half_first(const std::string& plain) {
  constexpr std::string_view and_a_half = " and a half";
  const std::size_t unit = plain.find(' ');
  const std::string one = plain.substr(0, unit);
  const bool is_one = one == "a" || one == "an" || one == "1";
  if (!is_one || !plain.ends_with(and_a_half) || plain.size() <= one.size() + and_a_half.size()) return plain;
  return "1 1/2" + plain.substr(unit, plain.size() - unit - and_a_half.size());
}

void drop_front(std::string& plain) {
  constexpr auto hedges = std::to_array<std::string_view>(
      {"about ",           "around ",         "roughly ", "~",         "approx. ",  "approx ",    "approximately ",
       "maybe ",           "probably ",       "perhaps ", "i think ",  "i guess ",  "i'd say ",   "say ",
       "close to ",        "nearly ",         "almost ",  "i have ",   "i've got ", "i got ",     "we have ",
       "we usually rake ", "i usually rake ", "we rake ", "i rake ",   "yes, ",     "yes ",       "yeah, ",
       "at least ",        "anywhere ",       "up to ",   "it reads ", "it's at ",  "we've got ", "we got ",
       "there are ",       "there's ",        "it's ",    "ca. ",      "some "});
  for (bool again = true; again;) {
    again = false;
    for (const std::string_view before : hedges) {
      if (!plain.starts_with(before) || plain.size() == before.size()) continue;
      plain = plain.substr(before.size());
      while (plain.starts_with(' ')) plain.erase(0, 1);
      again = true;
    }
  }
}

void drop_end(std::string& plain) {
  constexpr auto hedges = std::to_array<std::string_view>({" or so", " i think", " i guess", " maybe", " give or take", " more or less",
                                                           " total", " in all", " altogether", " probably", " at most", " at least",
                                                           " please", " thanks", "!", ";", "?", " right now"});
  for (bool again = true; again;) {
    again = false;
    while (plain.ends_with(' ') || plain.ends_with(',')) plain.pop_back();
    for (const std::string_view after : hedges) {
      if (!plain.ends_with(after) || plain.size() == after.size()) continue;
      plain.erase(plain.size() - after.size());
      again = true;
    }
    if (plain.size() > 1 && plain.ends_with('.') && !plain.ends_with("..")) {
      plain.pop_back();
      again = true;
    }
  }
}

/// "20ish bags", "20-ish", "20+ bags", "20 or so bags": the number alone.
void drop_after_number(std::string& plain) {
  std::size_t end = 0;
  while (end < plain.size() && (is_digit(plain[end]) || plain[end] == '.')) ++end;
  if (end == 0) return;
  for (const std::string_view after : {"-ish", "ish", "+", " plus", " or so", " or more", " odd"}) {
    const std::size_t behind = end + after.size();
    const bool is_sum = behind + 1 < plain.size() && is_digit(plain[behind + 1]);  // "3 plus 2 bags"
    if (!is_sum && std::string_view(plain).substr(end).starts_with(after) && (behind == plain.size() || plain[behind] == ' ')) {
      plain.erase(end, after.size());
      return;
    }
  }
}

/// A number in digits off the front; empty where there is none.
std::string take_number(std::string_view& text) {
  std::size_t end = 0;
  while (end < text.size() && (is_digit(text[end]) || (text[end] == '.' && end > 0))) ++end;
  const std::string number(text.substr(0, end));
  text.remove_prefix(end);
  return number;
}

bool take(std::string_view& text, std::string_view word) {
  if (!text.starts_with(word)) return false;
  text.remove_prefix(word.size());
  return true;
}

}  // namespace

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
}

void replace_first_word(std::string& text, std::string_view word, std::string_view by) {
  if (text == word || text.starts_with(std::string(word) + " ")) text.replace(0, word.size(), by);
}

std::string plain_answer(std::string_view said) {
  std::string plain;
  for (const char c : said) {
    const bool space = static_cast<unsigned char>(c) <= ' ' || c == '\x7f';
    if (!space) {
      plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    } else if (!plain.empty() && plain.back() != ' ') {
      plain += ' ';
    }
  }
  constexpr std::array<Replacement, 9> signs{
      {{"−", "-"}, {"–", "-"}, {"’", "'"}, {"‘", "'"}, {"“", "\""}, {"”", "\""}, {"\u00A0", " "}, {"×", " x "}, {"≈", "~"}}};
  for (const auto& [from, to] : signs) replace_all(plain, from, to);
  while (plain.ends_with(' ')) plain.pop_back();
  drop_end(plain);
  drop_front(plain);
  replace_first_word(plain, "half of", "half");
  plain = half_first(numbers_in_digits(plain));
  drop_after_number(plain);
  return plain;
}

bool has_digit(const std::string& plain) { return plain.find_first_of("0123456789") != std::string::npos; }

bool is_do_not_know(const std::string& plain) {
  constexpr auto phrases = std::to_array<std::string_view>(
      {"don't know",      "dont know",      "do not know", "didn't count",  "unknown",          "not sure",        "no way to know",
       "no idea",         "no clue",        "dunno",       "who knows",     "beats me",         "not a clue",      "can't say",
       "cant say",        "hard to say",    "unsure",      "can't tell",    "haven't measured", "never measured",  "never counted",
       "haven't counted", "don't remember", "not certain", "couldn't tell", "couldn't say",     "haven't decided", "undecided"});
  if ((!plain.empty() && plain.find_first_not_of('?') == std::string::npos) || plain == "idk" || plain == "dk" || plain == "pass" ||
      plain == "skip")
    return true;
  return std::any_of(phrases.begin(), phrases.end(), [&](std::string_view phrase) { return plain.find(phrase) != std::string::npos; });
}

bool is_nothing(const std::string& plain) {
  constexpr auto words =
      std::to_array<std::string_view>({"0", "none", "nothing", "no", "n", "nope", "nada", "zip", "nil", "zilch", "nah", "not any", "n/a",
                                       "none at all", "don't have 1", "nothing else", "nobody", "no one"});
  if (is_one_of(plain, words) || plain.starts_with("0,")) return true;
  if (has_digit(plain)) return false;
  constexpr auto beginnings = std::to_array<std::string_view>(
      {"no ", "don't have", "we don't", "i don't", "haven't got", "don't collect", "don't rake", "don't bag", "all gravel"});
  return std::any_of(beginnings.begin(), beginnings.end(), [&](std::string_view begin) { return plain.starts_with(begin); });
}

std::optional<TwoNumbers> two_numbers(const std::string& plain) {
  constexpr double most_apart = 10.0;  // "4 to 5 thousand" are no 4
  std::string_view rest = plain;
  const bool between = take(rest, "between ") || take(rest, "from ");
  const std::string low = take_number(rest);
  bool joined = false;
  for (const std::string_view sign : {" - ", "-", " to ", " or ", ", maybe ", ", sometimes "}) joined = joined || take(rest, sign);
  joined = joined || (between && take(rest, " and "));
  if (low.empty() || !joined) return std::nullopt;
  for (const std::string_view hedge : {"maybe ", "even ", "about "}) take(rest, hedge);
  const std::string high = take_number(rest);
  const auto from = decimal_of(low);
  const auto to = decimal_of(high);
  const bool ends = rest.empty() || rest.front() == ' ';
  if (!from || !to || !ends || !(*from < *to && *to <= most_apart * *from)) return std::nullopt;
  while (rest.starts_with(' ')) rest.remove_prefix(1);
  return TwoNumbers{low, high, std::string(rest)};
}

std::vector<std::string> split(const std::string& text, const std::vector<std::string>& separators) {
  std::vector<std::string> parts;
  std::size_t begin = 0;
  while (begin <= text.size()) {
    std::size_t end = text.size();
    std::size_t skip = 1;
    for (const std::string& separator : separators) {
      const std::size_t found = text.find(separator, begin);
      if (found < end) {
        end = found;
        skip = separator.size();
      }
    }
    parts.push_back(plain_answer(text.substr(begin, end - begin)));
    begin = end + skip;
  }
  return parts;
}

bool is_bare_number(std::string plain) {
  for (const std::string_view sign : {"¼", "½", "¾"}) replace_all(plain, sign, "1");
  return !plain.empty() && plain.find_first_not_of("0123456789.,/ ") == std::string::npos && has_digit(plain);
}

std::string with_unit(const std::string& plain, const std::string& unit) { return is_bare_number(plain) ? plain + " " + unit : plain; }

/// Of two numbers that somebody hesitates between the middle.
std::string middle_of(const std::string& said) {
  const std::optional<TwoNumbers> between = two_numbers(said);
  if (!between) return said;
  const double middle = (*decimal_of(between->low) + *decimal_of(between->high)) / 2.0;
  return print_number(middle, 6) + (between->unit.empty() ? "" : " " + between->unit);
}

/// The unit behind a number; empty where there is none.
std::string unit_behind(const std::string& said) {
  const auto counted = counted_words(said);
  return counted ? counted->words : std::string();
}

/// The sides of a lawn or a bin. Those without a unit have the one that another side has, else the question's: "36 inches by 36 by 36".
std::vector<std::string> sides_of(const std::string& said, const std::string& bare) {
  std::vector<std::string> sides = sides_in(said);
  std::string unit = bare;
  for (const std::string& side : sides) {
    const std::string own = unit_behind(side);
    if (own.empty()) continue;
    unit = own;
    break;
  }
  for (std::string& side : sides) side = with_unit(side, unit);
  return sides;
}

std::string in_quotes(const std::string& said) { return "\"" + said + "\""; }

void replace_each(std::string& text, const std::vector<std::string_view>& words, std::string_view by) {
  for (const std::string_view word : words) replace_all(text, word, by);
}

bool drop_any_front(std::string& text, const std::vector<std::string_view>& words) {
  const auto word = std::find_if(words.begin(), words.end(), [&](std::string_view one) { return text.starts_with(one); });
  if (word == words.end()) return false;
  text.erase(0, word->size());
  return true;
}

}  // namespace heapwright
