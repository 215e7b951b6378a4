#include "heapwright/materials/nutrients.hpp"

#include <algorithm>
#include <array>

#include "heapwright/input/words.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

using Phrase = std::vector<std::string>;

NitrogenRelease read_nitrogen_release(Table& table) {
  NitrogenRelease row;
  table.require("carbon_to_nitrogen_at_most", "write carbon_to_nitrogen_at_most = \"20:1\"");
  row.at_most = table.read("carbon_to_nitrogen_at_most", read_carbon_to_nitrogen).value_or(row.at_most);
  if (const auto share = table.find("first_year")) row.first_year = read_published_value(*share, read_freed_share);
  const bool whole = !row.first_year || (row.first_year->typical && row.first_year->low && row.first_year->high);
  if (!whole) table.problem_at("first_year", "a share needs typical, low and high", "leave it out where nitrogen is tied up");
  row.note = table.text("note").value_or("");
  table.finish();
  return row;
}

Finding read_finding(Table& table) {
  Finding finding;
  finding.text = table.text("text").value_or("");
  finding.source = table.text("source").value_or("");
  finding.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::judged);
  return finding;
}

void read_release_table(Table& root, NutrientKnowledge& knowledge) {
  std::vector<NitrogenRelease> rows;
  for (Table& table : root.tables("nitrogen_release")) {
    rows.push_back(read_nitrogen_release(table));
    const bool rises = rows.size() < 2 || rows[rows.size() - 2].at_most < rows.back().at_most;
    if (!rises) table.problem_at("carbon_to_nitrogen_at_most", "is not above that of the row before", "list the rows by rising C:N");
  }
  if (!rows.empty()) knowledge.nitrogen_release = std::move(rows);
}

void read_findings(Table& root, NutrientKnowledge& knowledge) {
  for (Table& table : root.tables("nitrogen_finding")) {
    knowledge.nitrogen_findings.push_back(read_finding(table));
    table.finish();
  }
  if (std::optional<Table> table = root.table("salts")) {
    knowledge.salts = read_finding(*table);
    table->finish();
  }
}

void read_how_long_it_holds(Table& root, NutrientKnowledge& knowledge) {
  std::optional<Table> table = root.table("soil_test_holds");
  if (!table) return;
  const double years = table->number("years").value_or(knowledge.soil_test_years);
  if (!(years >= 1.0 && years <= 50.0)) {
    table->problem_at("years", "a soil test holds for 1 to 50 years", "write years = 3");
  } else {
    knowledge.soil_test_years = static_cast<int>(years);
  }
  knowledge.soil_test_years_of = read_finding(*table);
  table->finish();
}

void read_phosphorus_word(Table& table, PhosphorusWord& row) {
  row.hold = table.flag("hold").value_or(row.hold);
  row.words = read_names(table, "words");
}

/// What stands around a laboratory's word and says nothing.
bool is_filler_of_a_report(const std::string& word) {
  static constexpr std::array<std::string_view, 14> fillers{"phosphorus", "phosphoru", "p",   "range", "level", "category", "rating",
                                                            "class",      "is",        "the", "soil",  "test",  "status",   "result"};
  return std::find(fillers.begin(), fillers.end(), word) != fillers.end();
}

Phrase phrase_of(std::string_view text) {
  Phrase words = words_of(text);
  std::erase_if(words, is_filler_of_a_report);
  return words;
}

/// The parts of a text between commas, brackets and strokes: "62 ppm (very high)" in two.
std::vector<std::string_view> parts_of(std::string_view text) {
  constexpr std::string_view between = ",;:()[]/=";
  std::vector<std::string_view> parts;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find_first_of(between), text.size());
    parts.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return parts;
}

bool has_figure(std::string_view text) { return text.find_first_of("0123456789") != std::string_view::npos; }

/// Beside a figure a word stands at an end: "62 ppm, Mehlich 3, very high". Of a letter nobody knows there whether it is a word: the M of
/// "M3" is a method.
bool begins_or_ends_with(const Phrase& text, const Phrase& word) {
  const bool fits = word.size() <= text.size() && (word.size() > 1 || word.front().size() > 1);
  return fits && (std::equal(word.begin(), word.end(), text.begin()) || std::equal(word.rbegin(), word.rend(), text.rbegin()));
}

bool says(std::string_view part, const Phrase& word) {
  const Phrase phrase = phrase_of(part);
  return has_figure(part) ? begins_or_ends_with(phrase, word) : phrase == word;
}

/// The longest of the words of a row that a part says: how many words it has; none where it says none.
std::size_t longest_said(std::string_view part, const PhosphorusWord& row) {
  std::size_t longest = 0;
  for (const std::string& known : row.words) {
    const Phrase word = phrase_of(known);
    if (!word.empty() && says(part, word)) longest = std::max(longest, word.size());
  }
  return longest;
}

/// "above optimum" ends with "optimum" and is another word: the longest one counts.
const PhosphorusWord* word_of(std::string_view part, const std::vector<PhosphorusWord>& rows) {
  const PhosphorusWord* said = nullptr;
  std::size_t longest = 0;
  for (const PhosphorusWord& row : rows) {
    const std::size_t length = longest_said(part, row);
    if (length > longest) said = &row;
    longest = std::max(longest, length);
  }
  return said;
}

std::string joined_words(const Phrase& phrase) {
  std::string text;
  for (const std::string& word : phrase) text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

FreedShare FreedShare::of(double value) {
  if (!(value >= -1.0 && value <= 1.0)) throw DomainError("a share of nitrogen lies between −1 and 1");
  return FreedShare(value);
}

FreedShare read_freed_share(std::string_view text) {
  const bool below_zero = text.starts_with('-');
  const double share = read_percentage(below_zero ? text.substr(1) : text);
  return FreedShare::of(below_zero ? -share : share);
}

void read_nutrients(Table& root, NutrientKnowledge& knowledge) {
  read_release_table(root, knowledge);
  read_findings(root, knowledge);
  read_how_long_it_holds(root, knowledge);
  read_rows(root, "phosphorus_word", knowledge.phosphorus_words, read_phosphorus_word);
}

const NitrogenRelease* release_at(const NutrientKnowledge& knowledge, CarbonNitrogenRatio ratio) {
  if (!is_positive(ratio)) throw DomainError("a C:N is above zero");
  const auto found = std::find_if(knowledge.nitrogen_release.begin(), knowledge.nitrogen_release.end(),
                                  [&](const NitrogenRelease& row) { return at_most(row.at_most, ratio); });
  return found == knowledge.nitrogen_release.end() ? nullptr : &*found;
}

const PhosphorusWord* phosphorus_word_in(std::string_view text, const NutrientKnowledge& knowledge) {
  const PhosphorusWord* said = nullptr;
  for (const std::string_view part : parts_of(text)) {
    const PhosphorusWord* word = word_of(part, knowledge.phosphorus_words);
    if (word != nullptr && (said == nullptr || (word->hold && !said->hold))) said = word;
  }
  return said;
}

std::optional<std::string> misspelt_phosphorus_word(std::string_view text, const NutrientKnowledge& knowledge) {
  constexpr std::size_t too_short_to_tell = 2;
  if (has_figure(text) || joined_words(phrase_of(text)).size() <= too_short_to_tell) return std::nullopt;
  std::vector<std::string> known;
  for (const PhosphorusWord& row : knowledge.phosphorus_words) known.insert(known.end(), row.words.begin(), row.words.end());
  return nearest(joined_words(phrase_of(text)), known);
}

}  // namespace heapwright
