#include "heapwright/maturity/observations.hpp"

#include <algorithm>
#include <array>

#include "heapwright/input/document.hpp"
#include "heapwright/input/no_reading.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/germination.hpp"
#include "heapwright/maturity/log.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// Nothing where nothing was measured.
std::optional<std::variant<TemperaturePoint, HandWarmth>> read_core(std::string_view text) {
  if (is_no_reading(text)) return std::nullopt;
  const std::string plain = plain_name(text);
  if (plain == "hot") return HandWarmth::hot;
  if (plain == "warm" || plain == "handwarm") return HandWarmth::warm;
  if (plain == "cold") return HandWarmth::cold;
  try {
    refuse_infinite(text);
    const TemperaturePoint core = read_temperature(text);
    if (!is_a_pile_temperature(core)) throw TextError("\"" + std::string(text) + "\" is no temperature of a pile", "read it again");
    return core;
  } catch (const TextError& error) {
    throw TextError(error.what(), error.hint() + ", or by hand \"hot\", \"warm\" or \"cold\"");
  }
}

constexpr const char* smoke = "smoke";
constexpr std::array<std::string_view, 8> signs_of_fire{"smok", "smould", "smold", "burn", "scorch", "flam", "glow", "charr"};
constexpr std::array<std::string_view, 6> words_of_fire{"fire", "ember", "char", "bbq", "barbecue", "campfire"};
// What burned or glows is something else beside these.
constexpr std::array<std::string_view, 6> burned_by_compost{"plant", "grass", "lawn", "seedling", "tomato", "root"};
constexpr std::array<std::string_view, 5> stung_by_ammonia{"nose", "eye", "throat", "lung", "skin"};
constexpr std::array<std::string_view, 4> glows_by_itself{"eye", "mushroom", "fungu", "dark"};

const std::vector<std::pair<std::string, bool>> result_words{{"passed", true}, {"failed", false}};

/// Each check with itself.
std::vector<std::pair<std::string, std::string>> check_words(const Criteria& criteria) {
  std::vector<std::pair<std::string, std::string>> words;
  for (const CheckCriterion& check : criteria.checks) words.emplace_back(check.id, check.id);
  return words;
}

template <class Meaning>
Meaning one_of(const std::vector<std::pair<std::string, Meaning>>& words, std::string_view word, std::string_view what) {
  std::vector<std::string> known;
  for (const auto& [name, meaning] : words) {
    if (name == word) return meaning;
    known.push_back(name);
  }
  throw TextError("\"" + std::string(word) + "\" is no " + std::string(what), hint_for(word, known, known));
}

bool is_counted(const TestCriterion& test) { return test.id == "germination" || test.id == "emergence"; }

std::string counts_as_written(Table& table) {
  const auto words = [&](std::string_view key) { return table.text(key).value_or(""); };
  const std::string seeds = words("germinated") + " against " + words("control");
  return table.has("root") ? seeds + ", roots " + words("root") + " against " + words("control_root") : seeds;
}

/// Seeds that came up in compost and in the control make the value, for the germination index with their roots.
std::optional<TestValue> read_counts(Table& table, const TestCriterion& test) {
  const bool with_roots = test.id == "germination";
  table.require("control", "write control = \"19 of 20\"");
  if (with_roots) table.require("root", "write root = \"23 mm\", the mean length");
  if (with_roots) table.require("control_root", "write control_root = \"30 mm\", the mean length");
  const auto in_compost = table.read("germinated", read_sprouted);
  const auto control = table.read("control", read_sprouted);
  const auto root = with_roots ? table.read("root", read_length) : std::nullopt;
  const auto control_root = with_roots ? table.read("control_root", read_length) : std::nullopt;
  if (!in_compost || !control || (with_roots && (!root || !control_root))) return std::nullopt;
  try {
    const double share = with_roots ? germination_index(*in_compost, *control, *root, *control_root) : emergence(*in_compost, *control);
    check_test_value(test.measured, share, counts_as_written(table));
    return share;
  } catch (const Error& error) {
    table.problem_at("control", error.what(), error.hint());
    return std::nullopt;
  }
}

void refuse_no_number(std::string_view text) {
  const std::vector<std::string> words = words_of(told_value(text).value);
  const bool has_digits = text.find_first_of("0123456789") != std::string_view::npos;
  const auto is_first = [&](std::string_view word) { return !words.empty() && !has_digits && words.front() == word; };
  const bool is_infinite = is_first("inf") || is_first("infinity") || is_first("infinite") || text.find("∞") != std::string_view::npos;
  if (is_infinite || is_first("nan"))
    throw TextError("\"" + std::string(text) + "\" is no number that a laboratory finds", "leave the line out if nothing was measured");
}

/// "V", "class IV"; nothing of anything else.
const HeatingClass* class_called(const TestCriterion& test, std::string_view value) {
  std::string plain = plain_name(value);
  constexpr std::string_view word = "class";
  if (plain.starts_with(word)) plain.erase(0, word.size());
  const auto found =
      std::find_if(test.classes.begin(), test.classes.end(), [&](const HeatingClass& one) { return plain_name(one.name) == plain; });
  return found == test.classes.end() ? nullptr : &*found;
}

/// All that a class tells: of one that rates as mature how far it warms up at most, of the others by more than what.
MaturityTest test_of_class(const TestCriterion& test, const HeatingClass& one, std::string_view value) {
  const auto at = static_cast<std::size_t>(&one - test.classes.data());
  const bool is_known_by_least = at > 0 && !test.scale_for(one.rise.value)->mature.holds(one.rise.value, one.rise.side).value_or(false);
  const TestValue& bound = is_known_by_least ? test.classes[at - 1].rise.value : one.rise.value;
  return {test.id, bound, std::string(value), std::nullopt, is_known_by_least ? Bound::Side::above : one.rise.side};
}

void refuse_unknown_class(const TestCriterion& test, std::string_view value) {
  const bool is_roman = !value.empty() && value.find_first_not_of("IVXivx") == std::string_view::npos;
  if (test.classes.empty() || !is_roman) return;
  throw TextError("\"" + std::string(value) + "\" is no class of self-heating",
                  "write one from \"I\", fresh, to \"V\", finished, or how far it warms up: \"12 degC\"");
}

MaturityTest told_test(const TestCriterion& test, std::string_view value) {
  if (const HeatingClass* one = class_called(test, value)) return test_of_class(test, *one, value);
  refuse_unknown_class(test, value);
  refuse_no_number(value);
  const ToldValue told = told_value(value);
  return {test.id, read_test_value(test.measured, told.value), std::string(value), std::nullopt, told.told};
}

std::optional<LineOfReport> read_counted_test(Table& table, const NamedLine& named) {
  if (named.test == nullptr || !is_counted(*named.test)) {
    const std::string name = named.test == nullptr ? "\"" + named.name + "\"" : named.test->id;
    table.problem_at("germinated", "says nothing of " + name, "write value, or test = \"germination\" or \"emergence\"");
    return std::nullopt;
  }
  if (table.has("value")) table.problem_at("value", "stands beside counts, which make the value", "leave one of them out");
  const std::optional<TestValue> value = read_counts(table, *named.test);
  if (!value) return std::nullopt;
  return MaturityTest{named.test->id, *value, counts_as_written(table), std::nullopt};
}

/// Its value as a text, or as counts.
std::optional<LineOfReport> read_line_of_report(Table& table, const Criteria& criteria, const ReportLines& lines) {
  table.require("test", "write test = \"self-heating\"");
  const auto date = table.date("date");
  const auto named = table.read("test", [&](std::string_view name) { return named_line(criteria, lines, name); });
  for (const char* key : {"value", "germinated", "control", "root", "control_root"}) table.expect(key);
  if (!named) return std::nullopt;
  std::optional<LineOfReport> line;
  if (table.has("germinated")) {
    line = read_counted_test(table, *named);
  } else {
    table.require("value", "write value = \"12 degC\"");
    line = table.read("value", [&](std::string_view text) { return line_of_report(*named, lines, text); });
  }
  if (line) std::visit([&](auto& one) { one.date = date; }, *line);
  return line;
}

/// The nearest of all that rows are called, in its plain form.
template <class Row>
std::optional<std::string> nearest_name(const std::string& plain, const std::vector<Row>& rows) {
  std::vector<std::string> names;
  for (const Row& row : rows) {
    names.insert(names.end(), {plain_name(row.id), plain_name(row.name)});
    for (const std::string& name : row.also) names.push_back(plain_name(name));
  }
  return nearest(plain, names);
}

/// Whether a name that is neither may be a test misspelt: where it is as near to one as to any line. Shorter ones, like the symbols of
/// elements, are a slip away from anything; judged.
bool may_be_a_test(const std::string& plain, const Criteria& criteria, const ReportLines& lines) {
  constexpr std::size_t shortest = 4;
  if (plain.size() < shortest) return false;
  const auto test = nearest_name(plain, criteria.tests);
  if (!test) return false;
  const auto line = nearest_name(plain, lines.lines);
  return !line || edit_distance(plain, *test) <= edit_distance(plain, *line);
}

template <std::size_t n>
bool any_begins_with(const std::vector<std::string>& words, const std::array<std::string_view, n>& beginnings) {
  return std::any_of(words.begin(), words.end(), [&](const std::string& word) {
    return std::any_of(beginnings.begin(), beginnings.end(), [&](std::string_view beginning) { return word.starts_with(beginning); });
  });
}

bool may_tell_of_fire(const std::string& word, const std::vector<std::string>& beside) {
  const bool is_past = word == "burned" || word == "burnt";
  if (word.starts_with("burn") && any_begins_with(beside, stung_by_ammonia)) return false;
  if (is_past && any_begins_with(beside, burned_by_compost)) return false;
  if (word.starts_with("glow") && any_begins_with(beside, glows_by_itself)) return false;
  if (word == "smoker" || word == "smokers") return false;
  if (word == "fire" && any_begins_with(beside, std::array<std::string_view, 1>{"ant"})) return false;
  return std::find(words_of_fire.begin(), words_of_fire.end(), word) != words_of_fire.end() ||
         std::any_of(signs_of_fire.begin(), signs_of_fire.end(), [&](std::string_view sign) { return word.starts_with(sign); });
}

/// "Burning hot" is a sign by that very name; a slip, as of "glows" for "grows", is not.
bool is_its_own_name(const std::vector<Symptom>& symptoms, std::string_view text) {
  const std::string plain = plain_name(text);
  return std::any_of(symptoms.begin(), symptoms.end(), [&](const Symptom& symptom) {
    return std::any_of(symptom.also.begin(), symptom.also.end(), [&](const std::string& name) { return plain_name(name) == plain; });
  });
}

bool denies(const std::string& word) { return word == "no" || word == "not" || word == "without" || word == "isnt"; }

/// "The thermometer reads 172", "165 F": a number of degrees Fahrenheit above which a pile is too hot, and of nothing else.
bool tells_of_great_heat(std::string_view text) {
  constexpr int least = 161;
  constexpr int most = 230;  // more is no pile's
  constexpr std::array<std::string_view, 5> of_heat{"deg", "fahrenheit", "temp", "thermometer", "hit"};
  const std::vector<std::string> words = words_of(text);
  const bool is_of_heat = any_begins_with(words, of_heat) ||
                          std::any_of(words.begin(), words.end(), [](const std::string& word) { return word == "f" || word == "reads"; });
  if (!is_of_heat) return false;
  const std::size_t begin = text.find_first_of("0123456789");
  int degrees = 0;
  for (std::size_t i = begin; i < text.size() && text[i] >= '0' && text[i] <= '9' && degrees <= most; ++i)
    degrees = 10 * degrees + (text[i] - '0');
  return degrees >= least && degrees <= most;
}

/// @throws TextError for ashes and coals that went in: hot, they set a pile alight, and nobody smells it at once
void check_ashes(const std::vector<Symptom>& symptoms, std::string_view text) {
  constexpr std::array<std::string_view, 5> ashes{"ash", "ashes", "coal", "coals", "charcoal"};
  const std::vector<std::string> words = words_of(text);
  const bool names_them = std::any_of(words.begin(), words.end(),
                                      [&](const std::string& word) { return std::find(ashes.begin(), ashes.end(), word) != ashes.end(); });
  const bool is_other = any_begins_with(words, std::array<std::string_view, 4>{"white", "gray", "grey", "tree"});  // mold, an ash tree
  if (!names_them || is_other || symptom_called(symptoms, text) != nullptr) return;
  throw TextError("hot ashes or coals can set a pile on fire: does it smoke, or smell burnt?",
                  "if so keep away, call the fire service and write \"smoke\"; if not, wet the place well, and write \"too hot\" if it is");
}

}  // namespace

bool at_or_above(TemperaturePoint bound, const CoreReading& reading) {
  if (const HandWarmth* hand = std::get_if<HandWarmth>(&reading.core)) return *hand == HandWarmth::hot;
  return std::get<TemperaturePoint>(reading.core) >= bound;
}

bool tells_of_smoke(const std::vector<Symptom>& symptoms, std::string_view text) {
  if (is_its_own_name(symptoms, text)) return false;
  const std::vector<std::string> words = words_of(text);
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (may_tell_of_fire(words[i], words) && !(i > 0 && denies(words[i - 1]))) return true;  // even of "no flames, but it smokes"
  }
  return false;
}

std::vector<std::string> read_all_noticed(const std::vector<Symptom>& symptoms, std::string_view text) {
  if (tells_of_smoke(symptoms, text)) return {smoke};
  if (tells_of_great_heat(text)) return {"too-hot"};
  check_ashes(symptoms, text);
  std::vector<std::string> ids;
  for (const Symptom* symptom : find_symptoms(symptoms, text)) ids.push_back(symptom->id);
  return ids;
}

std::string read_noticed(const std::vector<Symptom>& symptoms, std::string_view text) {
  const std::vector<std::string> ids = read_all_noticed(symptoms, text);
  return ids.size() == 1 ? ids.front() : find_symptom(symptoms, text).id;
}

bool is_smoke(const Noticed& noticed) { return noticed.symptom == smoke; }

Facts facts_of(const Observations& seen) {
  Facts facts;
  if (!seen.readings.empty()) facts.insert(Fact::readings);
  if (std::any_of(seen.readings.begin(), seen.readings.end(), [](const CoreReading& one) { return at_or_above(scalding, one); }))
    facts.insert(Fact::hot);
  if (std::any_of(seen.noticed.begin(), seen.noticed.end(), is_smoke)) facts.insert(Fact::smoke);
  return facts;
}

MaturityTest read_maturity_test(const Criteria& criteria, std::string_view test, std::string_view value) {
  return told_test(criteria.test_called(test), value);
}

NamedLine named_line(const Criteria& criteria, const ReportLines& lines, std::string_view name) {
  const TestCriterion* test = criteria.find_test(name);
  const ReportLine* line = test == nullptr ? lines.find(name) : nullptr;
  const bool is_known = test != nullptr || line != nullptr;
  if (!is_known && may_be_a_test(plain_name(name), criteria, lines)) criteria.test_called(name);  // which refuses it
  return {read_name(name), test, line};
}

LineOfReport line_of_report(const NamedLine& named, const ReportLines& lines, std::string_view value) {
  if (named.test != nullptr && !lines.is_in_place_of_a_figure(value)) return told_test(*named.test, value);
  refuse_no_number(value);
  ReportedLine line = reported_line(named.name, named.line, value);
  if (named.test != nullptr) line.test = named.test->id;
  return line;
}

void keep(Observations& seen, LineOfReport line) {
  if (MaturityTest* test = std::get_if<MaturityTest>(&line))
    seen.tests.push_back(std::move(*test));
  else
    seen.report_lines.push_back(std::move(std::get<ReportedLine>(line)));
}

HouseholdCheck read_household_check(const Criteria& criteria, std::string_view check, std::string_view result) {
  return {one_of(check_words(criteria), check, "household check"), one_of(result_words, result, "result of a check"), std::nullopt};
}

Observations read_observations(Table& root, std::optional<Date> built, const Lazy<Criteria>& criteria,
                               const Lazy<ReportLines>& report_lines, const Lazy<std::vector<Symptom>>& symptoms) {
  Observations seen;
  const auto is_before = [&](const std::optional<Date>& date) { return date && built && *date < *built; };
  for (Table& table : root.tables("noticed")) {
    table.require("symptom", "write symptom = \"ammonia-smell\"");
    const auto symptom = table.read("symptom", [&](std::string_view text) { return read_noticed(*symptoms, text); });
    const auto date = table.date("date");
    if (symptom) {
      const Noticed noticed{*symptom, date};
      (is_before(date) && !is_smoke(noticed) ? seen.noticed_before_built : seen.noticed).push_back(noticed);
    }
    table.finish();
  }
  for (Table& table : root.tables("reading")) {
    table.require("date", "write date = 2026-11-12");
    table.require("core", "write core = \"128 degF\", or \"hot\", \"warm\" or \"cold\" by hand");
    const auto date = table.date("date");
    const auto core = table.read("core", read_core).value_or(std::nullopt);
    if (core) (is_before(date) ? seen.readings_before_built : seen.readings).push_back({date, *core});
    table.finish();
  }
  std::optional<Table> maturity = root.table("maturity");
  if (!maturity) return seen;
  for (Table& table : maturity->tables("test")) {
    if (auto line = read_line_of_report(table, *criteria, *report_lines)) keep(seen, std::move(*line));
    table.finish();
  }
  for (Table& table : maturity->tables("check")) {
    table.require("check", "write check = \"no-reheat\"");
    table.require("result", "write result = \"passed\" or \"failed\"");
    const auto check = table.one_of("check", check_words(*criteria));
    const auto result = table.one_of("result", result_words);
    const auto date = table.date("date");
    if (check && result) seen.checks.push_back({*check, *result, date});
    table.finish();
  }
  maturity->finish();
  return seen;
}

}  // namespace heapwright
