#include "heapwright/guide/reply.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/said_date.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/pile/description.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/decimal.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using Replacement = std::pair<std::string_view, std::string_view>;

constexpr std::size_t longest_answer = 300;

/// Whether bytes are UTF-8 by their leading and following bits.
bool is_utf8(std::string_view text) {
  std::size_t following = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool follows = (byte & 0xC0U) == 0x80U;
    if (follows != (following > 0)) return false;
    if (follows) {
      --following;
    } else if (byte >= 0x80) {
      if (byte < 0xC2 || byte > 0xF4) return false;
      following = byte >= 0xF0 ? 3 : byte >= 0xE0 ? 2 : 1;
    }
  }
  return following == 0;
}

Reply some(std::vector<std::string> texts) { return {std::move(texts), {"some"}, {}}; }
Reply none() { return {{}, {"none"}, {}}; }

std::string in_quotes(const std::string& said) { return "\"" + said + "\""; }

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
  for (std::string part : split(between_counts(said), {" and ", ", ", " + ", " plus "})) {
    replace_first_word(part, "the", "");
    part = plain_answer(part);
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

/// A number of people or trees, and nothing behind it but what is counted: "3", "2 adults and 2 kids", "just me", "family of 4", "3 or 4".
Reply read_count_answer(std::string said) {
  if (is_nothing(said)) return none();
  const std::string hint = "write one number: 3";
  for (const std::string_view before : {"just ", "only ", "the ", "a family of ", "family of ", "we're ", "we are ", "there's ", "there are "}) {
    if (said.starts_with(before)) said = plain_answer(said.substr(before.size()));
  }
  said = plain_answer(said.substr(0, said.find('(')));  // "4 (2 adults, 2 kids)"
  if (said == "both of us" || said == "a couple") said = "2";
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

/// @param typed as it was typed: who says "maybe no" does not know
Reply read_yes_no_answer(const std::string& said, std::string_view typed) {
  for (const std::string_view doubt : {"maybe", "Maybe", "perhaps", "probably", "think", "guess"}) {
    if (typed.find(doubt) != std::string_view::npos) return {{}, {"unknown"}};
  }
  constexpr auto yes = std::to_array<std::string_view>({"y", "yes", "yeah", "yep"});
  constexpr auto no = std::to_array<std::string_view>({"n", "no", "nope", "never"});
  const std::string first = said.substr(0, said.find_first_of(",.;"));  // "yes, in May"
  if (is_one_of(first, yes)) return some({"yes"});
  if (is_one_of(first, no)) return none();
  throw TextError(in_quotes(said) + " is neither yes nor no", "write yes, no, or ? for don't know");
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

/// The lengths that a sentence names: of "a pile 6 by 8 feet, to the knee" it is "6 by 8 feet".
std::string lengths_in(const std::string& said) {
  constexpr auto units =
      std::to_array<std::string_view>({"ft", "feet", "foot", "in", "inch", "inches", "m", "meters", "metres", "yd", "yard", "yards"});
  std::string lengths;
  bool after_number = false;
  for (const std::string& word : split(said, {" ", ",", "x"})) {
    const bool number = is_bare_number(word);
    if (number) lengths += (lengths.empty() ? "" : " by ") + word;
    if (after_number && is_one_of(word, units)) lengths += " " + word;
    after_number = number;
  }
  return lengths;
}

/// "a pile 6 by 8 feet, as high as my waist", "a pile 6 ft by 4 ft by 2 ft": length, width and height; nothing where it is no pile.
std::optional<Reply> read_pile(const std::string& said, const Materials& materials) {
  const bool named = said.find("pile") != std::string::npos;
  if (!named && two_numbers(said)) return std::nullopt;
  std::vector<std::string> sides = sides_of(named ? lengths_in(said) : said, "ft");
  if (!named && sides.size() != 3) sides = sides_of(lengths_in(said), "ft");
  for (const BodyHeight& row : materials.rough->heights) {
    const std::string body = row.id.substr(0, row.id.find('-'));
    if (sides.size() == 2 && said.find(body) != std::string::npos) sides.push_back(row.id);
  }
  if (!named && sides.size() != 3) return std::nullopt;
  if (sides.size() != 3) throw TextError("how long, wide and high is the pile?", "write \"a pile 6 by 4 feet, knee-high\"");
  return Reply{sides, {"some", "pile"}, {}};
}

/// What is in the bags must be what was asked for: "20 bags of grass" are no leaves. @throws TextError
void check_contents(const Question& question, const std::string& said, const Materials& materials) {
  const std::size_t of = said.find(" of ");
  if (of == std::string::npos) return;
  const Feedstock* asked_for = feedstock_called(materials, question.id);
  const std::string contents = said.substr(of + 4);
  const Feedstock* named = feedstock_called(materials, contents);
  const bool both_leaves = named != nullptr && asked_for != nullptr && named->has_tag("leaves") && asked_for->has_tag("leaves");
  if (asked_for == nullptr || named == asked_for || both_leaves) return;
  throw TextError("here " + asked_for->name + " are meant, not " + contents, "write for example " + question.example);
}

/// Without what the question says already, and with a number: "a bag and a half", "a bag or two".
std::string amount_alone(const Question& question, std::string said) {
  const bool of_a_week = question.ask.find("a week") != std::string::npos;
  for (const std::string_view after :
       {" a week", " per week", " each week", " every week", " weekly", "/wk", "/week", " /week", " per wk", " a wk"}) {
    if (of_a_week && said.ends_with(after)) said.erase(said.size() - after.size());
  }
  for (const std::string_view after : {" a year", " each year", " every year", " per year", " a season"}) {
    if (!of_a_week && said.ends_with(after)) said.erase(said.size() - after.size());
  }
  if (!said.starts_with("a ") && !said.starts_with("1 ")) return said;
  const std::string what = said.substr(2);
  for (const auto& [behind, number] : {Replacement{" and a half", "1 1/2 "}, Replacement{" or 2", "1 to 2 "}}) {
    if (what.ends_with(behind)) return std::string(number) + what.substr(0, what.size() - behind.size());
  }
  return said;
}

Reply read_amount_answer(const Question& question, const std::string& said, const Materials& materials) {
  const bool stays = !has_digit(said) && (said.find("on the lawn") != std::string::npos || said.find("mulch") != std::string::npos);
  if (is_nothing(said) || stays) return none();
  const std::string amount = amount_alone(question, said);
  if (const auto pile = read_pile(amount, materials)) return *pile;
  if (amount.starts_with("a handful")) throw TextError("how many is a handful?", "write a number: " + question.example);
  const bool only_a_share =
      is_bare_number(amount) && amount != "1/2" && amount.find('/') != std::string::npos && amount.find(' ') == std::string::npos;
  if (only_a_share) throw TextError(in_quotes(said) + " of what?", "write for example " + question.example);
  check_contents(question, amount, materials);
  const std::string text = plain_amount(amount, question.bare);
  const auto range = read_amount_range(text, *materials.containers);
  const Amount likely = range ? range->likely : read_amount(text, materials);
  check_plausible(likely, said);
  return is_zero(likely) ? none() : some({text});
}

/// Of two numbers that somebody hesitates between the middle.
std::string middle_of(const std::string& said) {
  const std::optional<TwoNumbers> between = two_numbers(said);
  if (!between) return said;
  const double middle = (*decimal_of(between->low) + *decimal_of(between->high)) / 2.0;
  return print_number(middle, 6) + (between->unit.empty() ? "" : " " + between->unit);
}

/// "5000", "5000 ft2", "60 by 30", "60 ft by 30 ft".
Reply read_area_answer(const Question& question, const std::string& said) {
  if (is_nothing(said)) return none();
  std::string area = middle_of(said);
  for (const std::string_view behind : {" of lawn", " of grass", " lawn"}) {
    if (area.ends_with(behind)) area.erase(area.size() - behind.size());
  }
  replace_all(area, "/3 of an acre", "/3 acre");
  replace_all(area, "quarters of an acre", "/4 acre");
  replace_all(area, " /4", "/4");
  if (area == "an acre 1/2" || area == "an acre and a half" || area == "1 acre and a half") area = "1 1/2 acre";
  const std::vector<std::string> sides = sides_of(area, "ft");
  constexpr double least_bare = 50.0;  // smaller than any lawn in square feet: acres are meant, or it is a slip
  if (is_bare_number(area) && sides.size() == 1) {
    const auto number = counted_words(area);
    if (number && number->number > 0.0 && number->number < least_bare)
      throw TextError(in_quotes(said) + " of what, square feet or acres?", "write 5000 ft2, or 1/4 acre");
  }
  const std::string text = sides.size() == 2 ? sides[0] + " by " + sides[1] : with_unit(area, question.bare);
  return is_positive(read_area(text)) ? some({text}) : none();
}

void replace_each(std::string& text, const std::vector<std::string_view>& words, std::string_view by) {
  for (const std::string_view word : words) replace_all(text, word, by);
}

/// Its sides alone, between "by", the height last: of "3 ft high, 4 ft wide and 4 ft long" it is "4 ft by 4 ft by 3 ft".
std::string sides_alone(std::string size) {
  const std::vector<std::string_view> words_before{
      "a ",    "an ",       "my ",     "wire ",    "of wire ", "square ", "round ",    "round, ",  "round,", "circle ", "hoop ",
      "ring ", "cylinder ", "pallet ", "tumbler ", "bin ",     "pile ",   "circular ", "plastic ", ": ",     "of ",     ", "};
  for (bool again = true; again;) {
    again = false;
    for (const std::string_view before : words_before) {
      if (!size.starts_with(before)) continue;
      size = plain_answer(size.substr(before.size()));
      again = true;
    }
  }
  for (const std::string_view behind : {" tumbler", " plastic bin", " round bin", " bin", " barrel", " composter"}) {
    if (size.ends_with(behind)) size.erase(size.size() - behind.size());
  }
  replace_each(size, {", ", ",", "*", " and ", " with "}, " by ");
  const std::vector<std::string> words = split(size, {" "});
  const bool numbers_alone = words.size() == 3 && std::all_of(words.begin(), words.end(), is_bare_number);
  if (numbers_alone) size = words[0] + " by " + words[1] + " by " + words[2];
  std::string sides;
  std::string height;
  for (std::string side : split(size, {" by ", " x ", "x"})) {
    bool upright = false;
    for (const std::string_view word : {" high", " tall", " in height", " height"}) {
      if (!side.ends_with(word)) continue;
      side.erase(side.size() - word.size());
      upright = true;
    }
    replace_each(side,
                 {" in diameter", " diameter", " across", " in width", " in length", " wide", " long", " deep", " each way", " each side",
                  " on a side", " cubed", " cube"},
                 " by ");
    while (side.ends_with(" by ") || side.ends_with(' ')) side.erase(side.size() - (side.ends_with(" by ") ? 4 : 1));
    if (upright && height.empty()) {
      height = side;
    } else if (!side.empty()) {
      sides += (sides.empty() ? "" : " by ") + side;
    }
  }
  return height.empty() ? sides : sides + (sides.empty() ? "" : " by ") + height;
}

bool is_round(const std::string& said) {
  constexpr auto words = std::to_array<std::string_view>({"round", "hoop", "ring", "circle", "circular", "cylind", "diameter"});
  const bool named = std::any_of(words.begin(), words.end(), [&](std::string_view word) { return said.find(word) != std::string::npos; });
  return named || said.find("across") != std::string::npos;
}

/// @throws TextError for sides that somebody means in inches, and for inches that were meant of one side alone
void check_sides(const std::vector<std::string>& sides, const std::string& size, bool has_unit, const std::string& hint) {
  constexpr Length shortest = 0.1 * unit::m;
  constexpr Length longest = 60.0 * unit::m;
  const Length likely_inches = 24.0 * unit::foot;
  const Length likely_feet = 0.5 * unit::foot;
  for (const std::string& side : sides) {
    const Length length = read_length(side);
    if (!has_unit && length >= likely_inches)
      throw TextError(in_quotes(size) + " in feet, or in inches?", "write the unit: 36 in by 36 in by 36 in; or of a tumbler 60 gal");
    if (has_unit && sides.size() > 1 && length < likely_feet)
      throw TextError(in_quotes(side) + " for a side of a bin?", "write each with its unit: 4 ft by 4 ft by 30 in");
    if (!(length >= shortest && length <= longest)) throw TextError(in_quotes(side) + " is no side of a bin", hint);
  }
}

/// "4", "4 by 4 by 3", "4 ft x 4 ft x 3 ft": three sides, where one stands for all; "round 3 by 4", "hoop 4 ft across 3 ft high": diameter
/// and height; "64 gal": a tumbler's volume.
Reply read_size_answer(const Question& question, const std::string& said) {
  const std::string hint = "write length, width and height: 4 by 4 by 3; or round 3 by 4; or of a tumbler 60 gal";
  if (is_nothing(said)) return {{}, {"unknown"}, {}};
  const bool round = is_round(said);
  std::string size = sides_alone(said);
  const bool is_square = size.find(" square") != std::string::npos || size.find("-foot square") != std::string::npos;
  replace_each(size, {" square"}, "");
  std::vector<std::string> sides = sides_of(size, question.bare);
  if (is_square && sides.size() == 2) sides.insert(sides.begin(), sides.front());
  const bool is_volume = sides.size() == 1 && !round && is_quantity(sides[0], Dimension::volume);
  if (is_volume && read_volume(sides[0]) >= unit::liter) return {{sides[0]}, {"some", "volume"}, {}};
  if (round && sides.size() == 1) throw TextError("and how high?", "write across and height: round " + size + " by 3");
  if (sides.size() > 3 || (round && sides.size() != 2)) throw TextError(in_quotes(said) + " is no size", hint);
  check_sides(sides, size, !unit_behind(sides_in(size).front()).empty() || !unit_behind(sides_in(size).back()).empty(), hint);
  if (round) return {sides, {"some", "round"}, {}};
  const bool one_for_all =
      sides.size() == 1 && !is_square && said.find("wide") == std::string::npos && said.find("long") == std::string::npos;
  if (sides.size() == 1 && one_for_all) sides = {sides[0], sides[0], sides[0]};
  if (sides.size() < 3) throw TextError("and how high?", "write length, width and height: 4 by 4 by 3");
  return some(sides);
}

Reply read_date_answer(const std::string& said, Date today) { return some({print_date(read_said_date(said, today))}); }

/// Words for how often, and what each is.
std::string interval_in_digits(std::string text) {
  constexpr std::array<Replacement, 27> words{{{"every other week", "2 weeks"},
                                               {"every second week", "2 weeks"},
                                               {"other week", "2 weeks"},
                                               {"second week", "2 weeks"},
                                               {"every other day", "2 days"},
                                               {"every second day", "2 days"},
                                               {"every 3rd day", "3 days"},
                                               {"every third day", "3 days"},
                                               {"other", "2"},
                                               {"second", "2"},
                                               {"third", "3"},
                                               {"fortnightly", "2 weeks"},
                                               {"fortnight", "2 weeks"},
                                               {"daily", "1 day"},
                                               {"weekly", "1 week"},
                                               {"monthly", "30 days"},
                                               {"yearly", "365 days"},
                                               {"year", "365 days"},
                                               {"1 year", "365 days"},
                                               {"twice a month", "15 days"},
                                               {"twice a week", "3.5 days"},
                                               {"twice a year", "180 days"},
                                               {"2 times a week", "3.5 days"},
                                               {"2 times a month", "15 days"},
                                               {"3 times a week", "2.33 days"},
                                               {"saturday", "1 week"},
                                               {"weekend", "1 week"}}};
  for (const std::string_view before :
       {"every ", "evry ", "once every ", "once a ", "once per ", "1x a ", "1x/", "1 time a ", "1 times a ", "each ", "a "}) {
    if (text.starts_with(before)) text = text.substr(before.size());
  }
  text = plain_answer(text);
  const std::string first = text.substr(0, text.find(' '));
  for (const std::string_view word : {"weekly", "monthly", "daily", "fortnight"}) {
    if (first.size() >= 5 && edit_distance(first, word) == 1) replace_first_word(text, first, word);
  }
  for (const auto& [word, meaning] : words) replace_first_word(text, word, meaning);
  if (!has_digit(text) && !text.starts_with("half")) text = "1 " + text;
  for (const std::string_view month : {" months", " month"}) {
    if (!text.ends_with(month)) continue;
    const std::string number = text.substr(0, text.size() - month.size());
    if (number == "half") return "15 days";
    if (is_bare_number(number)) return print_number(30.0 * read_counted_words(number).number, 4) + " days";
  }
  return text;
}

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

/// "zone 6", "USDA 5b": the coldest night of a year, which says nothing of summer.
bool is_hardiness_zone(const std::string& said) {
  if (said.find("zone") != std::string::npos || said.find("usda") != std::string::npos) return true;
  return said.size() <= 3 && has_digit(said) && (said.ends_with('a') || said.ends_with('b'));
}

[[noreturn]] void refuse_climate(const std::string& said, const std::vector<NamedClimate>& climates) {
  std::string names;
  for (const NamedClimate& climate : climates) names += (names.empty() ? "" : "; ") + climate.id + " (" + climate.name + ")";
  throw TextError(
      in_quotes(said) + " is neither a state, nor a winter by name, nor two temperatures",
      "write your state: Ohio. Or a word for it: " + names + ". Or the mean temperatures of the coldest and the warmest month: 30 and 76");
}

/// "30 and 76": the coldest and the warmest month; the name of a winter; or a US state.
/// @param typed as it was typed: "OR" is a state and "or" is none
Reply read_climate_answer(const Question& question, std::string said, std::string_view typed, const std::vector<NamedClimate>& climates) {
  for (const NamedClimate& climate : climates) {
    if (is_called(climate, plain_name(said)) || is_called(climate, plain_name(typed))) return some({climate.id});
  }
  if (const auto named = state_named(climates, typed))
    return {{named->state->name}, {"some"}, {}, "like " + named->climate->id + ": " + named->climate->name + "; judged by us"};
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

Reply read_things_answer(const std::string& said, const Materials& materials) {
  if (is_nothing(said)) return none();
  Reply answer{{}, {"some"}, read_things(said, materials)};
  if (answer.things.empty()) return none();
  if (std::any_of(answer.things.begin(), answer.things.end(), [](const Thing& thing) { return thing.herbicide; }))
    answer.is.insert("herbicide");
  return answer;
}

Reply read_kind(const Question& question, const std::string& said, std::string_view typed, const Tables& tables, Date today) {
  switch (question.kind) {
    case AnswerKind::amount: return read_amount_answer(question, said, tables.materials);
    case AnswerKind::count: return read_count_answer(said);
    case AnswerKind::yes_no: return read_yes_no_answer(said, typed);
    case AnswerKind::area: return read_area_answer(question, said);
    case AnswerKind::size: return read_size_answer(question, said);
    case AnswerKind::date: return read_date_answer(said, today);
    case AnswerKind::interval: return read_interval_answer(question, said);
    case AnswerKind::climate: return read_climate_answer(question, said, typed, *tables.climates);
    case AnswerKind::things: return read_things_answer(said, tables.materials);
  }
  return {};
}

}  // namespace

Reply read_reply(const Question& question, std::string_view said, const Tables& tables, Date today) {
  if (said.size() > longest_answer) throw TextError("this is longer than any answer", "write it in a few words: " + question.example);
  const bool strange = std::any_of(said.begin(), said.end(),
                                   [](char c) { return (static_cast<unsigned char>(c) < ' ' && c != '\t' && c != '\r') || c == '\x7f'; });
  const bool is_text = is_utf8(said);
  if (!is_text) throw TextError("this cannot be read as text", "write it in plain letters: " + question.example);
  if (strange) throw TextError("there is a control character in this", "write it in letters and digits: " + question.example);
  const std::string plain = plain_answer(said);
  const bool is_empty = said.find_first_not_of(" \t\r") == std::string_view::npos;
  if (plain.empty() && !is_empty) throw TextError("there is no word in this", "write for example " + question.example);
  const std::string meant = is_empty ? plain_answer(question.usual) : plain;
  if (is_do_not_know(meant)) return {{}, {"unknown"}, {}};
  try {
    return read_kind(question, meant, plain.empty() ? std::string_view(question.usual) : said, tables, today);
  } catch (const KeptOut&) {
    throw;
  } catch (const TextError& error) {  // the reader of a unit knows nothing of the question
    const bool about_units =
        question.kind == AnswerKind::amount || question.kind == AnswerKind::area || question.kind == AnswerKind::interval;
    throw TextError(error.what(), about_units ? "write for example " + question.example : error.hint());
  }
}

}  // namespace heapwright
