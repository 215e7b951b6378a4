#pragma once
/// The lawn of a yard: its zones, less what is cut out of them.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "heapwright/lawn/measured_by.hpp"
#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

/// How a piece of ground was measured.
enum class Shape { area, rectangle, ellipse, circle, triangle, trapezoid, offsets, radii, polygon, geojson, gpx };

/// A piece of ground as it was measured.
struct Piece {
  Shape shape = Shape::area;
  std::vector<Length> sides;  ///< in the order of the shape's formula in shapes.hpp; none where the area was given, or is of points
  Area area;                  ///< of the ground, a slope included
  std::string name{};
  std::optional<Area> by_simpson{};  ///< of offsets, where their count allows it
  double slope = 0.0;                ///< rise over run, where the area was that of a plan
};

/// What compost is spread on.
enum class Surface { lawn, bare };  ///< a living lawn; bare ground, a new lawn or a bed
/// Each with its word in a yard file.
const std::vector<std::pair<std::string, Surface>>& surface_words();
std::string_view surface_word(Surface surface);

/// A part of a lawn that takes one depth.
struct Zone {
  std::string name;
  Area area;                     ///< less what is cut out
  std::optional<Length> depth;   ///< its own, in place of the topdressing's
  std::optional<Piece> whole{};  ///< before anything is cut out; nothing where only the area is known
  std::vector<Piece> cut_out{};
  std::optional<Surface> surface{};  ///< its own likewise
  std::optional<MeasuredBy> measured_by{};
  std::optional<std::string> job{};  ///< that it is a part of (jobs.hpp)
};

/// All zones.
struct Lawn {
  std::vector<Zone> zones;
};

/// Reads [lawn] with [[lawn.zone]] and [[lawn.without]]; cuts are taken from their zones. A cut larger than its zone is a problem of the
/// file. A file of GeoJSON or GPX may hold several zones and cuts.
Lawn read_lawn(Table& root);

/// Most zones and cuts that one lawn may have, each.
inline constexpr std::size_t most_zones = 200;

/// Σ of the zones.
Area area_of(const Lawn& lawn);

/// Half of the range of the area of a zone, 19 times in 20; nothing where nobody said how it was measured.
std::optional<Area> spread_of(const Zone& zone);
/// Of all zones: they add, as one wheel is off the same way everywhere; nothing where it is not known of each.
std::optional<Area> spread_of(const Lawn& lawn);

/// Trapezoids and Simpson's rule differ by more: too few widths for so curved an edge.
inline constexpr double widths_too_far_apart = 0.05;
/// Whether they do.
bool wants_closer_widths(const Piece& piece);

}  // namespace heapwright
