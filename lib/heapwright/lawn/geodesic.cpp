#include "heapwright/lawn/geodesic.hpp"

#include <fmt/format.h>

#include <GeographicLib/AzimuthalEquidistant.hpp>
#include <GeographicLib/Geodesic.hpp>
#include <GeographicLib/PolygonArea.hpp>
#include <cmath>

#include "heapwright/error.hpp"

namespace heapwright {

void check_geo_point(const GeoPoint& point) {
  constexpr double southernmost = -56.0;  // Cape Horn
  constexpr double northernmost = 72.0;   // a little north of Utqiagvik
  const bool on_the_globe = point.latitude >= -90.0 && point.latitude <= 90.0 && point.longitude >= -180.0 && point.longitude <= 180.0;
  const bool has_lawns = point.latitude >= southernmost && point.latitude <= northernmost;
  if (on_the_globe && has_lawns) return;
  throw DomainError(fmt::format("no lawn lies at latitude {:g}, longitude {:g}", point.latitude, point.longitude),
                    "are the two the wrong way around? GeoJSON has the longitude first, then the latitude, in degrees");
}

Outline plan_of(const std::vector<GeoPoint>& points, const GeoPoint& origin) {
  const GeographicLib::AzimuthalEquidistant projection(GeographicLib::Geodesic::WGS84());
  Outline outline;
  for (const GeoPoint& point : points) {
    double east = 0.0;
    double north = 0.0;
    projection.Forward(origin.latitude, origin.longitude, point.latitude, point.longitude, east, north);
    outline.push_back({east * unit::m, north * unit::m});
  }
  return without_repeats(std::move(outline));
}

Area geodesic_area(const std::vector<GeoPoint>& points) {
  for (const GeoPoint& point : points) check_geo_point(point);
  if (points.empty()) throw DomainError("no points go around nothing", "give three or more corners");
  check_outline(plan_of(points, points.front()));
  GeographicLib::PolygonArea polygon(GeographicLib::Geodesic::WGS84());
  for (const GeoPoint& point : points) polygon.AddPoint(point.latitude, point.longitude);
  double perimeter = 0.0;
  double area = 0.0;
  polygon.Compute(false, true, perimeter, area);
  return std::abs(area) * unit::m2;
}

Length geodesic_distance(const GeoPoint& from, const GeoPoint& to) {
  double distance = 0.0;
  GeographicLib::Geodesic::WGS84().Inverse(from.latitude, from.longitude, to.latitude, to.longitude, distance);
  return distance * unit::m;
}

}  // namespace heapwright
