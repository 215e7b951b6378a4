#include "heapwright/lawn/sheet_lines.hpp"

#include "heapwright/lawn/topdressing.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, SheetPart>> sheet_part_words{{"access", SheetPart::access}, {"ask", SheetPart::ask},
                                                                      {"look", SheetPart::look},     {"fetch", SheetPart::fetch},
                                                                      {"before", SheetPart::before}, {"work", SheetPart::work}};

void read_sheet_line(Table& table, SheetLine& row) {
  row = SheetLine{*table.text("id"), {}, {}, {}, {}, {}};
  table.require("part", "write part = \"ask\"");
  row.part = table.one_of("part", sheet_part_words).value_or(SheetPart::access);
  table.require("text", "write text = \"…\"");
  row.text = table.text("text").value_or("");
  row.surface = table.one_of("surface", surface_words());
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::own);
}

void read_seed_rate(Table& table, SeedRate& row) {
  row = SeedRate{*table.text("id"), {}, {}, {}, {}};
  row.name = table.read("name", read_name).value_or(row.id);
  row.grass = table.one_of("grass", grass_words()).value_or(Grass::cool_season);
  row.surface = table.one_of("surface", surface_words()).value_or(Surface::lawn);
  table.require("rate", "write rate = { low = \"3 lb/1000ft2\", high = \"4 lb/1000ft2\" }");
  if (const auto rate = table.find("rate")) row.rate = read_published_value(*rate, read_mass_per_area);
  if (!row.rate.low || !row.rate.high) table.problem("a seed needs the low and the high of its rate", "write low = \"3 lb/1000ft2\" too");
}

}  // namespace

void read_sheet_lines(Table& root, SheetLines& lines) {
  read_rows(root, "sheet_line", lines.lines, read_sheet_line);
  read_rows(root, "seed", lines.seeds, read_seed_rate);
}

SheetLines built_in_sheet_lines() { return read_built_in("order_sheet.toml", read_sheet_lines); }

}  // namespace heapwright
