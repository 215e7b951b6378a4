#include "heapwright/guide/reply.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <utility>

#include "heapwright/mix/supply.hpp"
#include "heapwright/pile/description.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/time/date.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using Replacement = std::pair<std::string_view, std::string_view>;

constexpr std::size_t longest_answer = 300;
constexpr std::size_t most_things = 20;

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

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size())) text.replace(at, from.size(), to);
}

/// The first word of a text replaced, where it is one of a list.
void replace_first_word(std::string& text, std::string_view word, std::string_view by) {
  if (text == word || text.starts_with(std::string(word) + " ")) text.replace(0, word.size(), by);
}

constexpr std::array<Replacement, 12> number_words{{{"one", "1"},
                                                    {"two", "2"},
                                                    {"three", "3"},
                                                    {"four", "4"},
                                                    {"five", "5"},
                                                    {"six", "6"},
                                                    {"seven", "7"},
                                                    {"eight", "8"},
                                                    {"nine", "9"},
                                                    {"ten", "10"},
                                                    {"eleven", "11"},
                                                    {"twelve", "12"}}};

void number_first(std::string& text) {
  replace_first_word(text, "a dozen", "12");
  replace_first_word(text, "half of", "half");
  for (const auto& [word, number] : number_words) replace_first_word(text, word, number);
}

template <std::size_t n>
bool is_one_of(const std::string& said, const std::array<std::string_view, n>& words) {
  return std::find(words.begin(), words.end(), said) != words.end();
}

bool has_digit(const std::string& said) { return said.find_first_of("0123456789") != std::string::npos; }

bool is_do_not_know(const std::string& said) {
  constexpr std::array<std::string_view, 10> phrases{"don't know", "dont know",      "do not know", "didn't count", "unknown",
                                                     "not sure",   "no way to know", "no idea",     "no clue",      "dunno"};
  if (said == "?" || said == "idk") return true;
  return std::any_of(phrases.begin(), phrases.end(), [&](std::string_view phrase) { return said.find(phrase) != std::string::npos; });
}

bool is_nothing(const std::string& said) {
  constexpr std::array<std::string_view, 8> words{"0", "none", "nothing", "no", "n", "nope", "zero", "nada"};
  if (is_one_of(said, words)) return true;
  return !has_digit(said) && (said.starts_with("no ") || said.starts_with("none ") || said.starts_with("nothing "));
}

bool is_bare_number(std::string said) {
  for (const std::string_view sign : {"¼", "½", "¾"}) replace_all(said, sign, "1");
  return !said.empty() && said.find_first_not_of("0123456789.,/ ") == std::string::npos &&
         said.find_first_of("0123456789") != std::string::npos;
}

Reply some(std::vector<std::string> texts) { return {std::move(texts), {"some"}, {}}; }
Reply none() { return {{}, {"none"}, {}}; }

std::string with_unit(const std::string& said, const std::string& unit) { return is_bare_number(said) ? said + " " + unit : said; }

std::string in_quotes(const std::string& said) { return "\"" + said + "\""; }

/// A number of people or trees, and nothing behind it but what is counted.
Reply read_count_answer(const std::string& said) {
  if (is_nothing(said)) return none();
  const std::string hint = "write one number: 3";
  constexpr std::array<std::string_view, 9> counted_words{"", "people", "person", "persons", "of us", "trees", "tree", "maples", "oaks"};
  const CountedWords counted = read_counted_words(said);
  constexpr double least = 0.1;
  constexpr double most = 1000.0;
  if (!is_one_of(counted.words, counted_words)) throw TextError(in_quotes(said) + " is more than a number", hint);
  if (counted.number == 0.0) return none();
  if (!(counted.number >= least && counted.number <= most)) throw TextError(in_quotes(said) + " is no count from 1 to 1000", hint);
  return some({print_number(counted.number, 4)});
}

Reply read_yes_no_answer(const std::string& said) {
  constexpr std::array<std::string_view, 4> yes{"y", "yes", "yeah", "yep"};
  constexpr std::array<std::string_view, 4> no{"n", "no", "nope", "never"};
  const std::string first = said.substr(0, said.find_first_of(",.;"));  // "yes, in May"
  if (is_one_of(first, yes)) return some({"yes"});
  if (is_one_of(first, no)) return none();
  throw TextError(in_quotes(said) + " is neither yes nor no", "write yes, no, or ? for don't know");
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

/// The sides of a lawn or a bin; those without any unit in the question's.
std::vector<std::string> sides_of(const std::string& said, const std::string& bare) {
  std::vector<std::string> sides = sides_in(said);
  for (std::string& side : sides) side = with_unit(side, bare);
  return sides;
}

/// The lengths that a sentence names: of "a pile 6 by 8 feet, to the knee" it is "6 by 8 feet".
std::string lengths_in(const std::string& said) {
  constexpr std::array<std::string_view, 12> units{"ft", "feet",   "foot",   "in", "inch", "inches",
                                                   "m",  "meters", "metres", "yd", "yard", "yards"};
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
  if (said.find("pile") == std::string::npos && said.find("pile") == std::string::npos) return std::nullopt;
  std::vector<std::string> sides = sides_of(lengths_in(said), "ft");
  for (const BodyHeight& row : materials.rough->heights) {
    const std::string body = row.id.substr(0, row.id.find('-'));
    if (sides.size() == 2 && said.find(body) != std::string::npos) sides.push_back(row.id);
  }
  if (sides.size() != 3) throw TextError("how long, wide and high is the pile?", "write \"a pile 6 by 4 feet, knee-high\"");
  return Reply{sides, {"some", "pile"}, {}};
}

Reply read_amount_answer(const Question& question, const std::string& said, const Materials& materials) {
  const bool stays = !has_digit(said) && (said.find("on the lawn") != std::string::npos || said.find("mulch") != std::string::npos);
  if (is_nothing(said) || stays) return none();
  if (const auto pile = read_pile(said, materials)) return *pile;
  std::string amount = said;
  for (const std::string_view after : {" a week", " per week", " each week", " every week", " weekly"}) {
    if (amount.ends_with(after)) amount = amount.substr(0, amount.size() - after.size());  // the question says it
  }
  const std::string text = with_unit(amount, question.bare);
  return is_zero(read_amount(text, materials)) ? none() : some({text});
}

/// "5000", "5000 ft2", "60 by 30", "60 ft by 30 ft".
Reply read_area_answer(const Question& question, const std::string& said) {
  if (is_nothing(said)) return none();
  const std::vector<std::string> sides = sides_of(said, "ft");
  const std::string text = sides.size() == 2 ? sides[0] + " by " + sides[1] : with_unit(said, question.bare);
  return is_positive(read_area(text)) ? some({text}) : none();
}

/// "4", "4 by 4 by 3", "4 ft x 4 ft x 3 ft": three sides, where one stands for all; "round 3 by 4": diameter and height; "64 gal": a
/// tumbler's volume.
Reply read_size_answer(const Question& question, const std::string& said) {
  const std::string hint = "write length, width and height: 4 by 4 by 3; or round 3 by 4; or of a tumbler 60 gal";
  if (is_nothing(said)) return {{}, {"unknown"}, {}};
  std::string size = said;
  const bool round = said.starts_with("round");
  for (const std::string_view before : {"a tumbler", "tumbler", "round bin", "round", "a bin", "bin", ":"}) {
    if (size.starts_with(before)) size = plain_answer(size.substr(before.size()));
  }
  for (const std::string_view comma : {", ", ",", "*"}) replace_all(size, comma, " by ");
  std::vector<std::string> sides = sides_of(size, question.bare);
  const bool is_volume = sides.size() == 1 && !round && is_quantity(sides[0], Dimension::volume);
  if (is_volume && read_volume(sides[0]) >= unit::liter) return {{sides[0]}, {"some", "volume"}, {}};
  if (sides.size() > 3 || (round && sides.size() != 2)) throw TextError(in_quotes(said) + " is no size", hint);
  constexpr Length shortest = 0.1 * unit::m;
  constexpr Length longest = 60.0 * unit::m;
  for (const std::string& side : sides) {
    const Length length = read_length(side);
    if (!(length >= shortest && length <= longest)) throw TextError(in_quotes(side) + " is no side of a bin", hint);
  }
  if (round) return {sides, {"some", "round"}, {}};
  if (sides.size() == 1) sides = {sides[0], sides[0], sides[0]};
  if (sides.size() == 2) throw TextError("and how high?", "write length, width and height: " + size + " by 4");
  return some(sides);
}

bool is_number(const std::string& text, std::size_t least_digits, std::size_t most_digits) {
  return text.size() >= least_digits && text.size() <= most_digits && text.find_first_not_of("0123456789") == std::string::npos;
}

Date date_of(const std::string& year, unsigned month, const std::string& day) {
  return {std::chrono::year(std::stoi(year)), std::chrono::month(month), std::chrono::day(static_cast<unsigned>(std::stoi(day)))};
}

/// "2026-11-07", "11/7/2026", "Nov 7", "November 7 2026"; nothing where it is none of these.
std::optional<Date> read_calendar_date(const std::string& said, Date today) {
  const std::vector<std::string> iso = split(said, {"-"});
  if (iso.size() == 3 && is_number(iso[0], 4, 4) && is_number(iso[1], 1, 2) && is_number(iso[2], 1, 2))
    return date_of(iso[0], static_cast<unsigned>(std::stoi(iso[1])), iso[2]);
  const std::vector<std::string> us = split(said, {"/"});
  if (us.size() == 3 && is_number(us[0], 1, 2) && is_number(us[1], 1, 2) && is_number(us[2], 4, 4))
    return date_of(us[2], static_cast<unsigned>(std::stoi(us[0])), us[1]);
  std::vector<std::string> words = split(said, {", ", ",", " "});
  if (words.size() < 2 || words.size() > 3) return std::nullopt;
  if (is_number(words[0], 1, 2)) std::swap(words[0], words[1]);  // "7 November"
  const bool no_year = words.size() == 2;
  if (no_year) words.push_back(std::to_string(static_cast<int>(today.year())));
  if (!is_number(words[1], 1, 2) || !is_number(words[2], 4, 4)) return std::nullopt;
  Date date = date_of(words[2], static_cast<unsigned>(read_month(words[0])), words[1]);
  const bool long_past = date.ok() && std::chrono::sys_days(date) + std::chrono::days(31) < std::chrono::sys_days(today);
  if (no_year && long_past) date += std::chrono::years(1);  // a pile to be built
  return date;
}

Reply read_date_answer(const std::string& said, Date today) {
  if (said == "today" || said == "now") return some({print_date(today)});
  if (said == "tomorrow") return some({print_date(Date(std::chrono::sys_days(today) + std::chrono::days(1)))});
  const std::string hint = "write " + print_date(today) + ", Nov 7, or today";
  const std::optional<Date> date = read_calendar_date(said, today);
  if (!date) throw TextError(in_quotes(said) + " is no date", hint);
  if (!date->ok()) throw TextError(in_quotes(said) + " is no day of the calendar", hint);
  return some({print_date(sensible_date(*date))});
}

/// "14", "every two weeks", "weekly", "once a month".
Reply read_interval_answer(const Question& question, const std::string& said) {
  constexpr std::array<std::string_view, 6> nevers{"0", "no", "none", "nope", "never", "not at all"};
  if (is_one_of(said, nevers)) return none();
  constexpr std::array<Replacement, 4> adverbs{{{"daily", "1 day"}, {"weekly", "1 week"}, {"biweekly", "2 weeks"}, {"monthly", "30 days"}}};
  std::string text = said;
  replace_first_word(text, "twice a month", "15 days");
  replace_first_word(text, "twice a week", "3.5 days");
  replace_first_word(text, "twice a year", "180 days");
  for (const std::string_view before : {"every ", "once every ", "once a ", "each "}) {
    if (text.starts_with(before)) text = text.substr(before.size());
  }
  text = plain_answer(text);
  for (const auto& [word, meaning] : adverbs) replace_first_word(text, word, meaning);
  replace_first_word(text, "other", "2");
  if (!has_digit(text) && !text.starts_with("half")) text = "1 " + text;
  for (const std::string_view month : {" months", " month"}) {
    if (!text.ends_with(month)) continue;
    const std::string number = text.substr(0, text.size() - month.size());
    if (number == "half") text = "15 days";
    if (is_bare_number(number)) text = print_number(30.0 * read_counted_words(number).number, 4) + " days";
  }
  text = with_unit(text, question.bare);
  if (!is_positive(read_duration(text))) return none();
  read_turning(text);
  return some({text});
}

/// "30 and 76": the coldest and the warmest month; or the name of a winter.
Reply read_climate_answer(const Question& question, const std::string& said, const std::vector<NamedClimate>& climates) {
  std::string names;
  for (const NamedClimate& climate : climates) {
    if (plain_name(climate.id) == plain_name(said)) return some({climate.id});
    names += (names.empty() ? "" : "; ") + climate.id + " (" + climate.name + ")";
  }
  const std::string hint = "write a word for it: " + names + ". Or the mean temperatures of the coldest and the warmest month: 30 and 76";
  std::vector<std::string> temperatures = split(said, {" and ", " to ", ", ", ",", " / ", "/"});
  if (temperatures.size() == 1) temperatures = split(said, {" "});
  if (temperatures.size() != 2) throw TextError(in_quotes(said) + " is neither a winter by name nor two temperatures", hint);
  const auto is_bare = [](const std::string& text) { return !text.empty() && text.find_first_not_of("0123456789.-") == std::string::npos; };
  std::string unit = question.bare;
  if (!is_bare(temperatures[1])) {
    const std::string last = plain_answer(temperatures[1].substr(temperatures[1].find_last_of("0123456789.") + 1));
    if (!last.empty()) unit = last;
  }
  for (std::string& temperature : temperatures) {
    if (is_bare(temperature)) temperature += " " + unit;
    TemperaturePoint mean = TemperaturePoint::from_celsius(0.0);
    try {
      mean = read_temperature(temperature);
    } catch (const TextError&) {
      throw TextError(in_quotes(said) + " is neither a winter by name nor two temperatures", hint);
    }
    if (!is_a_monthly_mean(mean)) throw TextError(in_quotes(temperature) + " is no month's mean on this earth", "write °F: 30 and 76");
  }
  if (read_temperature(temperatures[0]) > read_temperature(temperatures[1]))
    throw TextError("the coldest month is warmer than the warmest", "write the colder one first: 30 and 76");
  return some(temperatures);
}

/// Name and amount of "2 buckets of coffee grounds", "2 buckets coffee grounds" or "coffee grounds: 2 buckets".
std::pair<std::string, std::string> name_and_amount(const std::string& said, const Materials& materials) {
  for (const std::string_view sign : {"=", ":"}) {
    const std::size_t at = said.find(sign);
    if (at != std::string::npos) return {plain_answer(said.substr(0, at)), plain_answer(said.substr(at + 1))};
  }
  for (const std::string_view between : {" of ", " "}) {
    for (std::size_t at = said.find(between); at != std::string::npos; at = said.find(between, at + 1)) {
      const std::string amount = plain_answer(said.substr(0, at));
      if (is_amount(amount, *materials.containers)) return {said.substr(at + between.size()), amount};
    }
  }
  return {said, {}};
}

/// A thing in an amount; nothing where the amount is zero.
std::optional<Thing> read_thing(const std::string& said, const Materials& materials) {
  const auto [name, amount] = name_and_amount(said, materials);
  Supply supply = supply_of(materials, name);
  if (amount.empty()) throw TextError("how much of " + name + "?", "write \"2 buckets of " + name + "\"");
  const Amount read = read_amount(amount, materials);
  if (is_zero(read)) return std::nullopt;
  set_amount(supply, read, materials);
  if (!supply.mass(*supply.amount)) throw TextError("no weight of a volume of " + name + " is known", "write \"5 lb of " + name + "\"");
  return Thing{supply.feedstock.id, supply.feedstock.name, supply.packing_assumed ? "" : supply.packing, amount,
               supply.feedstock.has_tag("herbicide")};
}

bool is_a_thing(const std::string& said, const Materials& materials) {
  return feedstock_called(materials, name_and_amount(said, materials).first) != nullptr;
}

/// A list, at semicolons, commas and "and": but "1,000 lb" stays one, and so does what is known by a name with "and" in it.
std::vector<std::string> listed(const std::string& said, const Materials& materials) {
  std::vector<std::string> items;
  for (const std::string& part : split(said, {";", ", and ", ", ", " and "})) {
    if (part.empty()) continue;
    const std::string joined = items.empty() ? "" : items.back() + " and " + part;
    if (!items.empty() && is_a_thing(joined, materials)) {
      items.back() = joined;
    } else {
      items.push_back(part);
    }
  }
  return items;
}

Reply read_things_answer(const std::string& said, const Materials& materials) {
  if (is_nothing(said)) return none();
  Reply answer = none();
  for (const std::string& item : listed(said, materials)) {
    if (const auto thing = read_thing(item, materials)) answer.things.push_back(*thing);
  }
  if (answer.things.size() > most_things) throw TextError("these are more than 20 things", "leave out the smallest");
  if (answer.things.empty()) return none();
  answer.is = {"some"};
  if (std::any_of(answer.things.begin(), answer.things.end(), [](const Thing& thing) { return thing.herbicide; }))
    answer.is.insert("herbicide");
  return answer;
}

Reply read_kind(const Question& question, const std::string& said, const Tables& tables, Date today) {
  switch (question.kind) {
    case AnswerKind::amount: return read_amount_answer(question, said, tables.materials);
    case AnswerKind::count: return read_count_answer(said);
    case AnswerKind::yes_no: return read_yes_no_answer(said);
    case AnswerKind::area: return read_area_answer(question, said);
    case AnswerKind::size: return read_size_answer(question, said);
    case AnswerKind::date: return read_date_answer(said, today);
    case AnswerKind::interval: return read_interval_answer(question, said);
    case AnswerKind::climate: return read_climate_answer(question, said, *tables.climates);
    case AnswerKind::things: return read_things_answer(said, tables.materials);
  }
  return {};
}

}  // namespace

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
  constexpr std::array<Replacement, 6> signs{{{"−", "-"}, {"’", "'"}, {"‘", "'"}, {"“", "\""}, {"”", "\""}, {"\u00A0", " "}}};
  for (const auto& [from, to] : signs) replace_all(plain, from, to);
  while (plain.ends_with(' ')) plain.pop_back();
  for (const std::string_view before : {"about ", "around ", "roughly ", "~"}) {
    if (plain.starts_with(before)) plain = plain.substr(before.size());
  }
  number_first(plain);
  return plain;
}

Reply read_reply(const Question& question, std::string_view said, const Tables& tables, Date today) {
  if (said.size() > longest_answer) throw TextError("this is longer than any answer", "write it in a few words: " + question.example);
  const bool strange = std::any_of(said.begin(), said.end(),
                                   [](char c) { return (static_cast<unsigned char>(c) < ' ' && c != '\t' && c != '\r') || c == '\x7f'; });
  const bool is_text = is_utf8(said);
  if (!is_text) throw TextError("this cannot be read as text", "write it in plain letters: " + question.example);
  if (strange) throw TextError("there is a control character in this", "write it in letters and digits: " + question.example);
  const std::string plain = plain_answer(said);
  const std::string meant = plain.empty() ? plain_answer(question.usual) : plain;
  if (is_do_not_know(meant)) return {{}, {"unknown"}, {}};
  try {
    return read_kind(question, meant, tables, today);
  } catch (const KeptOut&) {
    throw;
  } catch (const TextError& error) {  // the reader of a unit knows nothing of the question
    const bool about_units =
        question.kind == AnswerKind::amount || question.kind == AnswerKind::area || question.kind == AnswerKind::interval;
    throw TextError(error.what(), about_units ? "write for example " + question.example : error.hint());
  }
}

}  // namespace heapwright
