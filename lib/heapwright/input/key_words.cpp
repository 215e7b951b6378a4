#include "heapwright/input/key_words.hpp"

#include <algorithm>
#include <array>

#include "heapwright/units/nearest.hpp"

namespace heapwright {
namespace {

constexpr std::size_t long_enough_for_a_slip = 5;

constexpr auto filler = std::to_array<std::string_view>(
    {"a",    "an",   "the",  "it",   "its",    "this", "that",  "my",    "our",   "your",  "is",      "are",     "was",    "be",
     "been", "am",   "im",   "i",    "we",     "has",  "have",  "had",   "got",   "get",   "gets",    "getting", "there",  "theres",
     "of",   "in",   "on",   "at",   "to",     "into", "from",  "with",  "for",   "and",   "like",    "some",    "really", "so",
     "all",  "over", "just", "kind", "kinda",  "up",   "keep",  "keeps", "pile",  "heap",  "compost", "bin",     "stuff",  "what",
     "why",  "do",   "does", "help", "please", "now",  "again", "think", "looks", "seems", "bit"});
constexpr auto denials =
    std::to_array<std::string_view>({"not", "no", "never", "nothing", "nothings", "none", "wont", "isnt", "doesnt", "dont", "cant", "didnt",
                                     "hasnt", "havent", "arent", "wasnt", "without", "aint", "barely"});

/// Ordinary words a letter away from one that tells of a sign: "weeks" is no slip of "weeds". In the order of the alphabet.
constexpr auto no_slips = std::to_array<std::string_view>(
    {"baked",   "beating", "black",   "books",  "boots",  "brain", "break",    "breed",   "breezes", "brown",   "bury",     "burying",
     "coals",   "cooked",  "cooler",  "couch",  "could",  "crash", "crowing",  "crows",   "doggy",   "dried",   "dropping", "droppings",
     "eating",  "eight",   "fever",   "fewer",  "fiddle", "files", "foggy",    "freezer", "fried",   "garage",  "glass",    "glowing",
     "gotten",  "grain",   "grams",   "greet",  "gross",  "growl", "growling", "harms",   "heaving", "hooks",   "horse",    "house",
     "inspect", "later",   "loaves",  "matter", "moody",  "moose", "mound",    "mousse",  "muddle",  "musty",   "needs",    "newer",
     "paddle",  "pants",   "party",   "planes", "planks", "plans", "players",  "pools",   "reach",   "reeds",   "roofs",    "rooting",
     "rusty",   "seated",  "seeds",   "seeing", "shake",  "shark", "shell",    "shells",  "shrine",  "sleds",   "slide",    "small",
     "spell",   "spout",   "spring",  "stack",  "stake",  "stamp", "steak",    "steal",   "stems",   "stepped", "stick",    "store",
     "stoves",  "stream",  "strings", "strong", "teams",  "these", "those",    "tough",   "train",   "tried",   "tripping", "trust",
     "turns",   "warms",   "weeks",   "works",  "would"});
static_assert(std::is_sorted(no_slips.begin(), no_slips.end()));

template <std::size_t n>
bool is_among(const std::string& word, const std::array<std::string_view, n>& words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool ends_in_two_alike(const std::string& word) {
  return word.size() > 3 && word.back() == word[word.size() - 2] && std::string_view("lsz").find(word.back()) == std::string_view::npos;
}

/// English endings, as far as "smells", "smelly", "smelling" and "dripping" need: no more than tells a sign by.
std::string stem_of(std::string word) {
  constexpr std::size_t shortest = 3;
  const auto drop = [&](std::string_view ending, std::string_view put = "") {
    if (!word.ends_with(ending) || word.size() < ending.size() + shortest - put.size()) return false;
    word.replace(word.size() - ending.size(), ending.size(), put);
    return true;
  };
  if (!drop("ies", "y") && !word.ends_with("ss")) drop("s");
  const bool verb = drop("ing") || drop("ed");
  if (verb && ends_in_two_alike(word)) word.pop_back();
  if (!drop("y")) drop("e");
  return word;
}

/// The runs of letters and digits, without the apostrophes in them, of whatever shape.
std::vector<std::string> written_words(std::string_view text) {
  constexpr auto apostrophes = std::to_array<std::string_view>({"'", "’", "‘", "`"});
  std::vector<std::string> words(1);
  for (std::size_t i = 0; i < text.size();) {
    const auto at = [&](std::string_view sign) { return text.substr(i).starts_with(sign); };
    const auto apostrophe = std::find_if(apostrophes.begin(), apostrophes.end(), at);
    if (apostrophe != apostrophes.end()) {
      i += apostrophe->size();
      continue;
    }
    const char c = text[i++];
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool is_letter = (small >= 'a' && small <= 'z') || (small >= '0' && small <= '9');
    if (is_letter) {
      words.back() += small;
    } else if (!words.back().empty()) {
      words.emplace_back();
    }
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

bool means(const KeyWord& said, const KeyWord& meant) {
  if (said.stem == meant.stem) return true;
  if (said.written.size() < long_enough_for_a_slip || meant.written.size() < long_enough_for_a_slip) return false;
  if (said.written.size() > meant.written.size() + 1 || meant.written.size() > said.written.size() + 1) return false;
  return !is_no_slip(said.written) && edit_distance(said.written, meant.written) <= 1;
}

bool has(const std::vector<KeyWord>& text, const KeyWord& word) {
  return std::any_of(text.begin(), text.end(), [&](const KeyWord& said) { return means(said, word); });
}

}  // namespace

bool is_no_slip(std::string_view word) { return std::binary_search(no_slips.begin(), no_slips.end(), word); }

std::vector<KeyWord> key_words(std::string_view text) {
  std::vector<KeyWord> found;
  for (std::string& word : written_words(text)) {
    if (is_among(word, denials)) word = "not";
    if (is_among(word, filler)) continue;
    const bool is_new = std::none_of(found.begin(), found.end(), [&](const KeyWord& one) { return one.written == word; });
    if (is_new) found.push_back({word, stem_of(word)});
  }
  return found;
}

bool has_words(const std::vector<KeyWord>& text, const std::vector<KeyWord>& phrase) {
  const KeyWord denial{"not", "not"};
  if (phrase.empty() || has(text, denial) != has(phrase, denial)) return false;
  return std::all_of(phrase.begin(), phrase.end(), [&](const KeyWord& word) { return has(text, word); });
}

}  // namespace heapwright
