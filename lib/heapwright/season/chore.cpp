#include "heapwright/season/chore.hpp"

#include "heapwright/materials/rows.hpp"

namespace heapwright {
namespace {

void read_chore(Table& table, ChoreText& row) {
  row = ChoreText{*table.text("id"), {}, {}, {}, {}, {}};
  table.require("title", "write title = \"…\"");
  table.require("text", "write text = \"…\"");
  row.title = table.text("title").value_or("");
  row.text = table.text("text").value_or("");
  row.why = table.text("why").value_or("");
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::own);
}

}  // namespace

void read_chores(Table& root, std::vector<ChoreText>& rows) { read_rows(root, "chore", rows, read_chore); }

std::vector<ChoreText> built_in_chores() { return read_built_in("calendar.toml", read_chores); }

}  // namespace heapwright
