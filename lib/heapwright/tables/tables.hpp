#pragma once
/// All that is looked up, as one object that is passed where it is needed.

#include <string>
#include <vector>

#include "heapwright/lawn/sheet_lines.hpp"
#include "heapwright/materials/materials.hpp"
#include "heapwright/maturity/criteria.hpp"
#include "heapwright/maturity/report_line.hpp"
#include "heapwright/maturity/symptoms.hpp"
#include "heapwright/process/climate.hpp"
#include "heapwright/process/parameters.hpp"
#include "heapwright/season/chore.hpp"

namespace heapwright {

struct Question;  // materials/question.hpp: only the guide asks

/// Each table is read when it is first asked for. Copies share them; answers point into them.
struct Tables {
  Materials materials;
  Lazy<Criteria> criteria;
  Lazy<ReportLines> report_lines;
  Lazy<std::vector<Symptom>> symptoms;
  Lazy<std::vector<NamedClimate>> climates;
  Lazy<ProcessEnsemble> ensemble;
  Lazy<SheetLines> sheet_lines;
  Lazy<std::vector<ChoreText>> chores;
  Lazy<std::vector<Question>> questions;
};

/// The tables that come with the program, each read once in its run.
Tables built_in_tables();

/// The same, and on them the rows of a file of one's own: of any table but the ensemble, whose figures hang together, and the questions,
/// whose answers the program has to understand. A row whose id is known takes the place of that one. @throws InputError
Tables tables_with(const std::string& own_file);

}  // namespace heapwright
