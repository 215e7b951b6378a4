#include "heapwright/guide/reply.hpp"

#include <algorithm>
#include <array>

#include "heapwright/guide/kinds.hpp"
#include "heapwright/guide/plain.hpp"
#include "heapwright/guide/said_date.hpp"
#include "heapwright/guide/things.hpp"

namespace heapwright {
namespace {

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

Reply read_date_answer(const std::string& said, Date today) { return some({print_date(read_said_date(said, today))}); }

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
