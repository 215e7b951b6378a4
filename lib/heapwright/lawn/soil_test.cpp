#include "heapwright/lawn/soil_test.hpp"

#include "heapwright/input/document.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// What the laboratory's text means, as far as its words are known.
void read_phosphorus(Table& table, SoilTest& test, const NutrientKnowledge& knowledge) {
  const auto read_words = [](std::string_view text) { return text.empty() ? std::string() : read_name(text); };
  test.phosphorus = table.read("phosphorus", read_words).value_or("");
  if (test.phosphorus.empty()) return;
  if (const PhosphorusWord* word = phosphorus_word_in(test.phosphorus, knowledge)) {
    test.phosphorus_level = word->id;
    test.phosphorus_is_high = word->hold;
  } else if (const auto meant = misspelt_phosphorus_word(test.phosphorus, knowledge)) {
    table.problem_at("phosphorus", "\"" + test.phosphorus + "\" is no laboratory's word that is known here",
                     "did you mean \"" + *meant + "\"? Else ask the laboratory whether it is low, medium or high, and write that");
  }
}

NitrogenPerArea read_nitrogen_per_area(std::string_view text) { return read_mass_per_area(text) * (unit::kg_nitrogen / unit::kg); }

}  // namespace

std::optional<SoilTest> read_soil_test(Table& root, const NutrientKnowledge& knowledge) {
  std::optional<Table> table = root.table("soil_test");
  if (!table) return std::nullopt;
  SoilTest test;
  test.date = table->date("date");
  read_phosphorus(*table, test, knowledge);
  test.nitrogen_recommended = table->read("nitrogen_recommended", read_nitrogen_per_area);
  table->finish();
  return test;
}

bool is_figure_alone(const SoilTest& test) {
  return test.phosphorus_level.empty() && test.phosphorus.find_first_of("0123456789") != std::string::npos;
}

SoilTestAge age_of(const SoilTest& test, const std::optional<Date>& today, const NutrientKnowledge& knowledge) {
  if (!test.date || !today) return SoilTestAge::not_known;
  const std::chrono::sys_days taken(*test.date);
  const std::chrono::sys_days now(*today);
  if (taken > now) return SoilTestAge::after_today;
  const std::chrono::sys_days until(*test.date + std::chrono::years(knowledge.soil_test_years));  // Feb 29 ends on Mar 1
  return until < now ? SoilTestAge::too_old : SoilTestAge::holds;
}

}  // namespace heapwright
