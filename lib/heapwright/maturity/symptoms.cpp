#include "heapwright/maturity/symptoms.hpp"

#include <algorithm>
#include <optional>

#include "heapwright/error.hpp"
#include "heapwright/materials/embedded.hpp"
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
                                                                           {"hot", Circumstance::hot}};
const std::vector<std::pair<std::string, Fix>> fix_words{{"none", Fix::none}, {"balance", Fix::balance}, {"water", Fix::water}};

Cause read_cause(Table& table) {
  Cause cause;
  for (const Value& value : table.list("when")) {
    if (const auto circumstance = value.one_of(circumstance_words)) cause.when.insert(*circumstance);
  }
  for (const char* key : {"cause", "check", "do_now"}) table.require(key, "every cause says it");
  cause.cause = table.text("cause").value_or("");
  cause.check = table.text("check").value_or("");
  cause.do_now = table.text("do_now").value_or("");
  cause.fix = table.one_of("fix", fix_words).value_or(Fix::none);
  table.finish();
  return cause;
}

Symptom read_symptom(Table& table) {
  Symptom symptom;
  symptom.id = table.text("id").value_or("");
  symptom.name = table.text("name").value_or("");
  for (const Value& value : table.list("also")) symptom.also.push_back(value.text().value_or(""));
  for (Table& cause : table.tables("cause")) symptom.causes.push_back(read_cause(cause));
  if (symptom.causes.empty() || !symptom.causes.back().when.empty())
    table.problem("has no cause that holds of any heap", "end with a cause without \"when\"");
  table.finish();
  return symptom;
}

std::vector<Symptom> read_symptoms() {
  Problems problems;
  Document document = Document::from_text(std::string(embedded_material("symptoms.toml")), "symptoms.toml", problems);
  Table root = document.root();
  std::vector<Symptom> symptoms;
  for (Table& table : root.tables("symptom")) symptoms.push_back(read_symptom(table));
  root.finish();
  problems.throw_if_any();
  return symptoms;
}

/// "it is ants" and "ants": what is said around a name.
std::string bare(std::string_view text) {
  std::string plain = plain_name(text);
  for (const std::string_view before : {"thereisa", "thereis", "thereare", "itis", "its", "it"}) {
    if (plain.size() > before.size() + 2 && plain.starts_with(before)) return plain.substr(before.size());
  }
  return plain;
}

bool is_called(const Symptom& symptom, const std::string& plain) {
  const auto same = [&](const std::string& name) { return plain_name(name) == plain || bare(name) == plain; };
  return same(symptom.id) || same(symptom.name) || std::any_of(symptom.also.begin(), symptom.also.end(), same);
}

}  // namespace

const std::vector<Symptom>& built_in_symptoms() {
  static const std::vector<Symptom> symptoms = read_symptoms();
  return symptoms;
}

const Symptom& find_symptom(std::string_view name) {
  std::vector<std::string> names;
  std::string list;
  for (const Symptom& symptom : built_in_symptoms()) {
    if (is_called(symptom, plain_name(name)) || is_called(symptom, bare(name))) return symptom;
    names.push_back(symptom.id);
    for (const std::string& also : symptom.also) names.push_back(also);
    list += (list.empty() ? "" : ", ") + symptom.id;
  }
  const std::optional<std::string> near = nearest(name, names);
  throw TextError("\"" + std::string(name) + "\" is no symptom that is known",
                  (near ? "did you mean \"" + *near + "\"? " : "") + "It is one of " + list);
}

const Cause& likely_cause(const Symptom& symptom, const Circumstances& circumstances) {
  const auto holds = [&](const Cause& cause) {
    return std::includes(circumstances.begin(), circumstances.end(), cause.when.begin(), cause.when.end());
  };
  return *std::find_if(symptom.causes.begin(), symptom.causes.end(), holds);
}

}  // namespace heapwright
