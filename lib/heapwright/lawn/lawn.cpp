#include "heapwright/lawn/lawn.hpp"

#include <algorithm>

#include "heapwright/input/document.hpp"
#include "heapwright/lawn/shapes.hpp"
#include "heapwright/units/text.hpp"

namespace heapwright {
namespace {

const std::vector<std::pair<std::string, Shape>> shape_words{
    {"area", Shape::area},       {"rectangle", Shape::rectangle}, {"ellipse", Shape::ellipse},
    {"circle", Shape::circle},   {"triangle", Shape::triangle},   {"trapezoid", Shape::trapezoid},
    {"offsets", Shape::offsets}, {"polygon", Shape::polygon},     {"geojson", Shape::geojson}};

Length read_side(std::string_view text) {
  const Length length = read_length(text);
  if (!is_positive(length))
    throw TextError("\"" + std::string(text) + "\" is no length to measure with", "write a length above zero: \"60 ft\"");
  return length;
}

std::optional<Length> side(Table& table, std::string_view key) {
  table.require(key, "write " + std::string(key) + " = \"60 ft\"");
  return table.read(key, read_side);
}

std::vector<Length> sides(Table& table, std::string_view key, std::size_t count) {
  std::vector<Length> lengths;
  for (const Value& value : table.list(key)) {
    if (const auto length = value.read(read_side)) lengths.push_back(*length);
  }
  if (lengths.size() == count) return lengths;
  table.problem(
      std::string(key) + " wants " + std::to_string(count) + " lengths",
      std::string("write ") + std::string(key) + (count == 2 ? " = [\"40 ft\", \"60 ft\"]" : " = [\"40 ft\", \"50 ft\", \"60 ft\"]"));
  return {};
}

template <class AreaOfTwo>
std::optional<Piece> of_two(Table& table, Shape shape, std::string_view first_key, std::string_view second_key, AreaOfTwo area) {
  const auto first = side(table, first_key);
  const auto second = side(table, second_key);
  if (!first || !second) return std::nullopt;
  return Piece{shape, {*first, *second}, area(*first, *second)};
}

std::optional<Piece> triangle(Table& table) {
  table.expect("sides");
  if (!table.has("sides"))
    return of_two(table, Shape::triangle, "base", "height", [](Length base, Length height) { return triangle_area(base, height); });
  const std::vector<Length> three = sides(table, "sides", 3);
  if (three.empty()) return std::nullopt;
  try {
    return Piece{Shape::triangle, three, triangle_area(three[0], three[1], three[2])};
  } catch (const DomainError& error) {
    table.problem_at("sides", error.what(), error.hint());
    return std::nullopt;
  }
}

std::optional<Piece> trapezoid(Table& table) {
  const std::vector<Length> parallel = sides(table, "parallel", 2);
  const auto height = side(table, "height");
  if (parallel.empty() || !height) return std::nullopt;
  return Piece{Shape::trapezoid, {parallel[0], parallel[1], *height}, trapezoid_area(parallel[0], parallel[1], *height)};
}

std::optional<Piece> circle(Table& table) {
  const auto diameter = side(table, "diameter");
  if (!diameter) return std::nullopt;
  return Piece{Shape::circle, {*diameter}, circle_area(*diameter)};
}

std::optional<Piece> given_area(Table& table) {
  table.require("area", "write area = \"5000 ft2\"");
  const auto area = table.read("area", read_area);
  if (!area) return std::nullopt;
  return Piece{Shape::area, {}, *area};
}

/// Keys of the shapes that are surveyed point by point.
std::optional<Piece> surveyed(Table& table) {
  for (const char* key : {"spacing", "offsets", "points", "file"}) table.expect(key);
  table.problem_at("shape", "offsets, polygon and geojson are not measured by this version",
                   "divide the lawn into rectangles, triangles, circles and trapezoids, or give shape = \"area\"");
  return std::nullopt;
}

std::optional<Piece> read_shape(Table& table) {
  table.require("shape", "write shape = \"rectangle\" with length and width, or shape = \"area\" with area");
  const auto shape = table.one_of("shape", shape_words);
  if (!shape) {
    for (const char* key :
         {"area", "length", "width", "diameter", "base", "height", "sides", "parallel", "spacing", "offsets", "points", "file"})
      table.expect(key);
    return std::nullopt;
  }
  switch (*shape) {
    case Shape::area: return given_area(table);
    case Shape::rectangle: return of_two(table, *shape, "length", "width", rectangle_area);
    case Shape::ellipse: return of_two(table, *shape, "length", "width", ellipse_area);
    case Shape::circle: return circle(table);
    case Shape::triangle: return triangle(table);
    case Shape::trapezoid: return trapezoid(table);
    case Shape::offsets:
    case Shape::polygon:
    case Shape::geojson: return surveyed(table);
  }
  return std::nullopt;
}

Zone* find_zone(std::vector<Zone>& zones, const std::string& name) {
  const auto found = std::find_if(zones.begin(), zones.end(), [&](const Zone& zone) { return zone.name == name; });
  return found == zones.end() ? nullptr : &*found;
}

/// Whether the zone could be measured.
bool read_zone(Table& table, std::vector<Zone>& zones) {
  Zone zone;
  zone.name = table.text("name").value_or("zone " + std::to_string(zones.size() + 1));
  if (find_zone(zones, zone.name) != nullptr)
    table.problem_at("name", "\"" + zone.name + "\" names two zones", "give each zone a name of its own");
  zone.whole = read_shape(table);
  zone.depth = table.read("depth", read_side);
  table.finish();
  if (zone.whole) zone.area = zone.whole->area;
  zones.push_back(std::move(zone));
  return zones.back().whole.has_value();
}

/// A cut from a zone; one that names no zone is cut from the only one there is.
/// @param measured whether all zones could be, so that a cut may be called too large
void cut(Table& table, std::vector<Zone>& zones, bool measured) {
  const auto name = table.text("name");
  const auto from = table.text("from");
  std::optional<Piece> piece = read_shape(table);
  table.finish();
  if (!from && zones.size() != 1) {
    table.problem("from is missing: which zone is this cut out of?", "write from = \"front\"");
    return;
  }
  Zone* zone = from ? find_zone(zones, *from) : &zones.front();
  if (zone == nullptr) {
    std::string names;
    for (const Zone& known : zones) names += (names.empty() ? "" : ", ") + known.name;
    table.problem_at("from", "there is no zone \"" + *from + "\"",
                     names.empty() ? "write a [[lawn.zone]] first" : "the zones are " + names);
    return;
  }
  if (!piece || !measured) return;
  if (piece->area > zone->area) {
    table.problem("this is larger than what is left of zone \"" + zone->name + "\"", "measure both again");
    return;
  }
  zone->area -= piece->area;
  piece->name = name.value_or("what is cut out");
  zone->cut_out.push_back(std::move(*piece));
}

}  // namespace

Lawn read_lawn(Table& root) {
  Lawn lawn;
  std::optional<Table> table = root.table("lawn");
  if (!table) return lawn;
  std::vector<Table> zones = table->tables("zone");
  std::vector<Table> cuts = table->tables("without");
  if (zones.size() > most_zones || cuts.size() > most_zones) {
    table->problem("more than " + std::to_string(most_zones) + " zones or cuts", "join some");
    return lawn;
  }
  bool measured = true;
  for (Table& zone : zones) measured = read_zone(zone, lawn.zones) && measured;
  for (Table& without : cuts) cut(without, lawn.zones, measured);
  table->finish();
  return lawn;
}

Area area_of(const Lawn& lawn) {
  Area sum;
  for (const Zone& zone : lawn.zones) sum += zone.area;
  return sum;
}

}  // namespace heapwright
