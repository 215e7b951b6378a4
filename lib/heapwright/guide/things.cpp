#include "heapwright/guide/things.hpp"

#include <algorithm>
#include <array>

#include "heapwright/error.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/input/limits.hpp"
#include "heapwright/units/decimal.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_things = 20;

struct NameAndAmount {
  std::string name;
  std::string amount;  ///< empty where none is said
};

/// "2 tons": of which there are three kinds.
bool is_in_tons(const std::string& plain) {
  const std::string unit = unit_behind(plain);
  return unit == "ton" || unit == "tons";
}

}  // namespace

bool says_how_much(const std::string& said, const Materials& materials) {
  if (is_in_tons(said)) return true;
  const std::string plain = sized_bags(said);
  const std::size_t joint = plain.find(" and ");
  const bool two_things = joint != std::string::npos && (has_digit(plain.substr(joint)) || plain.substr(joint).starts_with(" and a "));
  if (plain.find(" of ") != std::string::npos || two_things) return false;
  const std::string amount = plain_amount(plain, "");
  const std::size_t to = amount.find(" to ");
  return is_amount(to == std::string::npos ? amount : amount.substr(to + 4), *materials.containers);
}

bool is_called_water(const std::string& plain) {
  constexpr auto names = std::to_array<std::string_view>({"water", "rain water", "rainwater", "tap water", "well water", "hose water"});
  return is_one_of(plain, names);
}

namespace {

bool is_known(const std::string& name, const Materials& materials) {
  if (has_digit(name)) return false;  // "leaves and 1 bale of straw" are two
  return feedstock_called(materials, name) != nullptr || what_stays_out(materials, name) != nullptr;
}

/// At the first place where one text is a name and the other an amount: "20 bags of leaves", "20 bags leaves", "leaves 20 bags".
std::optional<NameAndAmount> apart_at(std::string_view between, const std::string& said, const Materials& materials) {
  for (std::size_t at = said.find(between); at != std::string::npos; at = said.find(between, at + 1)) {
    const std::string before = plain_answer(said.substr(0, at));
    const std::string after = plain_answer(said.substr(at + between.size()));
    if (says_how_much(before, materials) && is_known(after, materials)) return NameAndAmount{after, before};
    if (is_known(before, materials) && says_how_much(after, materials)) return NameAndAmount{before, after};
  }
  return std::nullopt;
}

/// The same, whether or not anything is known by the name.
std::optional<NameAndAmount> amount_first(const std::string& said, const Materials& materials) {
  for (const std::string_view between : {" of ", " "}) {
    for (std::size_t at = said.find(between); at != std::string::npos; at = said.find(between, at + 1)) {
      const std::string amount = plain_answer(said.substr(0, at));
      if (says_how_much(amount, materials)) return NameAndAmount{said.substr(at + between.size()), amount};
    }
  }
  return std::nullopt;
}

/// "wheelbarrow of leaves", "a 5-gallon bucket of leaves": one of them.
std::optional<NameAndAmount> one_container(const std::string& said, const Materials& materials) {
  const std::size_t of = said.find(" of ");
  std::string container = said.substr(0, of);
  if (has_digit(container)) drop_any_front(container, {"a ", "an ", "one "});
  if (of == std::string::npos || container.ends_with('s')) return std::nullopt;
  const std::string name = plain_answer(said.substr(of + 4));
  if (find_container(*materials.containers, container) == nullptr || !is_known(name, materials)) return std::nullopt;
  return NameAndAmount{name, "1 " + container};
}

/// "3 straw bales": of what they are called by, where that is counted in them.
std::optional<NameAndAmount> named_container(const std::string& said, const Materials& materials) {
  const auto counted = counted_words(said);
  if (!counted || !says_how_much(said, materials)) return std::nullopt;
  const std::string name = counted->words.substr(0, counted->words.find(' '));
  const Container* container = find_container(*materials.containers, counted->words);
  const Feedstock* feedstock = name == counted->words ? nullptr : feedstock_called(materials, name);
  if (feedstock == nullptr || container == nullptr || feedstock->usual_container != container->id) return std::nullopt;
  return NameAndAmount{name, said};
}

/// A name, and an amount before or behind it.
std::optional<NameAndAmount> known_thing(const std::string& said, const Materials& materials) {
  if (is_known(said, materials)) return NameAndAmount{said, {}};
  if (auto found = one_container(said, materials)) return found;
  for (const std::string_view between : {" of ", ", ", " "}) {
    if (auto found = apart_at(between, said, materials)) return found;
  }
  return named_container(said, materials);
}

/// "5 bags" of "3 + 2 bags".
std::string sum_of_two(const std::string& said) {
  for (const std::string_view sign : {" + ", "+", " plus "}) {
    const std::size_t at = said.find(sign);
    if (at == std::string::npos) continue;
    const std::string rest = said.substr(at + sign.size());
    const std::size_t end = std::min(rest.find(' '), rest.size());
    const auto first = decimal_of(said.substr(0, at));
    const auto second = decimal_of(rest.substr(0, end));
    if (first && second) return print_number(*first + *second, 6) + rest.substr(end);
  }
  return said;
}

/// @throws TextError for words in brackets that stand within a text: they may tell the size of a bag, or of a weedkiller
void check_brackets(const std::string& said) {
  const std::size_t begin = said.find(" (");
  const std::size_t end = said.find(')', begin);
  if (begin == std::string::npos || end == std::string::npos || end + 1 == said.size()) return;
  throw TextError(in_quotes(said.substr(begin + 1, end - begin)) + " within it is not understood",
                  "write it without: " + in_quotes(said.substr(0, begin) + said.substr(end + 1)) +
                      "; bags of another size by what they hold in all: \"180 gal of leaves\"");
}

/// @throws TextError for animals: whoever has them has their manure
void check_animals(const std::string& said) {
  constexpr auto animals = std::to_array<std::pair<std::string_view, std::string_view>>({{"chickens", "chicken"},
                                                                                         {"hens", "chicken"},
                                                                                         {"horses", "horse"},
                                                                                         {"horse", "horse"},
                                                                                         {"cows", "cow"},
                                                                                         {"cow", "cow"},
                                                                                         {"goats", "goat"},
                                                                                         {"sheep", "sheep"},
                                                                                         {"rabbits", "rabbit"},
                                                                                         {"rabbit", "rabbit"},
                                                                                         {"pigs", "pig"},
                                                                                         {"ducks", "duck"},
                                                                                         {"alpacas", "alpaca"},
                                                                                         {"llamas", "llama"},
                                                                                         {"turkeys", "turkey"},
                                                                                         {"pony", "horse"},
                                                                                         {"cattle", "cow"},
                                                                                         {"steers", "cow"}});
  const auto counted = counted_words(said);
  const std::string animal = counted ? counted->words : said;
  for (const auto& [name, kind] : animals) {
    if (animal == name)
      throw TextError("is it their manure that goes in?", "write how much of it: \"2 buckets of " + std::string(kind) + " manure\"");
  }
}

/// Words that are meant as an amount, though none that can be worked with.
bool is_vague_word(const std::string& word) {
  constexpr auto vague = std::to_array<std::string_view>(
      {"few",      "several", "lots",    "lot",      "plenty", "load",  "loads", "loadful",    "truckload", "bunch",
       "ton",      "tons",    "pallet",  "cord",     "heap",   "heaps", "pile",  "piles",      "stack",     "many",
       "bit",      "much",    "hundred", "hundreds", "dozens", "third", "truck", "trailer",    "wagon",     "cart",
       "handfuls", "full",    "couple",  "series",   "sled",   "tarp",  "bed",   "bucketloads"});
  return is_one_of(word, vague);
}

bool sounds_like_an_amount(const std::string& said, const Materials& materials) {
  if (has_digit(said)) return true;
  const std::vector<std::string> words = split(said, {" "});
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return is_vague_word(word) || (!word.empty() && find_container(*materials.containers, word) != nullptr);
  });
}

/// The end of a text that a feedstock is known by, and what stands before it.
std::optional<NameAndAmount> known_end(const std::string& said, const Materials& materials) {
  for (std::size_t at = said.find(' '); at != std::string::npos; at = said.find(' ', at + 1)) {
    const std::string name = said.substr(at + 1);
    std::string before = said.substr(0, at);
    if (before.ends_with(" of")) before.erase(before.size() - 3);
    if (name.starts_with("of ") || has_digit(name)) continue;
    const bool is_container = find_container(*materials.containers, name) != nullptr;  // a box is cardboard too
    if (!is_container && feedstock_called(materials, name) != nullptr) return NameAndAmount{name, before};
  }
  return std::nullopt;
}

/// @throws TextError for a known thing of which an amount is said that cannot be read: "a few bags of leaves"
void check_vague_amount(const std::string& said, const Materials& materials) {
  const auto parts = known_end(said, materials);
  const bool container_last = !has_digit(said) && find_container(*materials.containers, said.substr(said.rfind(' ') + 1)) != nullptr;
  if (!parts && container_last) throw TextError(in_quotes(said) + " of what, and how many?", "write \"20 bags of leaves\"");
  if (!parts || !sounds_like_an_amount(parts->amount, materials)) return;
  const std::vector<std::string> words = split(parts->amount, {" "});
  const bool is_pile = std::any_of(words.begin(), words.end(), [](const std::string& word) { return word == "pile" || word == "heap"; });
  if (is_pile)
    throw TextError("how large is the pile?",
                    "write its volume: \"2 yd3 of " + parts->name +
                        "\"; or in a yard file its sides: estimate = { pile = [\"6 ft\", \"4 ft\", \"knee-high\"] }");
  if (const auto counted = counted_words(said); counted && counted->words == parts->name)
    throw TextError("how much is " + in_quotes(said) + "? Pieces are not counted here",
                    "write what they weigh or fill: \"5 lb of " + parts->name + "\", \"2 buckets of " + parts->name + "\"");
  throw TextError(in_quotes(parts->amount) + " does not say how much, or in what we do not know",
                  "write bags, buckets, wheelbarrows, a volume or a weight: \"2 buckets of " + parts->name + "\"");
}

/// @throws TextError for what is told of a known thing behind its name: "leaves from my neighbor"
void check_aside(const NameAndAmount& said, const Materials& materials) {
  constexpr auto asides =
      std::to_array<std::string_view>({"from", "that", "which", "in",     "for",  "with",  "i",   "my", "we", "a",     "every",
                                       "each", "per",  "by",    "behind", "near", "since", "off", "at", "to", "weekly"});
  for (std::size_t at = said.name.rfind(' '); at != std::string::npos && at > 0; at = said.name.rfind(' ', at - 1)) {
    const std::string aside = said.name.substr(at + 1);
    const std::string name = said.name.substr(0, at);
    if (!is_one_of(aside.substr(0, aside.find(' ')), asides) || feedstock_called(materials, name) == nullptr) continue;
    const std::string whole = (said.amount.empty() ? std::string("2 buckets") : said.amount) + " of " + name;
    throw TextError(in_quotes(aside) + " behind " + in_quotes(name) + " is not understood",
                    "if it changes nothing leave it out, as in " + in_quotes(whole));
  }
}

/// "shredded leaves" of "leaves, shredded", where that is known.
std::string word_behind_first(const std::string& name, const Materials& materials) {
  const std::size_t comma = name.find(", ");
  if (comma == std::string::npos) return name;
  const std::string turned = name.substr(comma + 2) + " " + name.substr(0, comma);
  return feedstock_called(materials, turned) != nullptr ? turned : name;
}

std::vector<std::string> listed(const std::string& said, const Materials& materials);

/// @throws SeveralThings where a text lists known things
void check_one_thing(const std::string& said, const Materials& materials) {
  const std::vector<std::string> items = listed(said, materials);
  const bool all_known =
      std::all_of(items.begin(), items.end(), [&](const std::string& item) { return known_thing(item, materials).has_value(); });
  if (items.size() > 1 && all_known) throw SeveralThings(items);
}

NameAndAmount name_and_amount(std::string said, const Materials& materials) {
  check_animals(said);
  said = sum_of_two(said);
  const std::size_t equals = said.find('=');
  if (equals != std::string::npos) {
    const std::string amount = plain_answer(said.substr(equals + 1));
    const std::string name = plain_answer(said.substr(0, equals));
    if (amount.empty()) throw TextError("how much of " + name + "?", "write \"" + name + "=20 bags\"");
    return {name, amount};
  }
  const std::size_t colon = said.find(':');
  const bool packing = colon != std::string::npos && !has_digit(said.substr(colon));  // "leaves:shredded"
  if (colon != std::string::npos && !packing) return {plain_answer(said.substr(0, colon)), plain_answer(said.substr(colon + 1))};
  check_brackets(said);
  const std::size_t bracket = said.find(" (");
  if (bracket != std::string::npos && said.ends_with(')'))
    said = said.substr(0, bracket) + ", " + said.substr(bracket + 2, said.size() - bracket - 3);
  if (packing) return {said, {}};
  if (auto found = known_thing(said, materials)) return *found;
  if (says_how_much(said, materials)) {
    const bool themselves = feedstock_called(materials, unit_behind(said)) != nullptr;  // "10 cardboard boxes"
    throw TextError("\"" + said + "\" of what?",
                    themselves ? "write \"" + said + " of leaves\", or of the things themselves what they weigh: \"5 lb of cardboard\""
                               : "write \"20 bags of leaves\"");
  }
  if (const std::string name = unit_behind(said); !name.empty() && what_stays_out(materials, name) != nullptr) return {name, {}};
  check_one_thing(said, materials);
  NameAndAmount parts = amount_first(said, materials).value_or(NameAndAmount{said, {}});
  parts.name = word_behind_first(parts.name, materials);
  if (is_known(parts.name, materials)) return parts;
  check_aside(parts, materials);
  if (parts.amount.empty()) check_vague_amount(said, materials);
  return parts;
}

/// @throws TextError for an amount without a unit, as a shell leaves it that was not told to keep words together
void check_unit(const NameAndAmount& said) {
  if (!is_bare_number(said.amount)) return;
  const std::string example = said.name + "=" + said.amount + " bags";
  throw TextError("\"" + said.amount + "\" of " + said.name + " has no unit",
                  "say what is counted, and put quotes around it: \"" + example + "\"");
}

Supply supply_said(const NameAndAmount& said, const Materials& materials) {
  Supply supply = supply_of(materials, said.name);
  if (said.amount.empty()) {
    supply.use = Use::unlimited;
    return supply;
  }
  check_unit(said);
  if (is_in_tons(said.amount))
    throw TextError("\"" + said.amount + "\": a ton is 2000 lb on a scale here, and 2205 lb in metric",
                    "write \"" + print_number(2000.0 * read_counted_words(said.amount).number, 6) + " lb of " + said.name + "\"");
  take_amount(supply, plain_amount(sized_bags(said.amount), ""), materials);
  check_plausible(*supply.amount, said.amount);
  if (!supply.mass(*supply.amount))
    throw TextError("no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                    "give the amount as a weight");
  return supply;
}

/// Nothing where the amount is zero.
std::optional<Thing> read_thing(const std::string& said, const Materials& materials) {
  const auto [supply, amount] = counted_supply(said, materials);
  if (is_zero(*supply.amount)) return std::nullopt;
  return Thing{supply.feedstock.id, supply.feedstock.name, supply.packing_assumed ? "" : supply.packing, amount,
               supply.feedstock.has_tag("herbicide")};
}

bool is_a_thing(const std::string& said, const Materials& materials) {
  const auto parts = amount_first(said, materials);
  return feedstock_called(materials, parts ? parts->name : said) != nullptr;
}

/// A list, at semicolons, commas and "and": but "1,000 lb" stays one, and so does what is known by a name with "and" in it.
std::vector<std::string> listed(const std::string& said, const Materials& materials) {
  std::vector<std::string> items;
  for (const std::string& part : split(said, {";", ", and ", ", ", " and ", " + ", " plus "})) {
    if (part.empty()) continue;
    const std::string joined = items.empty() ? "" : items.back() + " and " + part;
    const bool is_name = !items.empty() && (is_known(items.back(), materials) || is_called_water(items.back()));
    const bool amount_alone = is_name && says_how_much(part, materials);
    if (amount_alone) {
      items.back() += ", " + part;  // "coffee grounds, 2 buckets"
    } else if (!items.empty() && is_a_thing(joined, materials)) {
      items.back() = joined;
    } else {
      items.push_back(part);
    }
  }
  return items;
}

std::string in_all(double count, const std::string& size) {
  const CountedWords each = read_counted_words(size);
  return print_number(count * each.number, 6) + " " + each.words;
}

bool is_size_of_bag(const std::string& size) { return is_quantity(size, Dimension::volume) || is_quantity(size, Dimension::mass); }

}  // namespace

SeveralThings::SeveralThings(std::vector<std::string> each)
    : TextError("these are " + print_number(static_cast<double>(each.size()), 3) + " things, and one supply is wanted",
                "write each by itself, first \"" + each.front() + "\""),
      each_(std::move(each)) {}

std::string sized_bags(const std::string& said) {
  const bool one_of_a_size = said.starts_with("a ") && has_digit(said.substr(2, 1));  // "a 40 lb bag"
  const std::string plain = one_of_a_size ? said.substr(2) : said;
  const auto counted = counted_words(plain);
  if (!counted) return plain;
  for (const std::string_view before : {"bags of ", "bag of ", "sacks of ", "bags, ", "bags at "}) {
    if (!counted->words.starts_with(before)) continue;
    std::string size = counted->words.substr(before.size());
    if (size.ends_with(" each")) size.erase(size.size() - 5);
    return is_size_of_bag(size) ? in_all(counted->number, size) : plain;
  }
  for (const std::string_view behind : {" bags", " bag", " sacks", " sack"}) {
    if (!plain.ends_with(behind)) continue;
    const std::string sizes = plain.substr(0, plain.size() - behind.size());
    if (is_quantity(sizes, Dimension::mass)) return sizes;  // "25 lb bag"
    const std::size_t space = sizes.find(' ');
    if (space == std::string::npos || !decimal_of(sizes.substr(0, space))) return plain;
    const std::string size = sizes.substr(sizes.find_first_not_of(" x", space));
    const bool by_gallons = size.find("gal") != std::string::npos;  // which are containers by name
    return has_digit(size) && !by_gallons && is_size_of_bag(size) ? in_all(counted->number, size) : plain;
  }
  return plain;
}

std::optional<std::string> amount_beside_name(const std::string& plain, const Materials& materials, std::string& name) {
  const auto parts = has_digit(plain) ? known_thing(plain, materials) : std::nullopt;
  if (!parts || parts->amount.empty()) return std::nullopt;
  name = parts->name;
  return parts->amount;
}

void check_plausible(const Amount& amount, const std::string& said) {
  const Volume most_volume = 5000.0 * unit::m3;
  const Mass most_mass = 1e6 * unit::kg;
  const auto volume = volume_of(amount);
  if (volume ? *volume <= most_volume : std::get<Mass>(amount) <= most_mass) return;
  throw TextError("\"" + said + "\"" + " is more than any yard has", "write a smaller number");
}

std::string plain_amount(const std::string& plain, const std::string& bare) {
  const std::optional<TwoNumbers> between = two_numbers(plain);
  if (!between) return with_unit(plain, bare);
  const std::string& unit = between->unit.empty() ? bare : between->unit;
  return between->low + " to " + between->high + (unit.empty() ? "" : " " + unit);
}

CountedSupply counted_supply(const std::string& plain, const Materials& materials) {
  const NameAndAmount said = name_and_amount(plain, materials);
  Supply supply = supply_said(said, materials);
  if (said.amount.empty()) throw TextError("how much of " + said.name + "?", "write \"2 buckets of " + said.name + "\"");
  return {std::move(supply), plain_amount(sized_bags(said.amount), "")};
}

Supply read_said_supply(std::string_view said, const Materials& materials) {
  if (said.size() > longest_answer)
    throw TextError("this is longer than " + std::to_string(longest_answer) + " bytes", "write \"20 bags of leaves\"");
  const std::string plain = plain_answer(said);
  if (plain.empty()) throw TextError("nothing is named", "write \"20 bags of leaves\"");
  return supply_said(name_and_amount(plain, materials), materials);
}

namespace {

/// What is wrong with one of several, and the others as they may be typed again.
TextError wrong_of_several(const TextError& error, const std::vector<std::string>& items, std::size_t wrong) {
  std::string others;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i != wrong) others += (others.empty() ? "" : ", ") + items[i];
  }
  return TextError(error.what(), error.hint() + "; or write the others alone: " + others);
}

}  // namespace

void read_each_thing(const std::string& plain, const Materials& materials, const std::function<void(const std::string&)>& read) {
  const std::vector<std::string> items = listed(plain, materials);
  for (std::size_t i = 0; i < items.size(); ++i) {
    try {
      read(items[i]);
    } catch (const TextError& error) {
      if (items.size() == 1) throw;
      throw wrong_of_several(error, items, i);
    }
  }
  if (items.size() > most_things) throw TextError("these are more than 20 things", "leave out the smallest");
}

std::vector<Thing> read_things(const std::string& plain, const Materials& materials) {
  std::vector<Thing> things;
  read_each_thing(plain, materials, [&](const std::string& said) {
    if (const auto thing = read_thing(said, materials)) things.push_back(*thing);
  });
  return things;
}

}  // namespace heapwright
