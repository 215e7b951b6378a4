#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>

#include "heapwright/error.hpp"
#include "heapwright/input/limits.hpp"
#include "heapwright/lawn/geo_file.hpp"

namespace heapwright {
namespace {

using GeoNode = nlohmann::json;

/// Where a reader of GeoJSON is, for its messages: "feature 2 (front), ring 1".
struct GeoPlace {
  std::string words;
  GeoPlace in(const std::string& more) const { return {words.empty() ? more : words + ", " + more}; }
  [[noreturn]] void refuse(const std::string& what, const std::string& hint) const {
    throw TextError(words.empty() ? what : words + ": " + what, hint);
  }
};

std::string text_at(const GeoNode& node, const char* key) {
  const auto found = node.find(key);
  return found != node.end() && found->is_string() ? found->get<std::string>() : std::string();
}

GeoPoint read_position(const GeoNode& position, const GeoPlace& place) {
  const bool is_position = position.is_array() && position.size() >= 2 && position[0].is_number() && position[1].is_number();
  if (!is_position) place.refuse("is no position", "a position is [longitude, latitude], in degrees");
  const GeoPoint point{position[1].get<double>(), position[0].get<double>()};
  try {
    check_geo_point(point);
  } catch (const DomainError& error) {
    place.refuse(error.what(), error.hint());
  }
  return point;
}

std::vector<GeoPoint> read_ring(const GeoNode& ring, const GeoPlace& place) {
  constexpr std::size_t fewest = 4;  // the first again at the end
  if (!ring.is_array() || ring.size() < fewest)
    place.refuse("is no ring", "a ring has four or more positions, the last the same as the first");
  std::vector<GeoPoint> points;
  for (std::size_t i = 0; i < ring.size(); ++i) points.push_back(read_position(ring[i], place.in(fmt::format("position {}", i + 1))));
  if (ring.front() != ring.back()) place.refuse("is not closed", "give the first position once more at the end");
  points.pop_back();
  return points;
}

GeoPiece read_polygon(const GeoNode& rings, const GeoPlace& place) {
  if (!rings.is_array() || rings.empty()) place.refuse("a polygon has no rings", "give a ring of positions");
  GeoPiece piece;
  piece.edge = read_ring(rings[0], place.in("ring 1"));
  for (std::size_t i = 1; i < rings.size(); ++i) piece.holes.push_back(read_ring(rings[i], place.in(fmt::format("ring {}", i + 1))));
  return piece;
}

const GeoNode& member(const GeoNode& node, const char* key, const GeoPlace& place) {
  const auto found = node.find(key);
  if (found == node.end()) place.refuse(fmt::format("has no \"{}\"", key), "save it as GeoJSON (RFC 7946) once more");
  return *found;
}

void read_geometry(const GeoNode& geometry, const GeoPlace& place, std::vector<GeoPiece>& pieces) {
  if (geometry.is_null()) return;
  const std::string type = text_at(geometry, "type");
  if (type == "Polygon") {
    pieces.push_back(read_polygon(member(geometry, "coordinates", place), place));
  } else if (type == "MultiPolygon") {
    int number = 0;
    for (const GeoNode& rings : member(geometry, "coordinates", place))
      pieces.push_back(read_polygon(rings, place.in(fmt::format("polygon {}", ++number))));
  } else if (type == "GeometryCollection") {
    for (const GeoNode& one : member(geometry, "geometries", place)) read_geometry(one, place, pieces);
  }
}

void read_feature(const GeoNode& feature, int number, std::vector<GeoPiece>& pieces) {
  const GeoNode properties = feature.value("properties", GeoNode::object());
  const std::string name = properties.is_object() ? text_at(properties, "name") : std::string();
  const GeoPlace place{name.empty() ? fmt::format("feature {}", number) : fmt::format("feature {} ({})", number, name)};
  std::vector<GeoPiece> own;
  read_geometry(member(feature, "geometry", place), place, own);
  const auto cut_out = properties.is_object() ? properties.find("cut_out") : properties.end();
  for (GeoPiece& piece : own) {
    piece.name = name;
    if (cut_out != properties.end()) piece.is_cut_out = *cut_out == true;
    pieces.push_back(std::move(piece));
  }
}

void read_anything(const GeoNode& root, std::vector<GeoPiece>& pieces) {
  const std::string type = root.is_object() ? text_at(root, "type") : std::string();
  if (type == "FeatureCollection") {
    int number = 0;
    for (const GeoNode& feature : member(root, "features", {})) read_feature(feature, ++number, pieces);
  } else if (type == "Feature") {
    read_feature(root, 1, pieces);
  } else {
    read_geometry(root, {}, pieces);
  }
}

int line_of_byte(const std::string& text, std::size_t byte) {
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(std::min(byte, text.size())), '\n'));
}

/// JSON in memory, of no more levels than its readers may follow one within the other.
GeoNode parsed(const std::string& text) {
  return GeoNode::parse(text, [](int depth, GeoNode::parse_event_t, const GeoNode&) {
    if (depth > deepest_map)
      throw TextError(fmt::format("has more than {} levels, one within the other", deepest_map), "save it as GeoJSON (RFC 7946) once more");
    return true;
  });
}

}  // namespace

std::vector<GeoPiece> read_geojson(const std::string& text) {
  std::vector<GeoPiece> pieces;
  try {
    read_anything(parsed(text), pieces);
  } catch (const GeoNode::parse_error& error) {
    throw TextError(fmt::format("is no JSON, from its line {} on", line_of_byte(text, error.byte)), "save it as GeoJSON once more");
  } catch (const GeoNode::exception&) {
    throw TextError("is JSON, but no GeoJSON", "save it as GeoJSON (RFC 7946)");
  }
  if (pieces.empty()) throw TextError("has no polygon in it", "draw the lawn as a polygon, and save it as GeoJSON (RFC 7946)");
  return pieces;
}

}  // namespace heapwright
