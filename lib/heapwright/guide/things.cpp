#include "heapwright/guide/things.hpp"

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/guide/plain.hpp"

namespace heapwright {
namespace {

constexpr std::size_t most_things = 20;

struct NameAndAmount {
  std::string name;
  std::string amount;  ///< empty where none is said
};

bool says_how_much(const std::string& plain, const Materials& materials) {
  const std::size_t joint = plain.find(" and ");
  const bool two_things = joint != std::string::npos && (has_digit(plain.substr(joint)) || plain.substr(joint).starts_with(" and a "));
  if (plain.find(" of ") != std::string::npos || two_things) return false;
  const std::string amount = plain_amount(plain, "");
  const std::size_t to = amount.find(" to ");
  return is_amount(to == std::string::npos ? amount : amount.substr(to + 4), *materials.containers);
}

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

/// "wheelbarrow of leaves": one of them.
std::optional<NameAndAmount> one_container(const std::string& said, const Materials& materials) {
  const std::size_t of = said.find(" of ");
  const std::string container = said.substr(0, of);
  if (of == std::string::npos || has_digit(said) || container.ends_with('s')) return std::nullopt;
  const std::string name = plain_answer(said.substr(of + 4));
  if (find_container(*materials.containers, container) == nullptr || !is_known(name, materials)) return std::nullopt;
  return NameAndAmount{name, "1 " + container};
}

NameAndAmount name_and_amount(std::string said, const Materials& materials) {
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
  const std::size_t bracket = said.find(" (");
  if (bracket != std::string::npos && said.ends_with(')'))
    said = said.substr(0, bracket) + ", " + said.substr(bracket + 2, said.size() - bracket - 3);
  if (is_known(said, materials) || packing) return {said, {}};
  if (auto found = one_container(said, materials)) return *found;
  for (const std::string_view between : {" of ", ", ", " "}) {
    if (auto found = apart_at(between, said, materials)) return *found;
  }
  if (says_how_much(said, materials)) throw TextError("\"" + said + "\" of what?", "write \"20 bags of leaves\"");
  return amount_first(said, materials).value_or(NameAndAmount{said, {}});
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
  take_amount(supply, plain_amount(said.amount, ""), materials);
  check_plausible(*supply.amount, said.amount);
  if (!supply.mass(*supply.amount))
    throw TextError("no bulk density of " + supply.feedstock.id + " is known, so a volume of it has no weight",
                    "give the amount as a weight");
  return supply;
}

/// Nothing where the amount is zero.
std::optional<Thing> read_thing(const std::string& said, const Materials& materials) {
  const NameAndAmount parts = name_and_amount(said, materials);
  const Supply supply = supply_said(parts, materials);
  if (parts.amount.empty()) throw TextError("how much of " + parts.name + "?", "write \"2 buckets of " + parts.name + "\"");
  if (is_zero(*supply.amount)) return std::nullopt;
  return Thing{supply.feedstock.id, supply.feedstock.name, supply.packing_assumed ? "" : supply.packing, plain_amount(parts.amount, ""),
               supply.feedstock.has_tag("herbicide")};
}

bool is_a_thing(const std::string& said, const Materials& materials) {
  const auto parts = amount_first(said, materials);
  return feedstock_called(materials, parts ? parts->name : said) != nullptr;
}

/// A list, at semicolons, commas and "and": but "1,000 lb" stays one, and so does what is known by a name with "and" in it.
std::vector<std::string> listed(const std::string& said, const Materials& materials) {
  std::vector<std::string> items;
  for (const std::string& part : split(said, {";", ", and ", ", ", " and "})) {
    if (part.empty()) continue;
    const std::string joined = items.empty() ? "" : items.back() + " and " + part;
    const bool amount_alone = !items.empty() && is_known(items.back(), materials) && says_how_much(part, materials);
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

}  // namespace

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

Supply read_said_supply(std::string_view said, const Materials& materials) {
  const std::string plain = plain_answer(said);
  if (plain.empty()) throw TextError("nothing is named", "write \"20 bags of leaves\"");
  return supply_said(name_and_amount(plain, materials), materials);
}

std::vector<Thing> read_things(const std::string& plain, const Materials& materials) {
  std::vector<Thing> things;
  for (const std::string& item : listed(plain, materials)) {
    if (const auto thing = read_thing(item, materials)) things.push_back(*thing);
  }
  if (things.size() > most_things) throw TextError("these are more than 20 things", "leave out the smallest");
  return things;
}

}  // namespace heapwright
