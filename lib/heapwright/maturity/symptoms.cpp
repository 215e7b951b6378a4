#include "heapwright/maturity/symptoms.hpp"

#include <algorithm>
#include <optional>

#include "heapwright/error.hpp"
#include "heapwright/input/document.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, Circumstance>> circumstance_words{{"too-much-nitrogen", Circumstance::too_much_nitrogen},
                                                                           {"too-little-nitrogen", Circumstance::too_little_nitrogen},
                                                                           {"too-wet", Circumstance::too_wet},
                                                                           {"too-dry", Circumstance::too_dry},
                                                                           {"airless", Circumstance::airless},
                                                                           {"grassy", Circumstance::grassy},
                                                                           {"scraps", Circumstance::scraps},
                                                                           {"small", Circumstance::small},
                                                                           {"big", Circumstance::big},
                                                                           {"cold", Circumstance::cold},
                                                                           {"rained-on", Circumstance::rained_on},
                                                                           {"hot", Circumstance::hot},
                                                                           {"too-hot", Circumstance::too_hot},
                                                                           {"near-fire", Circumstance::near_fire},
                                                                           {"has-heated", Circumstance::has_heated}};
const std::vector<std::pair<std::string, Fix>> fix_words{{"none", Fix::none}, {"balance", Fix::balance}, {"water", Fix::water}};

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
  cause.fix = table.one_of("fix", fix_words).value_or(Fix::none);
  cause.fix_when = table.text("fix_when").value_or("");
  table.finish();
  return cause;
}

void read_symptom(Table& table, Symptom& symptom) {
  symptom = Symptom{*table.text("id"), table.text("name").value_or(""), {}, {}, {}, {}, false};
  for (const Value& value : table.list("also")) symptom.also.push_back(value.text().value_or(""));
  for (const Value& value : table.list("facts")) {
    if (const auto fact = value.one_of(fact_words())) symptom.facts.insert(*fact);
  }
  symptom.rules_out = read_circumstances(table, "rules_out");
  symptom.at_work = table.flag("at_work").value_or(false);
  for (Table& cause : table.tables("cause")) symptom.causes.push_back(read_cause(cause));
  if (symptom.causes.empty() || !symptom.causes.back().when.empty())
    table.problem("has no cause that holds of any pile", "end with a cause without \"when\"");
}

/// "There are ants" and "ants": without the words that are said before a name.
std::string bare(std::string_view text) {
  for (const std::string_view before : {"it ", "It ", "it's ", "It's ", "its ", "Its ", "there ", "There ", "is ", "are ", "a "}) {
    if (text.starts_with(before)) text.remove_prefix(before.size());
  }
  return plain_name(text);
}

bool is_called(const Symptom& symptom, const std::string& plain) {
  const auto same = [&](const std::string& name) { return plain_name(name) == plain || bare(name) == plain; };
  return same(symptom.id) || same(symptom.name) || std::any_of(symptom.also.begin(), symptom.also.end(), same);
}

}  // namespace

void read_symptoms(Table& root, std::vector<Symptom>& symptoms) { read_rows(root, "symptom", symptoms, read_symptom); }

std::vector<Symptom> built_in_symptoms() { return read_built_in("symptoms.toml", read_symptoms); }

const Symptom* symptom_called(const std::vector<Symptom>& symptoms, std::string_view name) {
  for (const Symptom& symptom : symptoms) {
    if (is_called(symptom, plain_name(name)) || is_called(symptom, bare(name))) return &symptom;
  }
  return nullptr;
}

const Symptom& find_symptom(const std::vector<Symptom>& symptoms, std::string_view name) {
  if (const Symptom* symptom = symptom_called(symptoms, name)) return *symptom;
  std::vector<std::string> names;
  std::vector<std::string> ids;
  for (const Symptom& symptom : symptoms) {
    ids.push_back(symptom.id);
    names.push_back(symptom.id);
    names.insert(names.end(), symptom.also.begin(), symptom.also.end());
  }
  ids.emplace_back("smoke");
  throw TextError("\"" + std::string(name) + "\" is not known as something that goes wrong with a pile", hint_for(name, names, ids));
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
