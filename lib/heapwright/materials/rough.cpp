#include "heapwright/materials/rough.hpp"

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/materials/read_published_values.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

DryMassPerArea read_dry_mass_per_area(std::string_view text) { return read_mass_per_area(text) * (unit::kg_dry / unit::kg); }

template <class Quantity>
void require_range(Table& table, std::string_view key, const PublishedValues<Quantity>& values) {
  const bool whole = !values.empty() && values.front().typical && values.front().low && values.front().high;
  if (!whole) table.problem_at(key, "rough knowledge needs typical, low and high", "its first value gives all three");
}

}  // namespace

void read_rough(Table& root, RoughKnowledge& rough) {
  std::optional<Table> table = root.table("rough");
  if (!table) return;
  rough.leaf_fall = read_published_values(*table, "leaf_fall_dry", read_dry_mass_per_area);
  rough.canopy_width = read_published_values(*table, "canopy_width", read_length);
  rough.clippings = read_published_values(*table, "clippings_fresh", read_mass_per_area);
  rough.scraps = read_published_values(*table, "scraps_per_person_week", read_mass);
  require_range(*table, "leaf_fall_dry", rough.leaf_fall);
  require_range(*table, "canopy_width", rough.canopy_width);
  require_range(*table, "clippings_fresh", rough.clippings);
  require_range(*table, "scraps_per_person_week", rough.scraps);
  for (Table& row : table->tables("height")) {
    const auto height = read_published_values(row, "height", read_length);
    require_range(row, "height", height);
    if (!height.empty()) rough.heights.push_back({row.text("id").value_or(""), read_names(row, "also"), height.front()});
    row.finish();
  }
  for (Table& row : table->tables("feel")) {
    const auto moisture = read_published_values(row, "moisture_wet_basis", read_moisture_wet_basis);
    require_range(row, "moisture_wet_basis", moisture);
    if (!moisture.empty()) rough.feels.push_back({row.text("id").value_or(""), moisture.front()});
    row.finish();
  }
  table->finish();
}

PublishedValue<Length> read_height(std::string_view text, const RoughKnowledge& rough) {
  const std::string plain = plain_name(text);
  for (const BodyHeight& row : rough.heights) {
    const bool called = plain == plain_name(row.id) ||
                        std::any_of(row.also.begin(), row.also.end(), [&](const std::string& name) { return plain == plain_name(name); });
    if (called) return row.height;
  }
  const bool number = text.find_first_of("0123456789") != std::string_view::npos;
  if (!number) {
    std::string known;
    for (const BodyHeight& row : rough.heights) known += (known.empty() ? "\"" : ", \"") + row.id + "\"";
    throw TextError("\"" + std::string(text) + "\" is no height", "write a length, \"2 ft\", or " + known);
  }
  PublishedValue<Length> measured;
  measured.typical = measured.low = measured.high = read_length(text);
  return measured;
}

const Feel& find_feel(std::string_view text, const RoughKnowledge& rough) {
  std::string known;
  for (const Feel& feel : rough.feels) {
    if (feel.id == text) return feel;
    known += (known.empty() ? "\"" : ", \"") + feel.id + "\"";
  }
  throw TextError("\"" + std::string(text) + "\" is not how a handful feels", "it is one of " + known);
}

}  // namespace heapwright
