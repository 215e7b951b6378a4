#include "heapwright/materials/materials.hpp"

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/read_feedstock.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/materials/rows.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// No more than its own solids and water weigh without any air; where its organic matter is not known, as if it were all ash.
void check_weight(Table& table, const Compost& row) {
  const auto moisture = used(row.moisture);
  const auto density = used(row.bulk_density);
  if (!moisture || !density) return;
  const auto organic = used(row.organic_matter);
  const BulkDensity most = density_without_air(*moisture, organic ? particle_density_of(*organic) : ash_particle_density());
  if (*density <= most) return;
  table.problem_at("bulk_density",
                   print_density(*density, 4) + " is more than its own solids and water weigh without any air, " + print_density(most, 4),
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
  if (!used(row.moisture) || !(*used(row.moisture) < wet_basis(1.0)))
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
  row.packings = read_names(table, "packing");
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
  if (const auto organic = table->find("organic_density")) rule.organic_density = read_published_value(*organic, read_dry_density);
  if (const auto mineral = table->find("mineral_density")) rule.mineral_density = read_published_value(*mineral, read_dry_density);
  rule.density_spread = table->number("density_spread").value_or(0.0);
  const bool lies = rule.organic_density.typical && rule.mineral_density.typical && rule.density_spread > 0.0;
  if (!lies) table->problem("a yield needs organic_density, mineral_density and density_spread", "write density_spread = 0.24");
  const auto whole = [](const auto& published) { return published.typical && published.low && published.high; };
  if (!whole(rule.volatile_solids_lost) || !whole(rule.held_back_by_screen) || !whole(rule.moisture_at_use))
    table->problem("a yield needs typical, low and high", "write { typical = \"55 %\", low = \"40 %\", high = \"70 %\" }");
  table->finish();
}

void read_sources(Table& root, std::vector<Source>& rows) { read_rows(root, "source", rows, read_source); }
void read_containers(Table& root, std::vector<Container>& rows) { read_rows(root, "container", rows, read_container); }
void read_composts(Table& root, std::vector<Compost>& rows) { read_rows(root, "compost", rows, read_compost); }
void read_cautions(Table& root, std::vector<Caution>& rows) { read_rows(root, "caution", rows, read_caution); }
void read_keep_outs(Table& root, std::vector<KeepOut>& rows) { read_rows(root, "keep_out", rows, read_keep_out); }
void read_feedstocks(Table& root, std::vector<Feedstock>& rows) {
  read_rows(root, "feedstock", rows, [](Table& table, Feedstock& row) {
    read_feedstock(table, row);
    check_feedstock(table, row);
  });
}

/// Rows that are like others call for the same cautions and rot as they do, unless they say otherwise; and hold no more nitrogen than such
/// a thing can.
void take_after_likes(Table& root, Materials& materials) {
  std::vector<Feedstock> rows = *materials.feedstocks;
  for (Table& table : root.tables("feedstock")) {
    const auto id = table.text("id");
    const auto like = table.read("like", [&](std::string_view name) { return find_feedstock(materials, name); });
    const auto counted_in = table.read("usual_container", [&](std::string_view name) {
      const Container* container = find_container(*materials.containers, name);
      if (container == nullptr) throw TextError("\"" + std::string(name) + "\" is no known container", "name one, or add a [[container]]");
      return container->id;
    });
    if (!id) continue;
    for (Feedstock& row : rows) {
      if (row.id != *id) continue;
      if (counted_in) row.usual_container = *counted_in;
      check_nitrogen(table, row, like ? *like : row);
      if (!like) continue;
      if (row.tags.empty() && !table.has("tags")) row.tags = like->tags;
      if (!row.rots_like) row.rots_like = like->rots_like;
    }
  }
  materials.feedstocks = Lazy(std::move(rows));
}

/// A row of one's own is no way around what stays out.
void refuse_what_stays_out(Table& root, const Materials& materials) {
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

}  // namespace

Materials built_in_materials() {
  return {
      built_in("feedstocks.toml", read_feedstocks), built_in("composts.toml", read_composts), built_in("containers.toml", read_containers),
      built_in("sources.toml", read_sources),       built_in("cautions.toml", read_cautions), built_in("keep_out.toml", read_keep_outs),
      built_in("rough.toml", read_rough),           built_in("yield.toml", read_yield),       built_in("nutrients.toml", read_nutrients)};
}

void add_rows(Table& root, Materials& materials) {
  read_onto(root, materials.sources, read_sources);
  read_onto(root, materials.containers, read_containers);
  read_onto(root, materials.composts, read_composts);
  read_onto(root, materials.cautions, read_cautions);
  read_onto(root, materials.keep_out, read_keep_outs);
  read_onto(root, materials.feedstocks, read_feedstocks);
  read_onto(root, materials.rough, read_rough);
  read_onto(root, materials.yield, read_yield);
  read_onto(root, materials.nutrients, read_nutrients);
  take_after_likes(root, materials);
  refuse_what_stays_out(root, materials);
}

std::string source_words(const Materials& materials, std::string_view source, Evidence evidence) {
  if (evidence == Evidence::own) return "your own figure";
  if (evidence == Evidence::memory) return "common handbook figure, not re-checked";
  if (evidence == Evidence::judged) return source == "common-practice" ? "common practice, no source" : "judged by us";
  const Source* found = row_with_id(*materials.sources, source);
  const std::string title = found != nullptr ? found->title : std::string(source);
  return evidence == Evidence::secondary ? title + " (as quoted elsewhere)" : title;
}

std::string source_in_short(const Materials& materials, std::string_view source, Evidence evidence) {
  if (evidence == Evidence::own) return "your own figure";
  if (evidence == Evidence::memory) return "from memory";
  if (evidence == Evidence::judged) return source == "common-practice" ? "common practice" : "judged";
  const Source* found = row_with_id(*materials.sources, source);
  return (found != nullptr ? found->in_short : std::string(source)) + ", " + std::string(evidence_word(evidence));
}

}  // namespace heapwright
