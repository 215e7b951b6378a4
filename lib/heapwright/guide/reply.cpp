#include "heapwright/guide/reply.hpp"

#include <algorithm>
#include <array>

#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/said_date.hpp"
#include "heapwright/guide/things.hpp"
#include "heapwright/input/limits.hpp"

namespace heapwright {
namespace {

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

/// The words as they were typed, small letters and spaces between.
std::string small_words(std::string_view typed) {
  std::string words;
  for (const char c : typed) {
    const char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const bool is_between = std::string_view(" \t\r,.;!:").find(small) != std::string_view::npos;
    if (!is_between) words += small;
    if (is_between && !words.empty() && words.back() != ' ') words += ' ';
  }
  if (words.ends_with(' ')) words.pop_back();
  return words;
}

bool has_word(const std::string& words, const std::string& word) { return (" " + words + " ").find(" " + word + " ") != std::string::npos; }

/// The first word says it: "yes scotts", "nah", "hell no".
/// @param typed as it was typed: who says "maybe no" does not know
Reply read_yes_no_answer(const std::string& said, std::string_view typed) {
  const std::string words = small_words(typed);
  for (const std::string_view doubt : {"maybe", "perhaps", "probably", "think", "guess", "might", "not that i know"}) {
    if (words.find(doubt) != std::string::npos) return {{}, {"unknown"}};
  }
  constexpr auto yes = std::to_array<std::string_view>(
      {"y", "yes", "yeah", "yep", "yup", "ya", "yea", "sure", "si", "aye", "affirmative", "definitely", "absolutely", "certainly"});
  constexpr auto no = std::to_array<std::string_view>({"n", "no", "nope", "never", "nah", "naw", "none", "negative", "nay"});
  constexpr auto whole_no = std::to_array<std::string_view>(
      {"hell no", "heck no", "oh no", "of course not", "absolutely not", "definitely not", "certainly not", "not this year", "not at all",
       "not really", "i didn't", "i did not", "we didn't", "there isn't", "there is not", "it didn't"});
  constexpr auto whole_yes =
      std::to_array<std::string_view>({"of course", "i did", "we did", "there is", "it did", "hell yes", "heck yes", "oh yes"});
  const std::string first = words.substr(0, words.find(' '));
  if (is_one_of(words, whole_no)) return none();
  if (is_one_of(words, whole_yes)) return some({"yes"});
  const bool says_both = has_word(words, "no") && has_word(words, "yes");
  if (is_one_of(first, yes) && !says_both && !has_word(words, "not")) return some({"yes"});
  if (is_one_of(first, no) && !says_both) return none();
  throw TextError(in_quotes(said) + " is neither yes nor no", "write yes, no, or ? for don't know");
}

Reply read_date_answer(const std::string& said, Date today) { return some({print_date(read_said_date(said, today))}); }

Reply read_things_answer(const std::string& said, const Materials& materials) {
  constexpr auto nothing_more = std::to_array<std::string_view>({"that's it", "thats it", "that's all", "thats all", "that is all",
                                                                 "that is it", "nothing more", "no more", "done", "i'm done", "just that"});
  if (is_nothing(said) || is_one_of(said, nothing_more)) return none();
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

std::string understood(const Question& question, const Reply& reply) {
  if (reply.is.count("unknown") != 0) return "don't know";
  if (question.kind == AnswerKind::yes_no) return reply.is.count("some") != 0 ? "yes" : "no";
  const std::string between = question.kind == AnswerKind::climate ? " and " : " by ";
  std::string words;
  for (const std::string& text : reply.texts) words += (words.empty() ? "" : between) + text;
  for (const Thing& thing : reply.things) words += (words.empty() ? "" : "; ") + thing.amount + " of " + thing.name;
  if (words.empty()) words = question.kind == AnswerKind::interval ? "never" : "none";
  if (!reply.taken_as.empty()) words += ", " + reply.taken_as;
  return words;
}

}  // namespace heapwright
