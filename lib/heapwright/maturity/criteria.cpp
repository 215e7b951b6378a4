#include "heapwright/maturity/criteria.hpp"

#include "heapwright/materials/embedded.hpp"
#include "heapwright/materials/read_readings.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

StartingRatioRule read_starting_ratio(Table& root) {
  StartingRatioRule rule;
  std::optional<Table> table = root.table("starting_carbon_to_nitrogen");
  if (!table) return rule;
  rule.id = table->text("id").value_or("");
  rule.name = table->text("name").value_or("");
  if (const auto low = table->read("low", read_carbon_to_nitrogen)) rule.low = *low;
  if (const auto high = table->read("high", read_carbon_to_nitrogen)) rule.high = *high;
  rule.source = table->text("source").value_or("");
  rule.evidence = table->one_of("evidence", evidence_words()).value_or(Evidence::judged);
  table->finish();
  return rule;
}

Criteria read_criteria() {
  Problems problems;
  Document document = Document::from_text(std::string(embedded_material("criteria.toml")), "criteria.toml", problems);
  Table root = document.root();
  Criteria criteria;
  criteria.rules = read_rules(root);
  criteria.starting_carbon_to_nitrogen = read_starting_ratio(root);
  root.finish();
  problems.throw_if_any();
  return criteria;
}

}  // namespace

const Criteria& built_in_criteria() {
  static const Criteria criteria = read_criteria();
  return criteria;
}

}  // namespace heapwright
