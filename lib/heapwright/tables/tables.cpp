#include "heapwright/tables/tables.hpp"

#include "heapwright/materials/question.hpp"
#include "heapwright/materials/rows.hpp"

namespace heapwright {
Tables built_in_tables() {
  static const Tables tables{built_in_materials(),
                             Lazy<Criteria>(built_in_criteria),
                             Lazy<ReportLines>(built_in_report_lines),
                             Lazy<std::vector<Symptom>>(built_in_symptoms),
                             Lazy<std::vector<NamedClimate>>(built_in_climates),
                             Lazy<ProcessEnsemble>(built_in_ensemble),
                             Lazy<SheetLines>(built_in_sheet_lines),
                             Lazy<std::vector<ChoreText>>(built_in_chores),
                             Lazy<std::vector<Question>>(built_in_questions)};
  return tables;
}

Tables tables_with(const std::string& own_file) {
  Tables tables = built_in_tables();
  Problems problems;
  const Document document = Document::from_file(own_file, problems);
  Table root = document.root();
  add_rows(root, tables.materials);
  read_onto(root, tables.criteria, read_criteria);
  read_onto(root, tables.report_lines, read_report_lines);
  read_onto(root, tables.symptoms, read_symptoms);
  read_onto(root, tables.climates, read_climates);
  read_onto(root, tables.sheet_lines, read_sheet_lines);
  read_onto(root, tables.chores, read_chores);
  root.finish();
  problems.throw_if_any();
  return tables;
}

}  // namespace heapwright
