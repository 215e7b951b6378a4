#include "heapwright/maturity/symptoms.hpp"

#include <algorithm>
#include <optional>
#include <set>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/input/key_words.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, Circumstance>> circumstance_words{{"too-much-nitrogen", Circumstance::too_much_nitrogen},
                                                                           {"too-little-nitrogen", Circumstance::too_little_nitrogen},
                                                                           {"no-greens", Circumstance::no_greens},
                                                                           {"too-wet", Circumstance::too_wet},
                                                                           {"too-dry", Circumstance::too_dry},
                                                                           {"airless", Circumstance::airless},
                                                                           {"grassy", Circumstance::grassy},
                                                                           {"scraps", Circumstance::scraps},
                                                                           {"small", Circumstance::small},
                                                                           {"big", Circumstance::big},
                                                                           {"cold", Circumstance::cold},
                                                                           {"freezes", Circumstance::freezes},
                                                                           {"rained-on", Circumstance::rained_on},
                                                                           {"in-a-tumbler", Circumstance::in_a_tumbler},
                                                                           {"hot", Circumstance::hot},
                                                                           {"too-hot", Circumstance::too_hot},
                                                                           {"near-fire", Circumstance::near_fire},
                                                                           {"has-heated", Circumstance::has_heated},
                                                                           {"turned", Circumstance::turned}};
const std::vector<std::pair<std::string, Fix>> fix_words{
    {"none", Fix::none}, {"balance", Fix::balance}, {"water", Fix::water}, {"browns", Fix::browns}};

Circumstances read_circumstances(Table& table, std::string_view key) {
  Circumstances found;
  for (const Value& value : table.list(key)) {
    if (const auto circumstance = value.one_of(circumstance_words)) found.insert(*circumstance);
  }
  return found;
}

Cause read_cause(Table& table) {
  Cause cause;
  cause.when = read_circumstances(table, "when");
  for (const char* key : {"cause", "check", "do_now"}) table.require(key, "every cause says it");
  cause.cause = table.text("cause").value_or("");
  cause.check = table.text("check").value_or("");
  cause.do_now = table.text("do_now").value_or("");
  cause.in_a_tumbler = table.text("in_a_tumbler").value_or("");
  cause.fix = table.one_of("fix", fix_words).value_or(Fix::none);
  cause.fix_when = table.text("fix_when").value_or("");
  table.finish();
  return cause;
}

void read_symptom(Table& table, Symptom& symptom) {
  symptom = Symptom{*table.text("id"), table.text("name").value_or(""), {}, {}, {}, {}, {}, false, false, {}};
  for (const Value& value : table.list("also")) symptom.also.push_back(value.text().value_or(""));
  for (const Value& value : table.list("words")) symptom.words.push_back(value.text().value_or(""));
  for (const Value& value : table.list("facts")) {
    if (const auto fact = value.one_of(fact_words())) symptom.facts.insert(*fact);
  }
  symptom.rules_out = read_circumstances(table, "rules_out");
  symptom.at_work = table.flag("at_work").value_or(false);
  symptom.is_frozen = table.flag("frozen").value_or(false);
  for (const Value& value : table.list("opposites")) symptom.opposites.push_back(value.text().value_or(""));
  for (Table& cause : table.tables("cause")) symptom.causes.push_back(read_cause(cause));
  if (symptom.causes.empty() || !symptom.causes.back().when.empty())
    table.problem("has no cause that holds of any pile", "end with a cause without \"when\"");
}

/// The same words, in whatever order.
bool are_same(const std::vector<KeyWord>& one, const std::vector<KeyWord>& other) { return has_words(one, other) && has_words(other, one); }

template <class Same>
bool has_name(const Symptom& symptom, const Same& same) {
  return same(symptom.id) || same(symptom.name) || std::any_of(symptom.also.begin(), symptom.also.end(), same);
}

/// What gives a symptom away wherever it stands: its words, and names of several.
std::vector<std::vector<KeyWord>> phrases_of(const Symptom& symptom) {
  std::vector<std::vector<KeyWord>> phrases;
  for (const std::string& words : symptom.words) phrases.push_back(key_words(words));
  for (const std::string& name : symptom.also) {
    std::vector<KeyWord> words = key_words(name);
    if (words.size() > 1) phrases.push_back(std::move(words));
  }
  return phrases;
}

/// How many words of a sentence tell of a symptom.
std::size_t words_that_tell(const Symptom& symptom, const std::vector<KeyWord>& said) {
  std::set<std::string> telling;
  for (const std::vector<KeyWord>& phrase : phrases_of(symptom)) {
    if (!has_words(said, phrase)) continue;
    for (const KeyWord& word : phrase) telling.insert(word.stem);
  }
  return telling.size();
}

/// Those that most words of a sentence tell of, if any do.
std::vector<const Symptom*> likeliest(const std::vector<Symptom>& symptoms, std::string_view said) {
  if (const Symptom* symptom = symptom_called(symptoms, said)) return {symptom};
  const std::vector<KeyWord> words = key_words(said);
  std::vector<const Symptom*> found;
  std::size_t most = 1;
  for (const Symptom& symptom : symptoms) {
    const std::size_t telling = words_that_tell(symptom, words);
    if (telling > most) found.clear();
    if (telling >= most) found.push_back(&symptom);
    most = std::max(most, telling);
  }
  return found;
}

/// "Dry outside, wet inside" in its two parts.
std::vector<std::string> clauses_of(std::string_view said) {
  std::vector<std::string> clauses{std::string(said)};
  for (const std::string_view joint : {" and ", ", ", " but ", ";", " plus ", " & "}) {
    std::vector<std::string> parts;
    for (const std::string& clause : clauses) {
      std::size_t begin = 0;
      for (std::size_t end = 0; end != std::string::npos; begin = end + joint.size()) {
        end = clause.find(joint, begin);
        parts.push_back(clause.substr(begin, end == std::string::npos ? end : end - begin));
      }
    }
    clauses = std::move(parts);
  }
  return clauses;
}

/// "The rats are gone", "the flies went away": but heat that is gone is a sign.
bool is_over(const std::string& clause) {
  const std::vector<std::string> words = words_of(clause);
  const auto has = [&](std::string_view word) { return std::find(words.begin(), words.end(), word) != words.end(); };
  if (has("heat") || has("warmth") || has("hot") || has("steam") || words.empty()) return false;
  const bool is_gone = words.back() == "gone" || (words.size() > 1 && words[words.size() - 2] == "gone" && words.back() == "now");
  return is_gone || (has("went") && has("away")) || (has("used") && has("to"));
}

/// Whether a text names a sign and denies it: "no flies any more".
bool denies_a_sign(const std::vector<Symptom>& symptoms, std::string_view said) {
  std::vector<KeyWord> words = key_words(said);
  const std::size_t denials = std::erase_if(words, [](const KeyWord& word) { return word.written == "not"; });
  return denials > 0 &&
         std::any_of(symptoms.begin(), symptoms.end(), [&](const Symptom& symptom) { return words_that_tell(symptom, words) > 0; });
}

[[noreturn]] void refuse_over(std::string_view said) {
  throw TextError("\"" + std::string(said) + "\" tells what is not wrong, or not wrong any more", "name only what is wrong with it now");
}

[[noreturn]] void refuse_two(std::string_view said, const Symptom& one, const Symptom& other) {
  throw TextError("\"" + std::string(said) + "\" can mean \"" + one.name + "\" or \"" + other.name + "\"",
                  "write one of them, or each by itself");
}

/// What is nothing wrong stands for nothing beside what is: "it smells fine but will not heat".
void drop_what_is_well(std::vector<const Symptom*>& found) {
  const auto is_well = [](const Symptom* symptom) { return symptom->id == "earthy-smell"; };
  if (!std::all_of(found.begin(), found.end(), is_well)) std::erase_if(found, is_well);
}

[[noreturn]] void refuse_unknown(const std::vector<Symptom>& symptoms, std::string_view said) {
  std::vector<std::string> names;
  std::vector<std::string> ids;
  for (const Symptom& symptom : symptoms) {
    ids.push_back(symptom.id);
    names.push_back(symptom.id);
    names.insert(names.end(), symptom.also.begin(), symptom.also.end());
  }
  ids.emplace_back("smoke");
  if (denies_a_sign(symptoms, said)) refuse_over(said);
  std::erase_if(names, [&](const std::string& name) { return !is_likely_slip(said, name) || is_no_slip(said); });
  throw TextError("\"" + std::string(said) + "\" is not known as something that goes wrong with a pile", hint_for(said, names, ids));
}

}  // namespace

void read_symptoms(Table& root, std::vector<Symptom>& symptoms) { read_rows(root, "symptom", symptoms, read_symptom); }

std::vector<Symptom> built_in_symptoms() { return read_built_in("symptoms.toml", read_symptoms); }

const Symptom* symptom_called(const std::vector<Symptom>& symptoms, std::string_view name) {
  const std::string plain = plain_name(name);
  const std::vector<KeyWord> words = key_words(name);
  const auto same = [&](const std::string& known) { return has_plain_form(known, plain) || are_same(words, key_words(known)); };
  const auto found = std::find_if(symptoms.begin(), symptoms.end(), [&](const Symptom& symptom) { return has_name(symptom, same); });
  return found == symptoms.end() ? nullptr : &*found;
}

std::vector<const Symptom*> find_symptoms(const std::vector<Symptom>& symptoms, std::string_view said) {
  if (const Symptom* symptom = symptom_called(symptoms, said)) return {symptom};
  std::vector<const Symptom*> found;
  bool over = false;
  for (const std::string& clause : clauses_of(said)) {
    over = over || is_over(clause);
    if (is_over(clause)) continue;
    std::vector<const Symptom*> of_clause = likeliest(symptoms, clause);
    if (of_clause.size() > 1) refuse_two(said, *of_clause[0], *of_clause[1]);
    if (!of_clause.empty() && std::find(found.begin(), found.end(), of_clause.front()) == found.end()) found.push_back(of_clause.front());
  }
  if (found.empty() && over) refuse_over(said);
  if (found.empty()) {
    found = likeliest(symptoms, said);
    if (found.size() > 1) refuse_two(said, *found[0], *found[1]);
  }
  if (found.empty()) refuse_unknown(symptoms, said);
  drop_what_is_well(found);
  return found;
}

const Symptom& find_symptom(const std::vector<Symptom>& symptoms, std::string_view said) {
  const std::vector<const Symptom*> found = find_symptoms(symptoms, said);
  if (found.size() > 1) refuse_two(said, *found[0], *found[1]);
  return *found.front();
}

std::vector<const Cause*> likely_causes(const Symptom& symptom, const Circumstances& circumstances) {
  std::vector<const Cause*> likely;
  for (const Cause& cause : symptom.causes) {
    const auto is_part_of = [&](const Circumstances& whole) {
      return std::includes(whole.begin(), whole.end(), cause.when.begin(), cause.when.end());
    };
    const bool named = std::any_of(likely.begin(), likely.end(), [&](const Cause* other) { return is_part_of(other->when); });
    if (is_part_of(circumstances) && !named) likely.push_back(&cause);
  }
  return likely;
}

}  // namespace heapwright
