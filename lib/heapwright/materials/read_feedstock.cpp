#include "heapwright/materials/read_feedstock.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

constexpr CarbonDryBasis least_carbon = 0.20 * (unit::kg_carbon / unit::kg_dry);
constexpr CarbonDryBasis most_carbon = 0.60 * (unit::kg_carbon / unit::kg_dry);
constexpr double rounding = 1e-12;

/// "C:N 30", within arithmetic.
std::string ratio_words(CarbonNitrogenRatio ratio) { return "C:N " + print_number(ratio / carbon_to_nitrogen(1.0), 4); }

/// How carbon came about, for the error that refuses it.
std::string carbon_arithmetic(const Feedstock& row, CarbonDryBasis carbon) {
  if (!row.carbon.empty() && row.carbon.front().typical) return "carbon is " + print_percent(carbon, 3);
  return "nitrogen " + print_percent(*used(row.nitrogen), 3) + " × " + ratio_words(*used(row.carbon_to_nitrogen)) + " = carbon " +
         print_percent(carbon, 3);
}

void check_carbon(Table& table, const Feedstock& row) {
  const auto carbon = row.used_carbon();
  if (!carbon || row.feedstock_class == FeedstockClass::mineral) return;
  const auto nitrogen = row.used_nitrogen();
  const DryMass all = 1.0 * unit::kg_dry;
  const DryMass of_carbon = as_dry_mass(all * *carbon);
  if (nitrogen && of_carbon + as_dry_mass(all * *nitrogen) > all)
    table.problem(
        "carbon " + print_percent(*carbon, 3) + " and nitrogen " + print_percent(*nitrogen, 3) + " are more than all of the dry matter",
        "is the C:N upside down? It is carbon to nitrogen, \"30:1\"");
  const auto organic = used(row.volatile_solids);
  if (organic && as_dry_mass(all * *organic) < of_carbon)
    table.problem_at("volatile_solids_dry_basis", "is less than the carbon in it, " + print_percent(*carbon, 3),
                     "organic matter is about 1.8 times its carbon");
  if (nitrogen && !is_positive(*nitrogen))
    table.problem_at("nitrogen_dry_basis", "nothing that grew is without nitrogen: its C:N would have no end",
                     "give its C:N, or class = \"mineral\"");
  if (at_least(least_carbon, *carbon) && at_most(most_carbon, *carbon)) return;  // 2.5 % × 24:1 is 60 %, in doubles a little more
  table.problem(carbon_arithmetic(row, *carbon) + " of dry matter, outside 20–60 %",
                "a published nitrogen and a published C:N are averages of different samples: give measured carbon, or (100 − ash %)/1.8, "
                "and one of the two");
}

/// A third of carbon, nitrogen and C:N is a check: it must agree with the other two within the rounding of all three.
void check_third(Table& table, const Feedstock& row) {
  const std::optional<Value> in_file = table.find("nitrogen_dry_basis");
  const bool published_list = in_file && in_file->is_list();
  const auto carbon = used(row.carbon);
  const auto nitrogen = used(row.nitrogen);
  const auto given = used(row.carbon_to_nitrogen);
  if (published_list || !carbon || !nitrogen || !given) return;
  const TypedTo typed{row.carbon.front().rounding, row.nitrogen.front().rounding, row.carbon_to_nitrogen.front().rounding};
  if (third_agrees(*carbon, *nitrogen, *given, typed)) return;
  const CarbonNitrogenRatio quotient = *carbon / *nitrogen;  // of no nitrogen it has no end
  table.problem_at("carbon_to_nitrogen",
                   "carbon " + print_percent(*carbon, 3) + " over nitrogen " + print_percent(*nitrogen, 3) + " is " +
                       (std::isfinite(quotient.value()) ? print_ratio(quotient, 4) : "no ratio") + ", not " + print_ratio(*given, 4),
                   "give two of the three, or three that agree");
}

/// All water is no feedstock: it would have no dry matter to go by.
void check_moisture(Table& table, const Feedstock& row) {
  for (const PublishedValue<MoistureWetBasis>& published : row.moisture) {
    for (const auto& moisture : {published.low, published.typical, published.high}) {
      if (moisture && !(*moisture < wet_basis(1.0)))
        return table.problem_at("moisture_wet_basis", "100 % is all water, and nothing to compost", "write it below 100 %: \"80 %\"");
    }
  }
}

/// The most that a row can weigh at any moisture of its range. Solids are mostly heavier than water, so it is the drier end that allows
/// most.
BulkDensity most_without_air(const Feedstock& row, const Properties& properties) {
  BulkDensity most = density_without_air(properties.moisture, properties.particle_density);
  for (const auto& end : {row.moisture.front().low, row.moisture.front().high}) {
    if (end) most = std::max(most, density_without_air(*end, properties.particle_density));
  }
  return most;
}

void check_density(Table& table, const Feedstock& row) {
  for (const Packing& packing : row.packings) {
    if (const auto why = why_not_density(row, packing)) table.problem_at("bulk_density", *why, "check the density and the moisture");
  }
}

void read_packings(Table& table, Feedstock& row) {
  const std::optional<Value> value = table.find("bulk_density");
  if (!value) return;
  const bool one_reading = !value->is_table() || value->table().has("typical");
  if (one_reading) {
    row.packings.push_back({"as-is", read_published_values(table, "bulk_density", read_some_density)});
    return;
  }
  Table packings = value->table();
  for (const std::string& name : packings.keys()) row.packings.push_back({name, read_published_values(packings, name, read_some_density)});
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
    if (row.usual_packing.empty() && used(packing.values)) row.usual_packing = packing.name;
  }
}

std::optional<Degradable> read_degradable(Table& table) {
  std::optional<Table> shares = table.table("degradable");
  if (!shares) return std::nullopt;
  const auto fast = read_published_values(*shares, "fast", read_fraction<OfVolatileSolids>);
  const auto slow = read_published_values(*shares, "slow", read_fraction<OfVolatileSolids>);
  shares->finish();
  if (fast.size() != 1 || slow.size() != 1) {
    shares->problem("a degradable share has two parts", "write { fast = \"45 %\", slow = \"35 %\" }");
    return std::nullopt;
  }
  if (used(fast) && used(slow) && !at_most(used(slow)->rest(), *used(fast)))
    shares->problem("fast and slow together are more than all of it", "they are shares of the volatile solids");
  return Degradable{fast.front(), slow.front()};
}

/// A day at least, a year at most.
Duration read_keeping(std::string_view text) {
  const Duration keeps = read_duration(text);
  if (!(keeps >= unit::day && keeps <= 366.0 * unit::day))
    throw TextError("\"" + std::string(text) + "\" is no time to keep", "write a day or more: \"3 days\"");
  return keeps;
}

const std::vector<std::pair<std::string, FeedstockClass>>& class_words() {
  static const std::vector<std::pair<std::string, FeedstockClass>> words{{"must-go", FeedstockClass::must_go},
                                                                         {"clippings", FeedstockClass::clippings},
                                                                         {"keeper", FeedstockClass::keeper},
                                                                         {"supplement", FeedstockClass::supplement},
                                                                         {"mineral", FeedstockClass::mineral}};
  return words;
}

}  // namespace

bool third_agrees(CarbonDryBasis carbon, NitrogenDryBasis nitrogen, CarbonNitrogenRatio ratio, const TypedTo& typed) {
  const CarbonNitrogenRatio least = carbon * (1.0 - typed.carbon) / (nitrogen * (1.0 + typed.nitrogen));
  const CarbonNitrogenRatio most =
      typed.nitrogen < 1.0 ? carbon * (1.0 + typed.carbon) / (nitrogen * (1.0 - typed.nitrogen)) : carbon_to_nitrogen(1e300);
  return ratio * (1.0 + typed.ratio) >= least * (1.0 - rounding) && ratio * (1.0 - typed.ratio) <= most * (1.0 + rounding);
}

std::optional<std::string> why_not_nitrogen(const Feedstock& row) {
  const std::string most = ", more than anything that grew: at most " + print_percent(most_nitrogen, 3);
  const auto is_too_much = [](NitrogenDryBasis nitrogen) { return nitrogen > (1.0 + rounding) * most_nitrogen; };
  const auto of_protein = [](NitrogenDryBasis nitrogen) {
    return print_percent(nitrogen, 3) + " is " + print_percent(6.25 * nitrogen, 3) + " protein";
  };
  for (const PublishedValue<NitrogenDryBasis>& published : row.nitrogen) {
    for (const auto& nitrogen : {published.low, published.typical, published.high}) {
      if (nitrogen && is_too_much(*nitrogen)) return "nitrogen " + of_protein(*nitrogen) + most;
    }
  }
  const auto carbon = used(row.carbon);
  const auto ratio = used(row.carbon_to_nitrogen);
  const auto nitrogen = row.used_nitrogen();
  if (!carbon || !ratio || !nitrogen || !is_too_much(*nitrogen)) return std::nullopt;
  return "carbon " + print_percent(*carbon, 3) + " over " + ratio_words(*ratio) + " = nitrogen " + of_protein(*nitrogen) + most;
}

std::optional<std::string> why_not_density(const Feedstock& row, const Packing& packing) {
  const auto properties = row.properties();
  if (!properties || packing.values.empty()) return std::nullopt;
  const auto is_more = [&](const std::optional<BulkDensity>& density, BulkDensity most) -> std::optional<std::string> {
    if (!density || *density <= most) return std::nullopt;
    return packing.name + ": " + print_density(*density, 4) + " is more than its own solids and water weigh without any air, " +
           print_density(most, 4);
  };
  const PublishedValue<BulkDensity>& published = packing.values.front();
  if (auto why = is_more(published.typical, density_without_air(properties->moisture, properties->particle_density))) return why;
  const BulkDensity most = most_without_air(row, *properties);
  if (auto why = is_more(published.low, most)) return why;
  return is_more(published.high, most);
}

void check_nitrogen(Table& table, const Feedstock& row, const Feedstock& like) {
  if (is_sparing(like.feedstock_class)) return;
  const auto why = why_not_nitrogen(row);
  if (!why) return;
  const bool derived = row.nitrogen.empty();
  table.problem_at(derived ? "carbon_to_nitrogen" : "nitrogen_dry_basis", *why,
                   std::string(derived ? "is the C:N too low, or upside down?" : "is it crude protein? That is 6.25 times its nitrogen.") +
                       " Of a bought fertilizer write class = \"supplement\"");
}

/// A row that replaces one keeps its class, its everyday names and its tags, which call for its cautions, unless it gives its own.
void read_feedstock(Table& table, Feedstock& row) {
  const Feedstock replaced = std::exchange(row, Feedstock{});
  row.id = *table.text("id");
  row.name = table.read("name", read_name).value_or(row.id);
  row.also = read_names(table, "also");
  row.feedstock_class = table.one_of("class", class_words()).value_or(replaced.feedstock_class);
  const LeftOver usual = replaced.name.empty() ? usual_left_over(row.feedstock_class) : replaced.left_over;
  row.left_over = table.one_of("left_over", left_over_words()).value_or(usual);
  row.tags = read_names(table, "tags");
  if (!table.has("also")) row.also = replaced.also;
  if (!table.has("tags")) row.tags = replaced.tags;
  row.easy_to_get = table.flag("easy_to_get").value_or(replaced.easy_to_get);
  row.usual_container = table.text("usual_container").value_or(replaced.usual_container);
  row.keeps = read_published_values(table, "keeps", read_keeping);
  if (!table.has("keeps")) row.keeps = replaced.keeps;
  row.note = table.text("note").value_or("");
  row.like = table.text("like").value_or("");
  row.moisture = read_published_values(table, "moisture_wet_basis", read_moisture_wet_basis);
  row.carbon = read_published_values(table, "carbon_dry_basis", read_carbon_dry_basis);
  row.carbon_to_nitrogen = read_published_values(table, "carbon_to_nitrogen", read_carbon_to_nitrogen);
  row.nitrogen = read_published_values(table, "nitrogen_dry_basis", read_nitrogen_dry_basis);
  row.volatile_solids = read_published_values(table, "volatile_solids_dry_basis", read_organic_dry_basis);
  row.ash = read_published_values(table, "ash_dry_basis", read_fraction<OfDryMatter>);
  row.particle_density = table.read("particle_density", read_particle_density);
  row.degradable = read_degradable(table);
  row.rots_like = table.one_of("rots_like", rotting_material_words());
  if (!table.has("rots_like")) row.rots_like = replaced.rots_like;
  read_packings(table, row);
  settle_usual_packing(table, row);
  if (row.particle_density && !(*row.particle_density >= particle_density(500.0) && *row.particle_density <= particle_density(5000.0))) {
    table.problem_at("particle_density", "is outside 500–5000 kg/m3", "dry plant matter has about 1500 kg/m3, without its air");
    row.particle_density.reset();
  }
}

void check_feedstock(Table& table, const Feedstock& row) {
  check_moisture(table, row);
  check_third(table, row);
  check_carbon(table, row);
  check_density(table, row);
}

}  // namespace heapwright
