#include "heapwright/yard/yard.hpp"

#include <algorithm>

#include "heapwright/materials/rows.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

/// The row of a table that has a name, made where there is none.
Container& row_called(std::vector<Container>& containers, const std::string& name) {
  const auto is_it = [&](const Container& row) {
    return plain_name(row.id) == plain_name(name) || plain_name(row.name) == plain_name(name);
  };
  const auto known = std::find_if(containers.begin(), containers.end(), is_it);
  if (known != containers.end()) return *known;
  containers.insert(containers.begin(), Container());  // found before those that are also called so
  containers.front().id = name;
  return containers.front();
}

/// The yard's own containers; a name that the table knows takes its place.
void read_own_containers(Table& root, std::vector<Container>& containers) {
  constexpr std::size_t most_containers = 100;
  std::vector<Table> tables = root.tables("container");
  if (tables.size() > most_containers) {
    root.problem_at("container", "more than 100 containers", "leave out those that are not used");
    return;
  }
  std::vector<std::string> names;
  for (Table& table : tables) {
    table.require("name", "write name = \"kitchen-pail\"");
    table.require("volume", "write volume = \"1 1/2 gal\"");
    const auto name = table.read("name", read_name);
    const auto volume = table.read("volume", read_volume);
    if (volume && !is_positive(*volume)) table.problem_at("volume", "a container holds more than nothing", "write volume = \"1 1/2 gal\"");
    table.finish();
    if (!name || !volume) continue;
    if (plain_name(*name).empty() || std::find(names.begin(), names.end(), plain_name(*name)) != names.end()) {
      table.problem_at("name", "is empty or names a second container", "give each container a name of its own");
    }
    names.push_back(plain_name(*name));
    Container& own = row_called(containers, *name);
    own = Container{own.id, *name, {}, *volume, {}, {}, true, {}, {}, Evidence::own, {}};
  }
}

std::vector<std::string> read_lines(Table& table, std::string_view key) {
  constexpr std::size_t most_lines = 6;
  constexpr std::size_t longest_line = 400;
  std::vector<std::string> lines;
  for (const Value& line : table.list(key)) {
    const std::optional<std::string> text = line.read([](std::string_view words) { return std::string(words); });
    if (text && text->size() > longest_line) line.problem("has more than 400 characters", "a handout has two sides");
    if (text) lines.push_back(*text);
  }
  if (lines.size() > most_lines) table.problem_at(key, "has more than 6 lines", "a handout has two sides");
  return lines;
}

std::optional<Office> read_office(Table& root) {
  std::optional<Table> table = root.table("office");
  if (!table) return std::nullopt;
  Office office;
  table->require("name", "write name = \"…\", as it is to stand on handouts");
  office.name = table->text("name").value_or("");
  office.lines = read_lines(*table, "lines");
  office.statements = read_lines(*table, "statements");
  office.prepared_by = table->text("prepared_by").value_or("");
  office.version = table->text("version").value_or("");
  table->finish();
  return office;
}

Yard read(Document& document, Problems& problems, Tables tables) {
  Table root = document.root();
  Yard yard;
  yard.tables = std::move(tables);
  yard.title = root.text("title").value_or("");
  yard.units = root.one_of("units", shown_units_words()).value_or(ShownUnits::us);
  read_onto(root, yard.tables.materials.containers, read_own_containers);
  yard.targets = read_targets(root);
  yard.options = read_recipe_options(root);
  yard.supplies = read_supplies(root, yard.tables.materials);
  yard.loads = read_loads(root, yard.tables.materials);
  yard.climate = read_climate(root, yard.tables.climates);
  yard.pile = read_pile(root);
  yard.observations = read_observations(root, yard.pile ? yard.pile->built : std::nullopt, yard.tables.criteria, yard.tables.report_lines,
                                        yard.tables.symptoms);
  if (root.find("lawn")) yard.lawn = read_lawn(root);
  yard.jobs = read_jobs(root, yard.lawn, yard.tables.materials);
  yard.topdressing = read_topdressing(root, yard.tables.materials);
  yard.topdressing.spreads = read_spreads(root, yard.lawn, yard.topdressing, yard.tables.materials);
  yard.site = read_site(root);
  yard.office = read_office(root);
  yard.files = document.files_at("file");
  root.expect("columns");  // of a roster
  root.finish();
  problems.throw_if_any();
  return yard;
}

Yard read_over(Document document, Problems& problems, Tables tables, const std::string& base) {
  if (base.empty()) return read(document, problems, std::move(tables));
  Yard under = read_yard(base, std::move(tables));
  // The keys of a climate and of a pile belong together.
  document.lay_over(Document::from_file(base, problems), {"units", "office", "climate", "pile"}, {"targets", "recipe", "topdressing"},
                    {{"fill", "capacity"}, {"depth", "surface"}});
  return read(document, problems, std::move(under.tables));
}

}  // namespace

Yard read_yard(const std::string& path, Tables tables, const std::string& base) {
  Problems problems;
  return read_over(Document::from_file(path, problems), problems, std::move(tables), base);
}

Yard read_yard_text(const std::string& text, const std::string& name, Tables tables, const std::string& base) {
  Problems problems;
  return read_over(Document::from_text(text, name, problems), problems, std::move(tables), base);
}

Yard read_yard_to_be(const std::string& text, const std::string& path, Tables tables, const std::string& base) {
  Problems problems;
  return read_over(Document::to_be(text, path, problems), problems, std::move(tables), base);
}

}  // namespace heapwright
