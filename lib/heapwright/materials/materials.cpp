#include "heapwright/materials/materials.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/embedded.hpp"
#include "heapwright/materials/read_readings.hpp"
#include "heapwright/units/nearest.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr double least_carbon = 0.20;
constexpr double most_carbon = 0.60;
constexpr double rounding = 1e-12;  // 2.5 % × 24:1 is 60 %, in doubles a little more

BulkDensity read_some_density(std::string_view text) {
  const BulkDensity density = read_bulk_density(text);
  if (!(density.value() > 0.0)) throw TextError("\"" + std::string(text) + "\" is no weight", "write a weight above zero: \"350 lb/yd3\"");
  return density;
}

std::string read_name(std::string_view text) {
  if (text.find_first_not_of(" \t") == std::string_view::npos) throw TextError("a name is empty", "write a name");
  const bool control = std::any_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
  if (control) throw TextError("a name has a control character in it", "write it in letters, on one line");
  return std::string(text);
}

std::vector<std::string> read_names(Table& table, std::string_view key) {
  std::vector<std::string> names;
  for (const Value& value : table.list(key)) {
    if (const auto name = value.read(read_name)) names.push_back(*name);
  }
  return names;
}

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

std::string percent(double fraction) { return print_number(100.0 * fraction, 3) + " %"; }

/// How carbon came about, for the error that refuses it.
std::string carbon_arithmetic(const Feedstock& row, CarbonDryBasis carbon) {
  if (!row.carbon.empty() && row.carbon.front().typical) return "carbon is " + percent(carbon.value());
  return "nitrogen " + percent(used(row.nitrogen)->value()) + " × C:N " + print_number(used(row.carbon_to_nitrogen)->value(), 4) +
         " = carbon " + percent(carbon.value());
}

void check_carbon(Table& table, const Feedstock& row) {
  const auto carbon = row.used_carbon();
  if (!carbon || row.feedstock_class == FeedstockClass::mineral) return;
  const auto nitrogen = row.used_nitrogen();
  if (nitrogen && carbon->value() + nitrogen->value() > 1.0)
    table.problem(
        "carbon " + percent(carbon->value()) + " and nitrogen " + percent(nitrogen->value()) + " are more than all of the dry matter",
        "is the C:N upside down? It is carbon to nitrogen, \"30:1\"");
  const auto organic = used(row.volatile_solids);
  if (organic && organic->value() < carbon->value())
    table.problem_at("volatile_solids_dry_basis", "is less than the carbon in it, " + percent(carbon->value()),
                     "organic matter is about 1.8 times its carbon");
  if (nitrogen && !(nitrogen->value() > 0.0))
    table.problem_at("nitrogen_dry_basis", "nothing that grew is without nitrogen: its C:N would have no end",
                     "give its C:N, or class = \"mineral\"");
  if (carbon->value() >= least_carbon - rounding && carbon->value() <= most_carbon + rounding) return;
  table.problem(carbon_arithmetic(row, *carbon) + " of dry matter, outside 20–60 %",
                "a published nitrogen and a published C:N are averages of different samples: give measured carbon, or (100 − ash %)/1.8, "
                "and one of the two");
}

/// A third of carbon, nitrogen and C:N is a check: it must agree with the other two within the rounding of all three.
void check_third(Table& table, const Feedstock& row) {
  const std::optional<Value> nitrogen = table.find("nitrogen_dry_basis");
  const bool published_list = nitrogen && nitrogen->is_list();
  if (published_list || !used(row.carbon) || !used(row.nitrogen) || !used(row.carbon_to_nitrogen)) return;
  const double expected = used(row.carbon)->value() / used(row.nitrogen)->value();
  const double given = used(row.carbon_to_nitrogen)->value();
  const double allowed = row.carbon.front().rounding + row.nitrogen.front().rounding + row.carbon_to_nitrogen.front().rounding;
  if (std::abs(given / expected - 1.0) <= allowed) return;
  table.problem_at("carbon_to_nitrogen",
                   "carbon " + percent(used(row.carbon)->value()) + " over nitrogen " + percent(used(row.nitrogen)->value()) + " is " +
                       print_number(expected, 4) + ":1, not " + print_number(given, 4) + ":1",
                   "give two of the three, or three that agree");
}

void check_density(Table& table, const Feedstock& row) {
  const auto properties = row.properties();
  if (!properties) return;
  const BulkDensity most = density_without_air(properties->moisture, properties->particle_density);
  for (const Packing& packing : row.packings) {
    const auto density = used(packing.readings);
    if (!density || *density <= most) continue;
    table.problem_at("bulk_density",
                     packing.name + ": " + print_number(density->value(), 4) +
                         " kg/m3 is more than its own solids and water weigh without any air, " + print_number(most.value(), 4) + " kg/m3",
                     "check the density and the moisture");
  }
}

void read_packings(Table& table, Feedstock& row) {
  const std::optional<Value> value = table.find("bulk_density");
  if (!value) return;
  const bool one_reading = !value->is_table() || value->table().has("typical");
  if (one_reading) {
    row.packings.push_back({"as-is", read_readings(table, "bulk_density", read_some_density)});
    return;
  }
  Table packings = value->table();
  for (const std::string& name : packings.keys()) row.packings.push_back({name, read_readings(packings, name, read_some_density)});
}

/// The packing used where a user names none: as the row says, else the only or first one.
void settle_usual_packing(Table& table, Feedstock& row) {
  const auto named = table.text("usual_packing");
  if (named && row.find_packing(*named) == nullptr)
    table.problem_at("usual_packing", "\"" + *named + "\" is no packing of bulk_density", "name one of its packings");
  if (named) {
    row.usual_packing = *named;
    return;
  }
  for (const Packing& packing : row.packings) {
    if (row.usual_packing.empty() && used(packing.readings)) row.usual_packing = packing.name;
  }
}

std::optional<Degradable> read_degradable(Table& table) {
  std::optional<Table> shares = table.table("degradable");
  if (!shares) return std::nullopt;
  const auto fast = read_readings(*shares, "fast", read_fraction<OfVolatileSolids>);
  const auto slow = read_readings(*shares, "slow", read_fraction<OfVolatileSolids>);
  shares->finish();
  if (fast.size() != 1 || slow.size() != 1) {
    shares->problem("a degradable share has two parts", "write { fast = \"45 %\", slow = \"35 %\" }");
    return std::nullopt;
  }
  if (used(fast) && used(slow) && used(fast)->value() + used(slow)->value() > 1.0 + rounding)
    shares->problem("fast and slow together are more than all of it", "they are shares of the volatile solids");
  return Degradable{fast.front(), slow.front()};
}

const std::vector<std::pair<std::string, FeedstockClass>>& class_words() {
  static const std::vector<std::pair<std::string, FeedstockClass>> words{{"must-go", FeedstockClass::must_go},
                                                                         {"clippings", FeedstockClass::clippings},
                                                                         {"keeper", FeedstockClass::keeper},
                                                                         {"supplement", FeedstockClass::supplement},
                                                                         {"mineral", FeedstockClass::mineral}};
  return words;
}

/// A row that replaces one keeps its everyday names and its tags, which call for its cautions, unless it gives its own.
void read_feedstock(Table& table, Feedstock& row) {
  const Feedstock replaced = std::exchange(row, Feedstock{});
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  row.feedstock_class = table.one_of("class", class_words()).value_or(FeedstockClass::keeper);
  row.tags = read_names(table, "tags");
  if (!table.has("also")) row.also = replaced.also;
  if (!table.has("tags")) row.tags = replaced.tags;
  row.note = table.text("note").value_or("");
  row.like = table.text("like").value_or("");
  row.moisture = read_readings(table, "moisture_wet_basis", read_moisture_wet_basis);
  row.carbon = read_readings(table, "carbon_dry_basis", read_carbon_dry_basis);
  row.carbon_to_nitrogen = read_readings(table, "carbon_to_nitrogen", read_carbon_to_nitrogen);
  row.nitrogen = read_readings(table, "nitrogen_dry_basis", read_nitrogen_dry_basis);
  row.volatile_solids = read_readings(table, "volatile_solids_dry_basis", read_organic_dry_basis);
  row.ash = read_readings(table, "ash_dry_basis", read_fraction<OfDryMatter>);
  row.particle_density = table.read("particle_density", read_particle_density);
  row.degradable = read_degradable(table);
  read_packings(table, row);
  settle_usual_packing(table, row);
  if (row.particle_density && !(row.particle_density->value() >= 500.0 && row.particle_density->value() <= 5000.0)) {
    table.problem_at("particle_density", "is outside 500–5000 kg/m3", "dry plant matter has about 1500 kg/m3, without its air");
    row.particle_density.reset();
  }
  check_third(table, row);
  check_carbon(table, row);
  check_density(table, row);
}

void read_compost(Table& table, Compost& row) {
  row = Compost{};
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  row.note = table.text("note").value_or("");
  row.moisture = read_readings(table, "moisture_wet_basis", read_moisture_wet_basis);
  row.bulk_density = read_readings(table, "bulk_density", read_some_density);
  row.carbon_to_nitrogen = read_readings(table, "carbon_to_nitrogen", read_carbon_to_nitrogen);
  row.organic_matter = read_readings(table, "organic_matter_dry_basis", read_organic_dry_basis);
  row.nitrogen = read_readings(table, "nitrogen_dry_basis", read_nitrogen_dry_basis);
  row.phosphate = read_readings(table, "phosphate_dry_basis", read_phosphate_dry_basis);
  row.potash = read_readings(table, "potash_dry_basis", read_potash_dry_basis);
  // How far a compost goes and what a heap leaves of it hang on these two.
  if (!used(row.moisture) || !(used(row.moisture)->value() < 1.0))
    table.problem("a compost needs its moisture, below 100 %", "write moisture_wet_basis = \"45 %\"");
  if (!used(row.bulk_density) || !(used(row.bulk_density)->value() > 0.0))
    table.problem("a compost needs its weight", "write bulk_density = \"1000 lb/yd3\"");
}

void read_container(Table& table, Container& row) {
  row = Container{};
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  const auto volume = read_readings(table, "volume", read_volume);
  if (volume.size() == 1 && used(volume) && used(volume)->value() > 0.0) {
    row.volume = *used(volume);
  } else {
    table.problem("a container needs one volume above zero", "write volume = \"5 gal\"");
  }
  row.packing = table.text("packing").value_or("");
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::own);
  row.note = table.text("note").value_or("");
  for (const char* key : {"low", "high"}) table.read(key, read_volume);
}

void read_source(Table& table, Source& row) {
  row = Source{};
  row.id = *table.text("id");
  row.title = table.text("title").value_or(row.id);
  row.kind = table.text("kind").value_or("");
  row.note = table.text("note").value_or("");
  table.number("year");
}

void read_caution(Table& table, Caution& row) {
  row = Caution{};
  row.id = *table.text("id");
  table.require("text", "write text = \"…\"");
  row.text = table.text("text").value_or("");
  row.step = table.text("step").value_or("");
  row.source = table.text("source").value_or("");
  row.evidence = table.one_of("evidence", evidence_words()).value_or(Evidence::judged);
}

void read_yield(Table& root, YieldRule& rule) {
  std::optional<Table> table = root.table("yield");
  if (!table) return;
  if (const auto lost = table->find("volatile_solids_lost"))
    rule.volatile_solids_lost = read_reading(*lost, read_fraction<OfVolatileSolids>);
  if (const auto held = table->find("held_back_by_screen")) rule.held_back_by_screen = read_reading(*held, read_fraction<OfVolume>);
  const auto whole = [](const auto& reading) { return reading.typical && reading.low && reading.high; };
  if (!whole(rule.volatile_solids_lost) || !whole(rule.held_back_by_screen))
    table->problem("a yield needs typical, low and high", "write { typical = \"55 %\", low = \"40 %\", high = \"70 %\" }");
  table->finish();
}

void read_all(Document& document, Materials& materials) {
  Table root = document.root();
  read_rows(root, "source", materials.sources, read_source);
  read_rows(root, "container", materials.containers, read_container);
  read_rows(root, "compost", materials.composts, read_compost);
  read_rows(root, "caution", materials.cautions, read_caution);
  read_rows(root, "feedstock", materials.feedstocks, read_feedstock);
  read_yield(root, materials.yield);
  root.finish();
}

/// Rows that are like others take their tags, so that they call for the same cautions.
void take_tags_of_likes(Materials& materials, Document& document) {
  Table root = document.root();
  for (Table& table : root.tables("feedstock")) {
    const auto id = table.text("id");
    const auto tags = table.read("like", [&](std::string_view name) { return find_feedstock(materials, name).tags; });
    if (!id || !tags || table.has("tags")) continue;
    for (Feedstock& row : materials.feedstocks) {
      if (row.id == *id && row.tags.empty()) row.tags = *tags;
    }
  }
}

template <class Row>
bool answers_to(const Row& row, const std::string& plain) {
  if (plain_name(row.id) == plain || plain_name(row.name) == plain) return true;
  return std::any_of(row.also.begin(), row.also.end(), [&](const std::string& name) { return plain_name(name) == plain; });
}

/// Words of what no heap at home should get: never answered with the name of something that may go in.
bool names_what_stays_out(std::string_view name) {
  std::string words = " ";
  for (const char c : name)
    words += std::isalpha(static_cast<unsigned char>(c)) != 0 ? static_cast<char>(std::tolower(static_cast<unsigned char>(c))) : ' ';
  words += ' ';
  for (const std::string word : {"dog",    "cat", "pet", "human",   "diaper",   "meat",     "bone", "fish", "dairy", "cheese", "milk",
                                 "grease", "fat", "oil", "treated", "diseased", "charcoal", "coal", "ash",  "ashes", "plastic"}) {
    if (words.find(" " + word + " ") != std::string::npos || words.find(" " + word + "s ") != std::string::npos) return true;
  }
  return false;
}

/// An id wins over an everyday name, so that a user's own row is always reached by its id.
template <class Row>
const Row& find_row(const std::vector<Row>& rows, std::string_view name, const std::string& kind) {
  const auto by_id = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == name; });
  if (by_id != rows.end()) return *by_id;
  const std::string plain = plain_name(name);
  const auto by_name = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return answers_to(row, plain); });
  if (by_name != rows.end()) return *by_name;
  std::vector<std::string> known;
  for (const Row& row : rows) {
    known.push_back(row.id);
    known.push_back(row.name);
    known.insert(known.end(), row.also.begin(), row.also.end());
  }
  const std::optional<std::string> near = names_what_stays_out(name) ? std::nullopt : nearest(name, known);
  throw TextError("\"" + std::string(name) + "\" is no known " + kind,
                  near ? "did you mean \"" + *near + "\"?" : "`heapwright materials` lists them all");
}

template <class Row>
const Row* row_with_id(const std::vector<Row>& rows, std::string_view id) {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace

const std::vector<std::pair<std::string, Evidence>>& evidence_words() {
  static const std::vector<std::pair<std::string, Evidence>> words{
      {"seen", Evidence::seen}, {"secondary", Evidence::secondary}, {"memory", Evidence::memory}, {"judged", Evidence::judged}};
  return words;
}

double relative_rounding(std::string_view text) {
  const std::size_t begin = text.find_first_of("0123456789.");
  if (begin == std::string_view::npos) return 0.0;
  const std::string_view digits = text.substr(begin, text.find_first_not_of("0123456789.", begin) - begin);
  const std::size_t point = digits.find('.');
  const auto decimals = point == std::string_view::npos ? 0 : static_cast<int>(digits.size() - point - 1);
  double value = 0.0;
  for (const char digit : digits) {
    if (digit != '.') value = 10.0 * value + (digit - '0');
  }
  value /= std::pow(10.0, decimals);
  return value > 0.0 ? 0.5 * std::pow(10.0, -decimals) / value : 0.0;
}

Materials built_in_materials() {
  Materials materials;
  for (const char* file : {"sources.toml", "containers.toml", "cautions.toml", "composts.toml", "feedstocks.toml", "process.toml"}) {
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
  take_tags_of_likes(materials, document);
  problems.throw_if_any();
}

const Feedstock& find_feedstock(const Materials& materials, std::string_view name) {
  return find_row(materials.feedstocks, name, "feedstock");
}
const Compost& find_compost(const Materials& materials, std::string_view name) { return find_row(materials.composts, name, "compost"); }
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

}  // namespace heapwright
