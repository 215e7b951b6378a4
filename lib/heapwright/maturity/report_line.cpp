#include "heapwright/maturity/report_line.hpp"

#include <algorithm>
#include <array>

#include "heapwright/input/document.hpp"
#include "heapwright/input/words.hpp"
#include "heapwright/materials/called.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, LineQuantity>> line_quantity_words{
    {"content", LineQuantity::content},           {"share", LineQuantity::share}, {"microbes", LineQuantity::microbes},
    {"bulk-density", LineQuantity::bulk_density}, {"size", LineQuantity::size},   {"words", LineQuantity::words}};

std::string wanted_text(Table& table, std::string_view key) {
  table.require(key, "each row has one");
  return table.text(key).value_or("");
}

/// The note is for those who read the table.
Provenance read_whose(Table& table) {
  table.expect("note");
  table.require("evidence", "write evidence = \"seen\", \"secondary\", \"memory\" or \"judged\"");
  return {wanted_text(table, "source"), table.one_of("evidence", evidence_words()).value_or(Evidence::judged), {}};
}

std::optional<LineLimit> read_limit(Table& row) {
  std::optional<Table> table = row.table("limit");
  if (!table) return std::nullopt;
  const std::string written = wanted_text(*table, "bound");
  const auto bound = table->read("bound", [](std::string_view text) { return read_bound(TestQuantity::microbe_count, text); });
  const std::string beyond = wanted_text(*table, "beyond");
  const std::string for_whom = wanted_text(*table, "for_whom");
  const Provenance whose = read_whose(*table);
  table->finish();
  return bound ? std::optional(LineLimit{*bound, written, whose, beyond, for_whom}) : std::nullopt;
}

void read_report_line(Table& table, ReportLine& line) {
  table.require("quantity", "write quantity = \"content\"");
  line.name = wanted_text(table, "name");
  line.also = read_names(table, "also");
  line.words = read_names(table, "words");
  line.quantity = table.one_of("quantity", line_quantity_words).value_or(line.quantity);
  line.what = wanted_text(table, "what");
  line.limit = read_limit(table);
  line.may_harm = table.flag("may_harm").value_or(false);
  if (line.limit && line.quantity != LineQuantity::microbes)
    table.problem_at("limit", "is of no count of microbes", "only those have limits here: quantity = \"microbes\"");
  line.whose = read_whose(table);
}

/// "Lead (Pb)" is "Lead".
std::string without_parenthesis(std::string_view name) { return std::string(name.substr(0, name.find(" ("))); }

/// "Total lead" and "lead, total" are "lead".
bool is_line_called(const ReportLine& line, const std::string& plain) {
  constexpr std::string_view before = "total";
  constexpr std::string_view behind = ",total";
  return is_called(line, plain) || (plain.starts_with(before) && is_called(line, plain.substr(before.size()))) ||
         (plain.ends_with(behind) && is_called(line, plain.substr(0, plain.size() - behind.size())));
}

bool has_word_of(const ReportLine& line, const std::vector<std::string>& words) {
  return std::any_of(line.words.begin(), line.words.end(),
                     [&](const std::string& word) { return std::find(words.begin(), words.end(), plain_name(word)) != words.end(); });
}

/// Their plain forms.
std::vector<std::string_view> units_of(LineQuantity quantity) {
  switch (quantity) {
    case LineQuantity::content: return {"%", "percent", "pct", "mg/kg", "ppm", "g/kg", "ug/kg", "µg/kg", "ppb", "lb/ton"};
    case LineQuantity::share: return {"%", "percent", "pct"};
    case LineQuantity::microbes: return {"mpn/g", "mpn/4g", "mpn/10g", "mpn/100g", "cfu/g"};
    case LineQuantity::bulk_density:
      return {"lb/yd3",  "lb/cuyd",  "lbs/yd3", "lbs/cuyd", "lb/cubicyard", "lbs/cubicyard", "lb/ft3", "lb/cuft",
              "lbs/ft3", "lbs/cuft", "kg/m3",   "g/cm3",    "g/cc",         "g/ml",          "kg/l",   "g/l"};
    case LineQuantity::size: return {"in", "inch", "mm", "cm"};
    case LineQuantity::words: return {};
  }
  return {};
}

/// "mg/kg as received" is "mg/kg" too.
std::string without_basis(std::string_view plain_unit) {
  const std::string unit = without_dry_basis(plain_unit);
  for (const std::string_view basis : {"asreceived", "asi", "freshweight", "wetweight", "wetbasi", "fresh", "wet"}) {
    if (unit.ends_with(basis)) return unit.substr(0, unit.size() - basis.size());
  }
  return unit;
}

bool is_told_in(LineQuantity quantity, std::string_view unit) {
  const std::vector<std::string_view> units = units_of(quantity);
  return std::find(units.begin(), units.end(), without_basis(plain_unit(unit))) != units.end();
}

bool begins_with_a_digit(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" ");
  return first != std::string_view::npos && (text[first] == '.' || (text[first] >= '0' && text[first] <= '9'));
}

/// The unit at the end of a value, in its own letters: what is read of it is in small ones.
std::string unit_as_written(std::string_view value, const std::string& unit) {
  value = value.substr(0, value.find_last_not_of(' ') + 1);
  const std::string_view end = value.substr(value.size() - std::min(value.size(), unit.size()));
  return plain_unit(end) == plain_unit(unit) ? std::string(end) : unit;
}

std::optional<ReportFigure> figure_in(std::string_view text) {
  const ToldValue told = told_value(text);
  if (!begins_with_a_digit(told.value)) return std::nullopt;
  const CountedWords words = read_counted_words(told.value);
  return ReportFigure{words.number, unit_as_written(told.value, words.words), told.told};
}

LineStanding standing_under(const LineLimit& limit, const ReportedLine& reported) {
  if (!reported.figure) return LineStanding::not_comparable;
  const std::optional<MicrobeCount> count = microbe_count(reported.figure->number, plain_unit(reported.figure->unit));
  const std::optional<bool> holds = count ? limit.bound.holds(*count, reported.figure->told) : std::nullopt;
  if (!holds) return LineStanding::not_comparable;
  return *holds ? LineStanding::within_limit : LineStanding::beyond_limit;
}

/// Shorter names, like the symbols of elements, are a slip away from anything; judged.
std::string line_near_to(std::string_view name, const ReportLines& lines) {
  constexpr std::size_t shortest = 4;
  const std::string plain = plain_name(name);
  if (plain.size() < shortest) return "";
  std::vector<std::string> names;
  for (const ReportLine& line : lines.lines) names.push_back(plain_name(line.name));
  const std::optional<std::string> near = nearest(plain, names);
  if (!near) return "";
  return lines.lines[static_cast<std::size_t>(std::find(names.begin(), names.end(), *near) - names.begin())].name;
}

LineStanding standing_of(const ReportedLine& reported, const ReportLine* line) {
  if (!reported.test.empty()) return LineStanding::no_figure;
  if (line == nullptr) return LineStanding::not_known;
  if (!reported.figure && figure_in(reported.written)) return LineStanding::other_unit;
  return line->limit ? standing_under(*line->limit, reported) : LineStanding::no_limit;
}

}  // namespace

const ReportLine* ReportLines::find(std::string_view name) const {
  for (const std::string& plain : {plain_name(name), plain_name(without_parenthesis(name))}) {
    const auto called = std::find_if(lines.begin(), lines.end(), [&](const ReportLine& line) { return is_line_called(line, plain); });
    if (called != lines.end()) return &*called;
  }
  const std::vector<std::string> words = words_of(name);
  const auto by_word = std::find_if(lines.begin(), lines.end(), [&](const ReportLine& line) { return has_word_of(line, words); });
  return by_word == lines.end() ? nullptr : &*by_word;
}

bool ReportLines::is_in_place_of_a_figure(std::string_view text) const {
  const std::string plain = plain_name(text);
  return std::any_of(in_place_of_a_figure.begin(), in_place_of_a_figure.end(),
                     [&](const std::string& words) { return plain_name(words) == plain; });
}

void read_report_lines(Table& root, ReportLines& lines) {
  for (std::string& words : read_names(root, "in_place_of_a_figure")) lines.in_place_of_a_figure.push_back(std::move(words));
  read_rows(root, "report_line", lines.lines, read_report_line);
}

ReportLines built_in_report_lines() { return read_built_in("report_lines.toml", read_report_lines); }

ReportedLine reported_line(std::string name, const ReportLine* line, std::string_view value) {
  ReportedLine reported{std::move(name), line == nullptr ? "" : line->id, "", read_name(value), std::nullopt};
  std::optional<ReportFigure> figure = figure_in(value);
  if (line != nullptr && figure && is_told_in(line->quantity, figure->unit)) reported.figure = std::move(figure);
  return reported;
}

std::string_view standing_word(LineStanding standing) {
  switch (standing) {
    case LineStanding::no_limit: return "no limit";
    case LineStanding::within_limit: return "within limit";
    case LineStanding::beyond_limit: return "beyond limit";
    case LineStanding::not_comparable: return "not comparable";
    case LineStanding::other_unit: return "other unit";
    case LineStanding::no_figure: return "no figure";
    case LineStanding::not_known: return "not known";
  }
  return "";
}

namespace {

/// Words that tell of none of it: "ND", "negative"; not those of a test that failed.
bool tells_of_none(const std::string& written, const ReportLines& lines) {
  return lines.is_in_place_of_a_figure(written) && !plain_name(written).starts_with("fail");
}

/// Whether somebody has to be asked about a line before the compost goes on beds.
bool is_to_be_asked_about(const ReportedLine& reported, const ReportLine* line, LineStanding stands, const ReportLines& lines) {
  if (line == nullptr || !(line->may_harm || line->limit)) return false;
  if (stands == LineStanding::within_limit || stands == LineStanding::beyond_limit) return false;
  return !tells_of_none(reported.written, lines);
}

}  // namespace

std::vector<StandingLine> standing_lines(const std::vector<ReportedLine>& reported, const ReportLines& lines) {
  std::vector<StandingLine> standing;
  for (const ReportedLine& one : reported) {
    const ReportLine* line = one.line.empty() ? nullptr : &known_row(lines.lines, one.line);
    const LineStanding stands = standing_of(one, line);
    standing.push_back({one, line, stands, stands == LineStanding::not_known ? line_near_to(one.name, lines) : "",
                        is_to_be_asked_about(one, line, stands, lines)});
  }
  return standing;
}

}  // namespace heapwright
