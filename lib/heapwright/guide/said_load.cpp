#include "heapwright/guide/said_load.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/input/limits.hpp"
#include "heapwright/input/no_reading.hpp"
#include "heapwright/input/problems.hpp"
#include "heapwright/maturity/log.hpp"
#include "heapwright/units/decimal.hpp"
#include "heapwright/units/text.hpp"
#include "heapwright/yard/yard.hpp"

namespace heapwright {
namespace {

/// "2 bucket" of "2 buckets": containers by their id; a volume or a weight as it was said, its number in digits.
std::string for_file(const std::string& said, const Materials& materials) {
  const std::size_t to = said.find(" to ");
  const std::string low = to == std::string::npos ? "" : said.substr(0, to + 4);
  const std::string high = said.substr(low.size());
  const CountedWords counted = read_counted_words(high);
  const Container* container = find_container(*materials.containers, counted.words);
  const std::string number = high.ends_with(counted.words) ? plain_answer(high.substr(0, high.size() - counted.words.size())) : "";
  const std::string count = is_bare_number(number) ? number : print_number(counted.number, 6);
  return low + count + " " + (container != nullptr ? container->id : counted.words);
}

/// Where a text is water and an amount, before or behind it, the amount; empty where water is named alone.
std::optional<std::string> amount_of_water(const std::string& said, const Materials& materials) {
  if (is_called_water(said)) return "";
  for (const std::string_view between : {" of ", "=", ":", ", ", " "}) {
    for (std::size_t at = said.find(between); at != std::string::npos; at = said.find(between, at + 1)) {
      const std::string before = plain_answer(said.substr(0, at));
      const std::string after = plain_answer(said.substr(at + between.size()));
      if (is_called_water(after) && says_how_much(before, materials)) return before;
      if (is_called_water(before) && says_how_much(after, materials)) return after;
    }
  }
  for (const std::string_view name : {" of water", " water"}) {
    const std::string before = said.substr(0, said.size() - std::min(name.size(), said.size()));
    const std::string unit = unit_behind(before);
    if (said.ends_with(name) && !unit.empty() && unit.find(' ') == std::string::npos) return before;  // a unit that we do not know
  }
  const bool in_cans = unit_behind(said).find("watering can") != std::string::npos && says_how_much(said, materials);
  return in_cans ? std::optional(said) : std::nullopt;
}

/// @throws TextError for what water runs out of
void check_holds_water(const std::string& amount, const Materials& materials) {
  const Container* container = find_container(*materials.containers, unit_behind(amount));
  if (container == nullptr) return;
  for (const std::string_view dry : {"bag", "bale", "box", "tarp"}) {
    if (container->id.find(dry) != std::string::npos)
      throw TextError(in_quotes(amount) + " of water: a " + container->name + " holds none", "write \"2 gal of water\"");
  }
}

SaidLoad water_load(const std::string& said, Date date, const Materials& materials) {
  if (said.empty()) throw TextError("how much water?", "write \"2 gal of water\"");
  const std::string amount = plain_amount(said, "");
  if (two_numbers(said)) throw TextError(in_quotes(said) + " of water is two amounts", "write one: \"2 gal of water\"");
  check_holds_water(amount, materials);
  const WaterMass water = read_water_amount(amount, materials);
  check_plausible(volume_of(water), said);
  if (!is_positive(water)) throw TextError(in_quotes(said) + " of water is none", "leave it out, or write how much it was");
  return {Load{date, std::nullopt, water}, for_file(amount, materials)};
}

SaidLoad thing_load(const std::string& said, Date date, const Materials& materials) {
  auto [supply, amount] = counted_supply(said, materials);
  if (is_zero(*supply.amount)) throw TextError(in_quotes(said) + " is nothing", "leave it out, or write how much it was");
  supply.use = Use::all;
  return {Load{date, std::move(supply), WaterMass()}, for_file(amount, materials)};
}

/// A text in its plain form, a space behind each comma that is in no number, without "I put in" before it.
std::string as_a_list(std::string_view text) {
  std::string spaced;
  for (const char c : text) {
    const bool after_comma = spaced.ends_with(',') && c != ' ';
    const bool in_a_number = after_comma && spaced.size() > 1 && has_digit(spaced.substr(spaced.size() - 2, 1)) && has_digit({c});
    if (after_comma && !in_a_number) spaced += ' ';
    spaced += c;
  }
  std::string plain = plain_answer(spaced);
  if (drop_any_front(plain, {"i put in ", "i added ", "put in ", "added ", "add "})) plain = plain_answer(plain);
  replace_all(plain, " & ", " and ");
  return plain;
}

SaidLoad load_said(const std::string& said, Date date, const Materials& materials) {
  const std::optional<std::string> water = amount_of_water(said, materials);
  return water ? water_load(*water, date, materials) : thing_load(said, date, materials);
}

std::vector<SaidLoad> listed_loads(const std::string& plain, Date date, const Materials& materials) {
  std::vector<SaidLoad> loads;
  read_each_thing(plain, materials, [&](const std::string& said) { loads.push_back(load_said(said, date, materials)); });
  return loads;
}

/// Where a text is one thing whatever signs are in it: "leaves, 3 + 2 bags".
std::optional<SaidLoad> single_load(const std::string& plain, Date date, const Materials& materials) {
  try {
    return load_said(plain, date, materials);
  } catch (const TextError&) {
    return std::nullopt;
  }
}

/// Puts the loads of the rows into a yard until there are too many of them, or of rows that cannot be read.
void take_rows(Yard& yard, const TemperatureLog& log, Problems& problems) {
  constexpr int most_wrong = 100;
  int wrong = 0;
  for (const LogRow& row : log.rows) {
    if (!row.added) continue;
    try {
      for (Load& load : loads_of(row.added->words, Date(row.time.day()), yard.tables.materials)) yard.loads.push_back(std::move(load));
    } catch (const TextError& error) {
      problems.add({row.added->where, row.added->column, error.what(), error.hint()});
      if (++wrong == most_wrong) return problems.break_off();
    }
    if (yard.loads.size() > most_loads)
      throw TextError("the yard and its log have more than " + std::to_string(most_loads) + " loads", "join those of a day");
  }
}

}  // namespace

std::vector<SaidLoad> said_loads(std::string_view text, Date date, const Materials& materials) {
  if (text.size() > longest_answer)
    throw TextError("this is longer than " + std::to_string(longest_answer) + " bytes",
                    "write it in a few words: 2 buckets leaves; 1 gal water");
  if (is_no_reading(text)) return {};
  const std::string plain = as_a_list(text);
  if (is_nothing(plain)) return {};
  try {
    return listed_loads(plain, date, materials);
  } catch (const TextError&) {
    if (std::optional<SaidLoad> one = single_load(plain, date, materials)) return {std::move(*one)};
    throw;
  }
}

std::vector<Load> loads_of(std::string_view text, Date date, const Materials& materials) {
  std::vector<Load> loads;
  for (SaidLoad& said : said_loads(text, date, materials)) loads.push_back(std::move(said.load));
  return loads;
}

void take_loads_of_log(Yard& yard, const TemperatureLog& log) {
  Problems problems;
  take_rows(yard, log, problems);
  problems.throw_if_any();
  sort_by_day(yard.loads);
}

}  // namespace heapwright
