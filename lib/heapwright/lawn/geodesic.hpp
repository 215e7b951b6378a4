#pragma once
/// Pieces of ground by latitude and longitude, on the ellipsoid of WGS 84.

#include <vector>

#include "heapwright/lawn/outline.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

/// In degrees, north and east positive.
struct GeoPoint {
  double latitude = 0.0;
  double longitude = 0.0;
};

/// @throws DomainError for one that is no place on the globe, and for one where no lawn lies, as of a latitude and a longitude the wrong
/// way around: south of 56° S or north of 72° N
void check_geo_point(const GeoPoint& point);

/// The points on a plan about the first of some, without repeats: by the azimuthal equidistant projection, true to 1e-9 over a mile.
Outline plan_of(const std::vector<GeoPoint>& points, const GeoPoint& origin);

/// The area inside geodesics from each point to the next and back to the first, by C. F. F. Karney's series (GeographicLib), at height 0.
/// @throws DomainError as check_geo_point() and check_outline()
Area geodesic_area(const std::vector<GeoPoint>& points);

/// The shortest way on the ellipsoid, by the same series. @throws DomainError as check_geo_point()
Length geodesic_distance(const GeoPoint& from, const GeoPoint& to);

}  // namespace heapwright
