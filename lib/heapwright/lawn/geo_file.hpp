#pragma once
/// Lawns in files of other programs: GeoJSON (RFC 7946) and GPX 1.1.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/lawn/geodesic.hpp"

namespace heapwright {

/// One outline of a file, with the holes in it.
struct GeoPiece {
  std::string name;  ///< as the file has it; may be empty
  std::vector<GeoPoint> edge;
  std::vector<std::vector<GeoPoint>> holes;
  bool is_cut_out = false;  ///< to be taken from the piece that it lies in
};

/// All polygons of a text: of a Polygon, MultiPolygon, Feature, FeatureCollection or GeometryCollection. A feature's `name` names its
/// pieces, and `cut_out`: true marks what is taken from another. Points, lines and features without geometry are passed over.
/// @throws TextError for what is no GeoJSON or has no polygon, with the feature and the line
std::vector<GeoPiece> read_geojson(const std::string& text);

/// The tracks and routes of a text, each a piece that was walked around. A track that goes on past its start ends where it comes nearest to
/// it. @throws TextError for what is no GPX, has no track, or one that does not come back to its start
std::vector<GeoPiece> read_gpx(const std::string& text);

/// How far a track may end from its start, of its length. Judged.
inline constexpr double gap_of_track = 0.10;

}  // namespace heapwright
