// Rows by the names that people give them.
#include <algorithm>
#include <array>

#include "heapwright/materials/called.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// An id wins over an everyday name, so that a user's own row is always reached by its id.
template <class Row>
const Row* called(const std::vector<Row>& rows, std::string_view name) {
  const auto by_id = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == name; });
  if (by_id != rows.end()) return &*by_id;
  const std::string plain = plain_name(name);
  const auto by_name = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return is_called(row, plain); });
  return by_name == rows.end() ? nullptr : &*by_name;
}

template <class Row>
std::vector<std::string> names_of(const std::vector<Row>& rows) {
  std::vector<std::string> names;
  for (const Row& row : rows) {
    names.push_back(row.id);
    names.push_back(row.name);
    names.insert(names.end(), row.also.begin(), row.also.end());
  }
  return names;
}

std::string in_quotes(std::string_view name) { return "\"" + std::string(name) + "\""; }

/// Words that people put before a name and that change nothing.
bool is_filler(std::string_view word) {
  constexpr auto fillers =
      std::to_array<std::string_view>({"some",  "my",     "our",    "the",   "a",    "an",    "old",    "clean", "plain", "used",  "wet",
                                       "dry",   "dried",  "fresh",  "dead",  "raw",  "more",  "aged",   "fine",  "small", "dirty", "rotted",
                                       "moldy", "mouldy", "wilted", "spent", "torn", "extra", "rotten", "mixed", "big"});
  return std::find(fillers.begin(), fillers.end(), word) != fillers.end();
}

std::string packing_word(const std::string& word) {
  for (const std::string_view shredded : {"mulched", "mowed", "mown", "chopped", "ground", "crushed"}) {
    if (word == shredded) return "shredded";
  }
  for (const std::string_view collected : {"street", "curbside", "curb", "vacuumed", "city", "municipal"}) {
    if (word == collected) return "collected";
  }
  for (const std::string_view packing : {"loose", "bagged", "collected", "packed", "shredded"}) {
    if (word == packing) return word;
  }
  return {};
}

/// The first word of a name, in small letters, and the rest; nothing where the name is one word.
struct FirstWord {
  std::string word;
  std::string_view rest;
};
std::optional<FirstWord> first_word(std::string_view name) {
  const std::size_t space = name.find(' ');
  if (space == std::string_view::npos) return std::nullopt;
  std::string word(name.substr(0, space));
  std::transform(word.begin(), word.end(), word.begin(),
                 [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
  return FirstWord{std::move(word), name.substr(space + 1)};
}

/// "old shredded leaves" is leaves, shredded.
NamedFeedstock called_with_words_before(const Materials& materials, std::string_view name) {
  if (const Feedstock* feedstock = called(*materials.feedstocks, name)) return {feedstock, {}};
  const std::optional<FirstWord> first = first_word(name);
  if (!first) return {nullptr, {}};
  const std::string packing = packing_word(first->word);
  if (packing.empty() && !is_filler(first->word)) return {nullptr, {}};
  NamedFeedstock rest = called_with_words_before(materials, first->rest);
  if (rest.feedstock != nullptr && rest.feedstock->find_packing(packing) != nullptr) rest.packing = packing;
  return rest;
}

/// A name without the words before it that change nothing.
std::string_view without_words_before(std::string_view name) {
  const std::optional<FirstWord> first = first_word(name);
  if (!first || !(is_filler(first->word) || !packing_word(first->word).empty())) return name;
  return without_words_before(first->rest);
}

[[noreturn]] void refuse(std::string_view name, const KeepOut& row) {
  throw KeptOut(in_quotes(name) + " stays out of the pile: " + row.reason, row.instead);
}

/// The nearest of all names, where it is plausibly meant: who writes hyphens writes an id.
std::optional<std::string> name_meant(std::string_view name, std::vector<std::string> known) {
  const bool is_id = name.find('-') != std::string_view::npos && name.find(' ') == std::string_view::npos;
  if (!is_id) std::erase_if(known, [&](const std::string& one) { return !is_likely_slip(name, one); });
  return nearest(name, known);
}

[[noreturn]] void refuse_unknown_feedstock(const Materials& materials, std::string_view name) {
  const std::string unknown = in_quotes(name) + " is no known feedstock";
  if (compost_called(materials, name) != nullptr)
    throw TextError(
        in_quotes(name) + " is finished compost: the lawn or a bed wants it, not the pile",
        "leave it out; \"heapwright topdress\" tells how far it goes. A bucketful to start a pile: \"1 bucket of old compost\"");
  const std::optional<std::string> near = name_meant(name, names_of(*materials.feedstocks));
  KeepOutGuess guess = guess_keep_out(*materials.keep_out, name);
  const KeepOutGuess of_the_rest = guess_keep_out(*materials.keep_out, without_words_before(name));
  if (of_the_rest.slips < guess.slips) guess = of_the_rest;
  const bool nearer_to_what_stays_out = guess.row != nullptr && (!near || guess.slips <= edit_distance(name, *near));
  if (nearer_to_what_stays_out)
    throw KeptOut(unknown + "; if it means " + in_quotes(guess.meant) + ", it stays out of the pile: " + guess.row->reason,
                  guess.row->instead);
  throw TextError(unknown, near ? "did you mean " + in_quotes(*near) + "?" : "`heapwright materials` lists them all");
}

}  // namespace

NamedFeedstock find_named_feedstock(const Materials& materials, std::string_view name) {
  NamedFeedstock found = called_with_words_before(materials, name);
  if (found.feedstock != nullptr) return found;
  if (const KeepOut* row = what_stays_out(materials, name)) refuse(name, *row);
  refuse_unknown_feedstock(materials, name);
}

const Feedstock& find_feedstock(const Materials& materials, std::string_view name) {
  return *find_named_feedstock(materials, name).feedstock;
}

const Feedstock* feedstock_called(const Materials& materials, std::string_view name) {
  return called_with_words_before(materials, name).feedstock;
}

const Compost* compost_called(const Materials& materials, std::string_view name) { return called(*materials.composts, name); }

const KeepOut* what_stays_out(const Materials& materials, std::string_view name) {
  if (const KeepOut* row = find_keep_out(*materials.keep_out, name)) return row;
  return find_keep_out(*materials.keep_out, without_words_before(name));
}

Amount read_amount(std::string_view text, const Materials& materials) {
  const std::size_t of = text.find(" of ");
  const std::string_view contents = of == std::string_view::npos ? std::string_view() : text.substr(of + 4);
  const bool is_allowed = contents.empty() || feedstock_called(materials, contents) != nullptr;
  if (const KeepOut* row = is_allowed ? nullptr : what_stays_out(materials, contents)) refuse(contents, *row);
  return read_amount(text, *materials.containers);
}

WaterMass read_water_amount(std::string_view text, const Materials& materials) {
  const Amount amount = read_amount(text, materials);
  if (const auto volume = volume_of(amount)) return *volume * water_density();
  return read_water(text);
}

const Compost& find_compost(const Materials& materials, std::string_view name) {
  if (const Compost* compost = compost_called(materials, name)) return *compost;
  const std::optional<std::string> near = nearest(name, names_of(*materials.composts));
  throw TextError(in_quotes(name) + " is no known compost",
                  near ? "did you mean " + in_quotes(*near) + "?" : "`heapwright materials` lists them all");
}

}  // namespace heapwright
