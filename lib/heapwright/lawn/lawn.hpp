#pragma once
/// The lawn of a yard: its zones, less what is cut out of them.

#include <optional>
#include <string>
#include <vector>

#include "heapwright/units/quantities.hpp"

namespace heapwright {

class Table;

enum class Shape { area, rectangle, ellipse, circle, triangle, trapezoid, offsets, polygon, geojson };

/// A piece of ground as it was measured.
struct Piece {
  Shape shape = Shape::area;
  std::vector<Length> sides;  ///< in the order of the shape's formula in shapes.hpp; none where the area was given
  Area area;
  std::string name{};
};

struct Zone {
  std::string name;
  Area area;                     ///< less what is cut out
  std::optional<Length> depth;   ///< its own, in place of the topdressing's
  std::optional<Piece> whole{};  ///< before anything is cut out; nothing where only the area is known
  std::vector<Piece> cut_out{};
};

struct Lawn {
  std::vector<Zone> zones;
};

/// Reads [[lawn.zone]] and [[lawn.without]]; cuts are taken from their zones. A cut larger than its zone is a problem of the file.
Lawn read_lawn(Table& root);

/// Most zones and cuts that one lawn may have, each.
inline constexpr std::size_t most_zones = 200;

Area area_of(const Lawn& lawn);

}  // namespace heapwright
