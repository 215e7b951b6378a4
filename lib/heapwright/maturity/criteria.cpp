#include "heapwright/maturity/criteria.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, TestKind>> test_kind_words{{"screen", TestKind::screening},
                                                                    {"stability", TestKind::stability},
                                                                    {"maturity", TestKind::maturity},
                                                                    {"property", TestKind::property}};

/// Of those that begin alike the longer one first.
constexpr std::array<std::pair<std::string_view, Bound::Side>, 16> side_words{{{"below ", Bound::Side::below},
                                                                               {"less than ", Bound::Side::below},
                                                                               {"under ", Bound::Side::below},
                                                                               {"at most ", Bound::Side::at_most},
                                                                               {"up to ", Bound::Side::at_most},
                                                                               {"<=", Bound::Side::at_most},
                                                                               {"≤", Bound::Side::at_most},
                                                                               {"<", Bound::Side::below},
                                                                               {"above ", Bound::Side::above},
                                                                               {"more than ", Bound::Side::above},
                                                                               {"greater than ", Bound::Side::above},
                                                                               {"over ", Bound::Side::above},
                                                                               {"at least ", Bound::Side::at_least},
                                                                               {">=", Bound::Side::at_least},
                                                                               {"≥", Bound::Side::at_least},
                                                                               {">", Bound::Side::above}}};

bool is_upper(Bound::Side side) { return side == Bound::Side::below || side == Bound::Side::at_most; }
bool takes_its_value(Bound::Side side) { return side == Bound::Side::at_most || side == Bound::Side::at_least; }

std::string required_text(Table& table, std::string_view key) {
  table.require(key, "each row has one");
  return table.text(key).value_or("");
}

/// The note is for those who read the table.
Provenance read_provenance(Table& table) {
  Provenance whose;
  whose.source = required_text(table, "source");
  table.require("evidence", "write evidence = \"seen\", \"secondary\", \"memory\" or \"judged\"");
  whose.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::judged);
  whose.what = table.text("what").value_or("");
  table.expect("note");
  return whose;
}

std::optional<Bound> bound_at(Table& table, std::string_view key, TestQuantity measured) {
  return table.read(key, [&](std::string_view text) { return read_bound(measured, text); });
}

std::vector<Scale> read_scales(Table& table, TestQuantity measured) {
  std::vector<Scale> scales;
  for (Value& value : table.list("scale")) {
    Table row = value.table();
    row.require("mature", "write mature = \"at most …\"");
    const std::optional<Bound> very_mature = bound_at(row, "very_mature", measured);
    const std::optional<Bound> mature = bound_at(row, "mature", measured);
    const Provenance whose = read_provenance(row);
    if (mature) scales.push_back({very_mature, *mature, whose});
    row.finish();
  }
  return scales;
}

std::vector<HeatingClass> read_classes(Table& table, TestQuantity measured) {
  std::vector<HeatingClass> classes;
  for (Value& value : table.list("classes")) {
    Table row = value.table();
    const std::string name = required_text(row, "class");
    const std::optional<Bound> rise = bound_at(row, "rise", measured);
    const Provenance whose = read_provenance(row);
    if (rise) classes.push_back({name, *rise, whose});
    row.finish();
  }
  return classes;
}

void read_test_criterion(Table& table, TestCriterion& test) {
  table.require("kind", "write kind = \"stability\"");
  table.require("measured", "write measured = \"temperature-rise\"");
  test.kind = table.one_of("kind", test_kind_words).value_or(test.kind);
  test.by_plants = table.flag("by_plants").value_or(false);
  test.measured = table.one_of("measured", measured_words()).value_or(test.measured);
  test.name = required_text(table, "name");
  test.also = read_names(table, "also");
  test.how = required_text(table, "how");
  test.scales = read_scales(table, test.measured);
  test.classes = read_classes(table, test.measured);
}

TurfLimit read_turf_limit(Table& row, const TestCriterion& test) {
  const auto bound = [&](std::string_view key, Bound::Side side) -> std::optional<Bound> {
    const auto value = row.read(key, [&](std::string_view text) { return read_test_value(test.measured, text); });
    return value ? std::optional(Bound{side, *value}) : std::nullopt;
  };
  const auto low = bound("low", Bound::Side::at_least);
  const auto above = bound("above", Bound::Side::above);
  const auto high = bound("high", Bound::Side::at_most);
  const auto below = bound("below", Bound::Side::below);
  if ((low && above) || (high && below)) row.problem("limits a side twice", "write low or above, and high or below");
  if (!low && !above && !high && !below) row.problem("limits nothing", "write low, above, high or below");
  return {test.id, required_text(row, "whose"), low ? low : above, high ? high : below, read_provenance(row)};
}

/// The limits of a property, in place of those that it had.
void read_turf(Table& root, Criteria& criteria) {
  for (Table& table : root.tables("turf")) {
    const std::string property = required_text(table, "property");
    const TestCriterion* test = row_with_id(criteria.tests, property);
    if (test == nullptr) table.problem_at("property", "is no test", "name the id of a [[test]]");
    if (test == nullptr) continue;
    std::erase_if(criteria.turf, [&](const TurfLimit& limit) { return limit.property == property; });
    for (Value& item : table.list("limits")) {
      Table row = item.table();
      criteria.turf.push_back(read_turf_limit(row, *test));
      row.finish();
    }
    table.finish();
  }
}

void read_check_criterion(Table& table, CheckCriterion& check) {
  check.name = required_text(table, "name");
  check.how = required_text(table, "how");
  check.passed = required_text(table, "passed");
  check.failed = required_text(table, "failed");
  check.whose = read_provenance(table);
}

void read_next_step(Table& table, NextStep& step) {
  step.text = required_text(table, "text");
  step.whose = read_provenance(table);
}

void read_rating_reason(Table& table, RatingReason& reason) {
  reason.text = required_text(table, "text");
  reason.whose = read_provenance(table);
}

std::chrono::seconds read_seconds(std::string_view text) { return std::chrono::seconds(std::llround(read_duration(text) / unit::s)); }

std::optional<Burst> read_burst(Table& table) {
  constexpr std::array<std::string_view, 3> keys{"burst_above", "burst_length", "burst_readings_apart"};
  if (std::none_of(keys.begin(), keys.end(), [&](std::string_view key) { return table.find(key).has_value(); })) return std::nullopt;
  for (const std::string_view key : keys) table.require(key, "a burst has burst_above, burst_length and burst_readings_apart");
  const auto above = table.read("burst_above", read_temperature);
  const auto length = table.read("burst_length", read_seconds);
  const auto apart = table.read("burst_readings_apart", read_seconds);
  return above && length && apart ? std::optional(Burst{*above, *length, *apart}) : std::nullopt;
}

void read_rule(Table& table, TimeTemperatureRule& rule) {
  table.require("at_least", "write at_least = \"55 degC\"");
  table.require("length", "write length = \"3 days\"");
  rule.name = required_text(table, "name");
  rule.at_least = table.read("at_least", read_temperature).value_or(rule.at_least);
  rule.at_most = table.read("at_most", read_temperature);
  rule.length = table.read("length", read_seconds).value_or(rule.length);
  rule.turnings = static_cast<int>(std::lround(table.number("turnings").value_or(0.0)));
  rule.burst = read_burst(table);
  rule.whose = read_provenance(table);
}

void read_starting_ratio(Table& root, StartingRatioRule& rule) {
  std::optional<Table> table = root.table("starting_carbon_to_nitrogen");
  if (!table) return;
  rule.id = required_text(*table, "id");
  rule.name = required_text(*table, "name");
  if (const auto low = table->read("low", read_carbon_to_nitrogen)) rule.low = *low;
  if (const auto high = table->read("high", read_carbon_to_nitrogen)) rule.high = *high;
  rule.whose = read_provenance(*table);
  table->finish();
}

void read_not_in_a_row(Table& root, CountedOtherwise& other) {
  std::optional<Table> table = root.table("not_in_a_row");
  if (!table) return;
  other.text = required_text(*table, "text");
  other.whose = read_provenance(*table);
  table->finish();
}

void read_dies_at(Table& table, DiesAt& row) {
  table.require("pest", "write pest = \"weed-seeds\"");
  table.require("at_least", "write at_least = \"55 degC\"");
  row.pest = table.one_of("pest", pest_words()).value_or(row.pest);
  row.at_least = table.read("at_least", read_temperature).value_or(row.at_least);
  row.at_most = table.read("at_most", read_temperature);
  row.length = table.read("length", read_seconds);
  row.found = required_text(table, "found");
  row.whose = read_provenance(table);
  if (row.at_most && !(*row.at_most >= row.at_least)) table.problem_at("at_most", "is below at_least", "leave it out, or swap them");
  if (row.length && *row.length <= std::chrono::seconds(0)) table.problem_at("length", "is no time", "write length = \"3 days\"");
}

void read_only_what_was_hot(Table& root, OnlyWhatWasHot& caution) {
  std::optional<Table> table = root.table("only_what_was_hot");
  if (!table) return;
  caution.text = required_text(*table, "text");
  caution.whose = read_provenance(*table);
  table->finish();
}

/// All that a test goes by.
std::vector<std::string> names_of(const TestCriterion& test) {
  std::vector<std::string> names{test.id, test.name};
  names.insert(names.end(), test.also.begin(), test.also.end());
  return names;
}

[[noreturn]] void refuse_unknown(const std::vector<TestCriterion>& tests, std::string_view name) {
  std::vector<std::string> plain_names;
  std::vector<std::string> ids;
  std::string list;
  for (const TestCriterion& test : tests) {
    list += (list.empty() ? "" : ", ") + test.id;
    for (const std::string& one : names_of(test)) {
      plain_names.push_back(plain_name(one));
      ids.push_back(test.id);
    }
  }
  std::string hint;
  if (const auto near = nearest(plain_name(name), plain_names)) {
    const auto at = std::find(plain_names.begin(), plain_names.end(), *near) - plain_names.begin();
    hint = "did you mean \"" + ids[static_cast<std::size_t>(at)] + "\"? ";
  }
  throw TextError("\"" + std::string(name) + "\" is no known test", hint + "It is one of " + list);
}

}  // namespace

const std::vector<std::pair<std::string, Pest>>& pest_words() {
  static const std::vector<std::pair<std::string, Pest>> words{
      {"weed-seeds", Pest::weed_seeds}, {"plant-diseases", Pest::plant_diseases}, {"germs", Pest::germs}, {"worms", Pest::worms}};
  return words;
}

bool Bound::holds(const TestValue& measured) const {
  const std::partial_ordering order = compare(measured, value);
  switch (side) {
    case Side::below: return std::is_lt(order);
    case Side::at_most: return std::is_lteq(order);
    case Side::above: return std::is_gt(order);
    case Side::at_least: return std::is_gteq(order);
  }
  return false;
}

std::optional<bool> Bound::holds(const TestValue& measured, std::optional<Side> told) const {
  if (!told) return holds(measured);
  const std::partial_ordering order = compare(measured, value);
  const bool all_would_be_good = is_upper(side) == is_upper(*told);
  // Bounds of one value: all is inside unless only what is told takes the value in, all outside unless both do.
  const bool settled_at_edge =
      all_would_be_good ? takes_its_value(side) || !takes_its_value(*told) : !(takes_its_value(side) && takes_its_value(*told));
  const bool settled = is_upper(*told) ? std::is_lt(order) : std::is_gt(order);
  if (settled || (std::is_eq(order) && settled_at_edge)) return all_would_be_good;
  return std::nullopt;
}

bool meets(const StartingRatioRule& rule, CarbonNitrogenRatio ratio) {
  constexpr double hair = 1e-9;  // as it is shown: 24.5 is 25, whichever way it was worked out
  const double shown = std::round(ratio.value() + hair);
  return shown >= rule.low.value() && shown <= rule.high.value();
}

const Scale* TestCriterion::scale_for(const TestValue& value) const {
  const auto found = std::find_if(scales.begin(), scales.end(), [&](const Scale& scale) { return scale.mature.is_of_type_of(value); });
  return found == scales.end() ? nullptr : &*found;
}

const TestCriterion* Criteria::find_test(std::string_view name) const {
  const std::string plain = plain_name(name);
  const auto found = std::find_if(tests.begin(), tests.end(), [&](const TestCriterion& test) { return is_called(test, plain); });
  return found == tests.end() ? nullptr : &*found;
}

const TestCriterion& Criteria::test_called(std::string_view name) const {
  if (const TestCriterion* test = find_test(name)) return *test;
  refuse_unknown(tests, name);
}

void read_criteria(Table& root, Criteria& criteria) {
  read_rows(root, "rule", criteria.rules, read_rule);
  read_not_in_a_row(root, criteria.not_in_a_row);
  read_starting_ratio(root, criteria.starting_carbon_to_nitrogen);
  read_rows(root, "test", criteria.tests, read_test_criterion);
  read_turf(root, criteria);
  read_rows(root, "check", criteria.checks, read_check_criterion);
  read_rows(root, "step", criteria.steps, read_next_step);
  read_rows(root, "rating_reason", criteria.reasons, read_rating_reason);
  read_rows(root, "dies_at", criteria.dies_at, read_dies_at);
  read_only_what_was_hot(root, criteria.only_what_was_hot);
}

Criteria built_in_criteria() { return read_built_in("criteria.toml", read_criteria); }

ToldValue told_value(std::string_view text) {
  const auto begins_with_letters_of = [&](std::string_view word) {
    return text.size() >= word.size() && std::equal(word.begin(), word.end(), text.begin(), [](char wanted, char found) {
             return wanted == (found >= 'A' && found <= 'Z' ? static_cast<char>(found - 'A' + 'a') : found);
           });
  };
  text.remove_prefix(std::min(text.find_first_not_of(' '), text.size()));
  for (const auto& [word, side] : side_words) {
    if (begins_with_letters_of(word)) return {side, text.substr(word.size())};
  }
  return {std::nullopt, text};
}

Bound read_bound(TestQuantity measured, std::string_view text) {
  if (const ToldValue told = told_value(text); told.told) return {*told.told, read_test_value(measured, told.value)};
  throw TextError("\"" + std::string(text) + "\" is no bound", "write \"below …\", \"at most …\", \"above …\" or \"at least …\"");
}

}  // namespace heapwright
