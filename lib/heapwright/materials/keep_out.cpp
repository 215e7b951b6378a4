#include "heapwright/materials/keep_out.hpp"

#include <algorithm>
#include <cctype>

#include "heapwright/materials/called.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The words of a name, each in its plain form; an apostrophe breaks none.
std::vector<std::string> plain_words(std::string_view name) {
  constexpr std::string_view curly = "’";
  std::vector<std::string> words;
  std::string word;
  for (std::size_t i = 0; i < name.size(); ++i) {
    const auto byte = static_cast<unsigned char>(name[i]);
    if (name.substr(i).starts_with(curly)) {
      i += curly.size() - 1;
    } else if (std::isalpha(byte) != 0 || byte >= 0x80) {
      word += name[i];
    } else if (name[i] != '\'' && !word.empty()) {
      words.push_back(plain_name(word));
      word.clear();
    }
  }
  if (!word.empty()) words.push_back(plain_name(word));
  return words;
}

bool gives_away(const KeepOut& row, const std::vector<std::string>& said) {
  return std::any_of(row.words.begin(), row.words.end(), [&](const std::string& word) {
    return std::any_of(said.begin(), said.end(), [&](const std::string& one) { return has_plain_form(word, one); });
  });
}

}  // namespace

const KeepOut* find_keep_out(const std::vector<KeepOut>& rows, std::string_view name) {
  const std::string plain = plain_name(name);
  const auto whole = std::find_if(rows.begin(), rows.end(), [&](const KeepOut& row) { return is_called(row, plain); });
  if (whole != rows.end()) return &*whole;
  const std::vector<std::string> said = plain_words(name);
  const auto by_word = std::find_if(rows.begin(), rows.end(), [&](const KeepOut& row) { return gives_away(row, said); });
  return by_word == rows.end() ? nullptr : &*by_word;
}

KeepOutGuess guess_keep_out(const std::vector<KeepOut>& rows, std::string_view name) {
  constexpr std::size_t long_word = 5;
  const std::string plain = plain_name(name);
  const std::vector<std::string> said = plain_words(name);
  // With its plural and without: taking an s from one of the two would count as a slip.
  const auto slips = [&](const std::string& known) {
    return std::min(edit_distance(plain, plain_name(known)), edit_distance(name, known));
  };
  const std::size_t most = plain.size() > long_word ? 2 : 1;
  KeepOutGuess best{nullptr, {}, most + 1};
  const auto is_likely = [&](const std::string& known) {  // as one word too: what does harm is better asked about once too often
    return is_likely_slip(plain, plain_name(known)) || is_likely_slip(name, known);
  };
  const auto consider = [&](const KeepOut& row, const std::string& known, std::size_t count) {
    if (count < best.slips) best = {&row, known, count};
  };
  for (const KeepOut& row : rows) {
    if (is_likely(row.name)) consider(row, row.name, slips(row.name));
    for (const std::string& known : row.also) {
      if (is_likely(known)) consider(row, known, slips(known));
    }
    for (const std::string& word : row.words) {
      for (const std::string& one : said) {
        if (one.size() < long_word || word.size() <= long_word) continue;
        const std::string plain_word = plain_name(word);
        if (is_likely_slip(one, plain_word) && edit_distance(one, plain_word) <= 1) consider(row, word, 1);
      }
    }
  }
  return best;
}

}  // namespace heapwright
