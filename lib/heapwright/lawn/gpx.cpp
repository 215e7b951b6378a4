#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fast_float/fast_float.h>
#include <limits>
#include <pugixml.hpp>
#include <string_view>

#include "heapwright/error.hpp"
#include "heapwright/lawn/geo_file.hpp"

namespace heapwright {
namespace {

/// NaN where it is no number, which is no place.
double degrees_of(const pugi::xml_attribute& attribute) {
  const std::string_view text = attribute.value();
  double degrees = std::numeric_limits<double>::quiet_NaN();
  const auto read = fast_float::from_chars(text.data(), text.data() + text.size(), degrees);
  return read.ptr == text.data() + text.size() ? degrees : std::numeric_limits<double>::quiet_NaN();
}

GeoPoint read_fix(const pugi::xml_node& node, const std::string& place) {
  const GeoPoint point{degrees_of(node.attribute("lat")), degrees_of(node.attribute("lon"))};
  try {
    check_geo_point(point);
  } catch (const DomainError& error) {
    throw TextError(fmt::format("{}: {}", place, error.what()), "each point of a track has lat and lon, in degrees");
  }
  return point;
}

void read_fixes(const pugi::xml_node& node, const char* each, const std::string& place, std::vector<GeoPoint>& points) {
  for (const pugi::xml_node& fix : node.children(each))
    points.push_back(read_fix(fix, fmt::format("{}, point {}", place, points.size() + 1)));
}

Length length_of(const std::vector<GeoPoint>& points) {
  Length length;
  for (std::size_t i = 1; i < points.size(); ++i) length += geodesic_distance(points[i - 1], points[i]);
  return length;
}

/// Without what was walked beyond the start: in the last quarter it ends where it is nearest to the start.
void end_at_start(std::vector<GeoPoint>& points) {
  const auto last_quarter = points.begin() + static_cast<std::ptrdiff_t>(points.size() - points.size() / 4);
  const auto nearest = std::min_element(last_quarter, points.end(), [&](const GeoPoint& one, const GeoPoint& other) {
    return geodesic_distance(points.front(), one) < geodesic_distance(points.front(), other);
  });
  if (nearest != points.end()) points.erase(nearest + 1, points.end());
}

GeoPiece piece_of(const pugi::xml_node& node, std::vector<GeoPoint> points, const std::string& place) {
  end_at_start(points);
  const Length gap = points.empty() ? Length() : geodesic_distance(points.front(), points.back());
  if (!(gap <= gap_of_track * length_of(points)))
    throw TextError(fmt::format("{}: it ends {:.0f} m ({:.0f} ft) from its start", place, gap / unit::m, gap / unit::foot),
                    "walk all the way around the lawn, back to where you began");
  return {node.child_value("name"), std::move(points), {}, false};
}

}  // namespace

std::vector<GeoPiece> read_gpx(const std::string& text) {
  pugi::xml_document document;
  const pugi::xml_parse_result parsed = document.load_buffer(text.data(), text.size());
  if (!parsed) {
    const auto until =
        text.begin() + static_cast<std::ptrdiff_t>(std::min<std::size_t>(static_cast<std::size_t>(parsed.offset), text.size()));
    throw TextError(fmt::format("is no XML, from its line {} on", 1 + std::count(text.begin(), until, '\n')),
                    "export the track as GPX once more");
  }
  std::vector<GeoPiece> pieces;
  const pugi::xml_node root = document.child("gpx");
  for (const pugi::xml_node& track : root.children("trk")) {
    const std::string place = fmt::format("track {}", pieces.size() + 1);
    std::vector<GeoPoint> points;
    for (const pugi::xml_node& segment : track.children("trkseg")) read_fixes(segment, "trkpt", place, points);
    pieces.push_back(piece_of(track, std::move(points), place));
  }
  for (const pugi::xml_node& route : root.children("rte")) {
    const std::string place = fmt::format("route {}", pieces.size() + 1);
    std::vector<GeoPoint> points;
    read_fixes(route, "rtept", place, points);
    pieces.push_back(piece_of(route, std::move(points), place));
  }
  if (pieces.empty()) throw TextError("has no track in it", "record a track while you walk around the lawn, and export it as GPX");
  return pieces;
}

}  // namespace heapwright
