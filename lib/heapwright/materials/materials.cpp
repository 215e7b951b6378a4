#include "heapwright/materials/materials.hpp"

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/embedded.hpp"
#include "heapwright/materials/read_feedstock.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The row at an id, made where there is none.
template <class Row>
Row& row_of(std::vector<Row>& rows, const std::string& id) {
  const auto known = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  if (known != rows.end()) return *known;
  rows.emplace_back().id = id;
  return rows.back();
}

/// Walks the tables of a key, each with its id, which must be there and unlike the others of the file.
template <class Row, class ReadRow>
void read_rows(Table& root, std::string_view key, std::vector<Row>& rows, ReadRow read_row) {
  std::vector<std::string> seen;
  for (Table& table : root.tables(key)) {
    table.require("id", "write id = \"a-short-name\"");
    const auto id = table.read("id", read_name);
    if (!id) continue;
    if (std::find(seen.begin(), seen.end(), *id) != seen.end())
      table.problem_at("id", "\"" + *id + "\" stands twice in this file", "give each row an id of its own");
    seen.push_back(*id);
    read_row(table, row_of(rows, *id));
    table.finish();
  }
}

/// No more than its own solids and water weigh without any air; where its organic matter is not known, as if it were all ash.
void check_weight(Table& table, const Compost& row) {
  const auto moisture = used(row.moisture);
  const auto density = used(row.bulk_density);
  if (!moisture || !density) return;
  const auto organic = used(row.organic_matter);
  const BulkDensity most = density_without_air(*moisture, organic ? particle_density_of(*organic) : ash_particle_density());
  if (*density <= most) return;
  table.problem_at("bulk_density",
                   print_number(density->value(), 4) + " kg/m3 is more than its own solids and water weigh without any air, " +
                       print_number(most.value(), 4) + " kg/m3",
                   "check the density and the moisture");
}

void read_compost(Table& table, Compost& row) {
  row = Compost{};
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  row.note = table.text("note").value_or("");
  row.moisture = read_published_values(table, "moisture_wet_basis", read_moisture_wet_basis);
  row.bulk_density = read_published_values(table, "bulk_density", read_some_density);
  row.carbon_to_nitrogen = read_published_values(table, "carbon_to_nitrogen", read_carbon_to_nitrogen);
  row.organic_matter = read_published_values(table, "organic_matter_dry_basis", read_organic_dry_basis);
  row.nitrogen = read_published_values(table, "nitrogen_dry_basis", read_nitrogen_dry_basis);
  row.phosphate = read_published_values(table, "phosphate_dry_basis", read_phosphate_dry_basis);
  row.potash = read_published_values(table, "potash_dry_basis", read_potash_dry_basis);
  // How far a compost goes and what a pile leaves of it hang on these two.
  if (!used(row.moisture) || !(used(row.moisture)->value() < 1.0))
    table.problem("a compost needs its moisture, below 100 %", "write moisture_wet_basis = \"45 %\"");
  if (!used(row.bulk_density) || !is_positive(*used(row.bulk_density)))
    table.problem("a compost needs its weight", "write bulk_density = \"1000 lb/yd3\"");
  check_weight(table, row);
}

void read_container(Table& table, Container& row) {
  row = Container{};
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  const auto volume = read_published_values(table, "volume", read_volume);
  if (volume.size() == 1 && used(volume) && is_positive(*used(volume))) {
    row.volume = *used(volume);
  } else {
    table.problem("a container needs one volume above zero", "write volume = \"5 gal\"");
  }
  row.low = table.read("low", read_volume);
  row.high = table.read("high", read_volume);
  if ((row.low && *row.low > row.volume) || (row.high && *row.high < row.volume) || (row.low && !is_positive(*row.low)))
    table.problem("low, volume and high are out of order", "low ≤ volume ≤ high");
  row.lifted = table.flag("lifted").value_or(true);
  row.packing = table.text("packing").value_or("");
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::own);
  row.note = table.text("note").value_or("");
}

void read_source(Table& table, Source& row) {
  row = Source{};
  row.id = *table.text("id");
  row.title = table.text("title").value_or(row.id);
  row.in_short = table.text("in_short").value_or(row.title);
  row.kind = table.text("kind").value_or("");
  row.note = table.text("note").value_or("");
  table.number("year");
}

void read_caution(Table& table, Caution& row) {
  row = Caution{};
  row.id = *table.text("id");
  table.require("text", "write text = \"…\"");
  row.text = table.text("text").value_or("");
  table.require("in_short", "write its text in a few words");
  row.in_short = table.text("in_short").value_or("");
  row.harms = table.flag("harms").value_or(false);
  for (const Value& value : table.list("when")) {
    if (const auto fact = value.one_of(fact_words())) row.when.push_back(*fact);
  }
  row.first = table.flag("first").value_or(false);
  row.step = table.text("step").value_or("");
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::judged);
}

/// A file may add to what stays out, and takes nothing away.
void read_keep_out(Table& table, KeepOut& row) {
  if (!row.name.empty()) table.problem_at("id", "stays out whatever a file says", "give the row an id of its own");
  row = KeepOut{};
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  row.words = read_names(table, "words");
  table.require("reason", "write reason = \"…\"");
  table.require("instead", "write instead = \"…\"");
  row.reason = table.text("reason").value_or("");
  row.instead = table.text("instead").value_or("");
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::judged);
}

void read_yield(Table& root, YieldRule& rule) {
  std::optional<Table> table = root.table("yield");
  if (!table) return;
  if (const auto lost = table->find("volatile_solids_lost"))
    rule.volatile_solids_lost = read_published_value(*lost, read_fraction<OfVolatileSolids>);
  if (const auto held = table->find("held_back_by_screen")) rule.held_back_by_screen = read_published_value(*held, read_fraction<OfVolume>);
  if (const auto moisture = table->find("moisture_at_use")) rule.moisture_at_use = read_published_value(*moisture, read_moisture_wet_basis);
  if (const auto organic = table->find("organic_density")) rule.organic_density = read_published_value(*organic, read_some_density);
  if (const auto mineral = table->find("mineral_density")) rule.mineral_density = read_published_value(*mineral, read_some_density);
  rule.density_spread = table->number("density_spread").value_or(0.0);
  const bool lies = rule.organic_density.typical && rule.mineral_density.typical && rule.density_spread > 0.0;
  if (!lies) table->problem("a yield needs organic_density, mineral_density and density_spread", "write density_spread = 0.24");
  const auto whole = [](const auto& published) { return published.typical && published.low && published.high; };
  if (!whole(rule.volatile_solids_lost) || !whole(rule.held_back_by_screen) || !whole(rule.moisture_at_use))
    table->problem("a yield needs typical, low and high", "write { typical = \"55 %\", low = \"40 %\", high = \"70 %\" }");
  table->finish();
}

void read_all(Document& document, Materials& materials) {
  Table root = document.root();
  read_rows(root, "source", materials.sources, read_source);
  read_rows(root, "container", materials.containers, read_container);
  read_rows(root, "compost", materials.composts, read_compost);
  read_rows(root, "caution", materials.cautions, read_caution);
  read_rows(root, "keep_out", materials.keep_out, read_keep_out);
  read_rows(root, "feedstock", materials.feedstocks, [](Table& table, Feedstock& row) {
    read_feedstock(table, row);
    check_feedstock(table, row);
  });
  read_rough(root, materials.rough);
  read_yield(root, materials.yield);
  root.finish();
}

/// Rows that are like others call for the same cautions and rot as they do, unless they say otherwise; and hold no more nitrogen than such
/// a thing can.
void take_after_likes(Materials& materials, Document& document) {
  Table root = document.root();
  for (Table& table : root.tables("feedstock")) {
    const auto id = table.text("id");
    const auto like = table.read("like", [&](std::string_view name) { return find_feedstock(materials, name); });
    if (!id) continue;
    for (Feedstock& row : materials.feedstocks) {
      if (row.id != *id) continue;
      check_nitrogen(table, row, like ? *like : row);
      if (!like) continue;
      if (row.tags.empty() && !table.has("tags")) row.tags = like->tags;
      if (!row.rots_like) row.rots_like = like->rots_like;
    }
  }
}

/// A row of one's own is no way around what stays out.
void refuse_what_stays_out(const Materials& materials, Document& document) {
  Table root = document.root();
  for (Table& table : root.tables("feedstock")) {
    const auto refuse = [&](std::string_view name) {
      const KeepOut* row = what_stays_out(materials, name);
      if (row != nullptr) throw TextError("\"" + std::string(name) + "\" stays out of the pile: " + row->reason, row->instead);
      return true;
    };
    table.read("id", refuse);
    table.read("name", refuse);
    for (const Value& also : table.list("also")) also.read(refuse);
  }
}

template <class Row>
const Row* row_with_id(const std::vector<Row>& rows, std::string_view id) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

Materials built_in_materials() {
  Materials materials;
  for (const char* file :
       {"sources.toml", "containers.toml", "cautions.toml", "keep_out.toml", "composts.toml", "feedstocks.toml", "rough.toml"}) {
    Problems problems;
    Document document = Document::from_text(std::string(embedded_material(file)), file, problems);
    read_all(document, materials);
    problems.throw_if_any();
  }
  return materials;
}

void add_materials_file(Materials& materials, const std::string& path) {
  Problems problems;
  Document document = Document::from_file(path, problems);
  read_all(document, materials);
  take_after_likes(materials, document);
  refuse_what_stays_out(materials, document);
  problems.throw_if_any();
}

const Feedstock* feedstock_with_id(const Materials& materials, std::string_view id) { return row_with_id(materials.feedstocks, id); }
const Source* find_source(const Materials& materials, std::string_view id) { return row_with_id(materials.sources, id); }
const Caution* find_caution(const Materials& materials, std::string_view id) { return row_with_id(materials.cautions, id); }

std::string source_words(const Materials& materials, std::string_view source, Evidence evidence) {
  if (evidence == Evidence::own) return "your own figure";
  if (evidence == Evidence::memory) return "common handbook figure, not re-checked";
  if (evidence == Evidence::judged) return source == "common-practice" ? "common practice, no source" : "judged by us";
  const Source* found = find_source(materials, source);
  const std::string title = found != nullptr ? found->title : std::string(source);
  return evidence == Evidence::secondary ? title + " (as quoted elsewhere)" : title;
}

std::string source_in_short(const Materials& materials, std::string_view source, Evidence evidence) {
  if (evidence == Evidence::own) return "your own figure";
  if (evidence == Evidence::memory) return "from memory";
  if (evidence == Evidence::judged) return source == "common-practice" ? "common practice" : "judged";
  const Source* found = find_source(materials, source);
  return (found != nullptr ? found->in_short : std::string(source)) + ", " + std::string(evidence_word(evidence));
}

}  // namespace heapwright
